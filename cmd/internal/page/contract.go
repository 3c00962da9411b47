// Package page answers what a page in the browser asks: one function, the same over a
// loopback server and in WebAssembly. It opens no file, no connection and no window, and
// whatever it is given it answers with a line.
//
// # Ask and reply
//
// Both are one line of JSON (an Ask, a Reply), a line feed, and then the bytes of a file,
// perhaps none: the file that is opened, the document that was made.
//
//	{"version":1,"do":"solve","job":{"pieces":[{"measure":["AB=600","BC=450","CA=450"]}]},"width":360}
//	{"version":1,"looks":[{"piece":0,"verdict":"fits",…}]}
//
// The job is a job file in JSON, saved with an indent of one blank and a line feed at its
// end (what a PDF carries is that file to the byte), with all that the command line knows, and nothing is said
// of it elsewhere: what the page keeps, links to, saves, and what a PDF carries is one
// thing. What a job file has no key of its own for stands in its made_with: landscape,
// pages (full, outline), apart, copies, without. Measurements are tokens as people write
// them: "AB=600", "A=35deg", "C-AB=620", "AB=2ft 3 1/2in".
//
// # What is done
//
//	lists    papers, printers, trades, units, voices, documents with their forms   → lists
//	solve    each piece known, with its picture; no page is laid: for each edit    → looks
//	pages    how the pieces lie on paper, and what would take fewer                → sheets, summary
//	look     solve and pages                                                       → looks, sheets
//	sketch   the rough shape of what is said so far, and what is still missing     → looks (verdict missing or none)
//	steps    the construction by hand, a picture and a sentence a step             → plays
//	setout   the setting-out sheet, a step a screen                                → setouts
//	judge    one reading against the range of its check, for each key              → judged
//	check    found against asked; each reading judged by itself as well            → checks, passed
//	make     a document: what and as, as lists names them                          → file, type and its bytes
//	open     a job, a table or trammel's own PDF that lies behind the line         → job
//	learn    what was read on a calibration sheet                                  → printer
//
// Solve answers a job in which something is missing or nothing fits with a fault and,
// where points are named at all, with the sketch in looks: a page asks once an edit.
//
// # Faults
//
// Where is a JSON pointer into the job ("/pieces/0/measure/1"), into the ask ("ask:/found/0")
// or, of a table that was opened, its line and column. What and Hint are the command line's
// own sentences without its flags: of a thing that would be a flag, Hint says the key.
//
// Files, from the top floor to the ground: answer.go, documents.go, opened.go, ground.go,
// byhand.go, looks.go, sheets.go, lists.go, printers.go, drawn.go, refused.go, advice.go,
// pointer.go, question.go, contract.go.
package page

import (
	"encoding/json"

	"trammel/cmd/internal/report"
)

// Version of the contract. A page and a carrier of different builds do not talk.
const Version = 1

// Limits of one ask.
const (
	MostLine = 1 << 20  // bytes of the line: a job is less than a kilobyte
	MostFile = 64 << 20 // bytes of the file behind it
)

// Ask is what the page wants.
type Ask struct {
	Version  int             `json:"version"`
	Do       string          `json:"do"`
	Job      json.RawMessage `json:"job,omitempty"`    // an object: a job file in JSON
	Piece    *int            `json:"piece,omitempty"`  // of steps, setout and check: one piece of the job, from 0; none: all
	Width    int             `json:"width,omitempty"`  // that the sketch has room for, in CSS px; 0: 360
	Document string          `json:"what,omitempty"`   // of make: the name of a document
	As       string          `json:"as,omitempty"`     // of make: its form: pdf, svg, csv, txt, png, json (the report), job
	Sheets   string          `json:"sheets,omitempty"` // of make tasks: task, or key and overlay, parted by commas; none: task
	Name     string          `json:"name,omitempty"`   // of open: the name of the file; else of the job's file, job.json unless said
	Found    []string        `json:"found,omitempty"`  // of check: what was measured back, AB=4510; over the job's own
	Fixed    []string        `json:"fixed,omitempty"`  // of check: pegs that are known to stand right
	Check    int             `json:"check,omitempty"`  // of judge: the check's number, and what was read in found
	Voice    string          `json:"voice,omitempty"`  // of steps and setout: class, bench, floor or ground; over the job's
	Pixels   int             `json:"pixels,omitempty"`
	// Printers are calibrations as the page keeps them, the very text that learn gave, by
	// the printer's name.
	Printers  map[string]string `json:"printers,omitempty"`
	Calibrate *Calibrate        `json:"calibrate,omitempty"` // of learn, and of make calibrate
}

// Calibrate is what is asked about a printer, in the words of trammel calibrate.
type Calibrate struct {
	Printer string `json:"printer"`
	Paper   string `json:"paper,omitempty"`
	Margin  string `json:"margin,omitempty"`
	Again   bool   `json:"again,omitempty"`
	Sheet   int    `json:"sheet,omitempty"`
	Found   string `json:"found,omitempty"` // width=…,height=…,diagonal=…,diagonal=…[,edges=l,t,r,b]
	Rule    string `json:"rule,omitempty"`
	Reading string `json:"reading,omitempty"`
	Date    string `json:"date,omitempty"` // of the readings, year-month-day
}

// Reply is what the page gets. What does not belong to what was asked is left out.
type Reply struct {
	Version  int              `json:"version"`
	Fault    *Fault           `json:"fault,omitempty"`
	Warnings []string         `json:"warnings,omitempty"` // what is doubtful, the worst first
	Summary  []string         `json:"summary,omitempty"`  // what was made, in a few lines
	Looks    []Look           `json:"looks,omitempty"`
	Sheets   *Sheets          `json:"sheets,omitempty"`
	Plays    []Play           `json:"plays,omitempty"`
	Setouts  []Setout         `json:"setouts,omitempty"`
	Checks   []Check          `json:"checks,omitempty"`
	Judged   *Judged          `json:"judged,omitempty"`
	Passed   *bool            `json:"passed,omitempty"`
	Job      *json.RawMessage `json:"job,omitempty"`
	Lists    *Lists           `json:"lists,omitempty"`
	Printer  *Printer         `json:"printer,omitempty"`
	File     string           `json:"file,omitempty"` // name of the file behind the line
	Type     string           `json:"type,omitempty"` // its media type
	Travels  string           `json:"travels,omitempty"`
}

// Fault is what is wrong.
type Fault struct {
	Kind  string `json:"kind"`            // of faultKinds
	Where string `json:"where,omitempty"` // a JSON pointer
	Piece *int   `json:"piece,omitempty"` // of the job, where the fault is of one
	Of    string `json:"of,omitempty"`    // what it is about: paper, printer, base, pick …
	What  string `json:"what"`
	Hint  string `json:"hint,omitempty"`
}

// Kinds of faults.
const (
	Words   = "words"   // they are wrong: the picture of before may stay, pale
	Missing = "missing" // more has to be measured: no reproach
	None    = "none"    // no shape has these measurements
	Many    = "many"    // several have, and nobody said which
	Slip    = "slip"    // something was all but certainly misread: nothing is made of it
	Stopped = "stopped" // by who asked
	Broken  = "broken"  // the program's own
)

// Verdicts on a piece.
const (
	Fits  = "fits"  // and nothing is doubtful
	Doubt = "doubt" // it fits, and something is doubtful: never green
	Two   = "two"   // or more fit: each is a look, of one piece
)

// Look is a piece as it is known. Of a piece of which several fit there are several.
type Look struct {
	Piece    int                 `json:"piece"`    // of the job, from 0
	Title    string              `json:"title"`    //
	Verdict  string              `json:"verdict"`  // fits, doubt, two, missing or none
	Says     string              `json:"says"`     // the verdict in a sentence
	Answer   int                 `json:"answer"`   // which of those that fit, from 1
	Answers  int                 `json:"answers"`  // how many do
	Picked   bool                `json:"picked"`   // it is known which
	Choose   map[string]any      `json:"choose"`   // keys of the piece in the job that pick this one: {"pick":"1"}, {"side":["D left of AC"]}
	Suspects []Suspect           `json:"suspects"` // what may hold a slip, the likeliest first
	Warnings []string            `json:"warnings"` // suspects first
	Measures []Measure           `json:"measures"` // one a token of the job, in its order
	Figures  map[string]string   `json:"figures"`  // as people read them: "AB": "600", "A": "48.2°", "C-AB": "335.4"
	Points   []string            `json:"points"`   // named so far, in the order of the alphabet
	Outline  []string            `json:"outline"`  // counter-clockwise; empty: nobody said
	Report   *report.PieceReport `json:"report,omitempty"`
	Picture  any                 `json:"picture,omitempty"` // of plot/screen
}

// Suspect is a measurement that may hold a slip.
type Suspect struct {
	Measure int      `json:"measure"` // its index in the piece's measure
	Of      string   `json:"of"`      // AB
	Says    string   `json:"says"`    //
	Likely  []string `json:"likely"`  // tokens that would agree, the likeliest first
	Certain bool     `json:"certain"` // nothing is made until it is mended
	Alike   bool     `json:"alike"`   // another one would explain as much
	Marked  bool     `json:"marked"`  // on the picture: the first, and its equals that a known slip explains
}

// Measure is one measurement of a piece.
type Measure struct {
	Token   string  `json:"token"`
	Of      string  `json:"of"`                // AB, A, C-AB
	Kind    string  `json:"kind"`              // distance, angle, height
	Figure  string  `json:"figure"`            // of it, as written
	Comes   string  `json:"comes,omitempty"`   // what it comes to in the shape
	Off     float64 `json:"off"`               // that less what was measured, mm or degrees
	Suspect bool    `json:"suspect,omitempty"` //
}

// Sheets are the pages of a template.
type Sheets struct {
	Paper     string     `json:"paper"`
	Printer   string     `json:"printer"`
	Count     int        `json:"count"` // of all pages
	Pieces    []Laid     `json:"pieces"`
	Summary   []string   `json:"summary"`
	Otherwise []Fewer    `json:"otherwise"` // what would take fewer
	Picture   any        `json:"picture,omitempty"`
	Size      [2]float64 `json:"size"` // of a sheet, mm
}

// Laid is how one piece lies on its sheets.
type Laid struct {
	Piece   int     `json:"piece"`
	Title   string  `json:"title"`
	Pages   int     `json:"pages"`
	Rows    int     `json:"rows"`
	Columns int     `json:"columns"`
	Turn    float64 `json:"turn"` // of the piece on the paper, degrees counter-clockwise
	// Cells are the windows of the sheets in the piece's own coordinates: four corners each.
	Cells   []Cell `json:"cells"`
	Picture any    `json:"picture,omitempty"` // of plot/screen: the piece level, its sheets askew
}

// Cell is one sheet on the map.
type Cell struct {
	Label   string        `json:"label"`
	Corners [4][2]float64 `json:"corners"` // mm
}

// Fewer is another way that takes fewer sheets.
type Fewer struct {
	Pages int            `json:"pages"`
	Says  string         `json:"says"`
	Set   map[string]any `json:"set,omitempty"`  // keys of the job that do it, {"paper":"roll"}; made_with with its own
	What  string         `json:"what,omitempty"` // the document to make instead
}

// Play is the construction of one piece.
type Play struct {
	Piece    int      `json:"piece"`
	Title    string   `json:"title"`
	Answer   int      `json:"answer"`
	Steps    []Step   `json:"steps"`
	Bring    []string `json:"bring"`
	Cautions []string `json:"cautions"`
	Base     any      `json:"base,omitempty"` // the picture before the first step
}

// Step is one step by hand.
type Step struct {
	Says    string `json:"says"`
	Picture any    `json:"picture,omitempty"` // of plot/panel: what is drawn so far, the new stroke, the instrument
}

// Setout is the setting-out sheet of one piece.
type Setout struct {
	Piece    int                  `json:"piece"`
	Title    string               `json:"title"`
	Baseline string               `json:"baseline"`
	Steps    []Ground             `json:"steps"` // one a screen, the checks last
	Bring    []string             `json:"bring"`
	Cautions []string             `json:"cautions"`
	Doubts   []string             `json:"doubts"`
	Report   *report.SetoutReport `json:"report,omitempty"`
	Warnings []string             `json:"warnings"`
}

// Ground is one step out on the ground.
type Ground struct {
	Says string `json:"says"`
	// Pull is the number of the pull in Report.Pulls that the step is of; 0: none. Check
	// the same of a check. Reading is what the tape shows there.
	Pull    int     `json:"pull,omitempty"`
	Check   int     `json:"check,omitempty"`
	From    string  `json:"from,omitempty"`
	To      string  `json:"to,omitempty"`
	Reads   string  `json:"reads,omitempty"`
	Reading float64 `json:"reading,omitempty"` // mm, or degrees
	Angle   bool    `json:"angle,omitempty"`   // it is an angle
	Least   float64 `json:"least,omitempty"`
	Most    float64 `json:"most,omitempty"`
	// Token begins the measurement that the reading makes: "AC=" and what was typed; judge
	// and check are asked with it.
	Token   string `json:"token,omitempty"`
	Picture any    `json:"picture,omitempty"` // a small plan, the pull in bold
}

// Judged is what is said of one reading while it is typed.
type Judged struct {
	Good bool    `json:"good"`
	Says string  `json:"says"`
	Off  float64 `json:"off"` // read less wanted, mm or degrees
}

// Check is what was found of one piece.
type Check struct {
	Piece    int       `json:"piece"`
	Title    string    `json:"title"`
	Passed   bool      `json:"passed"`
	Verdict  string    `json:"verdict"`
	Advice   []string  `json:"advice"` // the move of a wrong peg first
	Readings []Reading `json:"readings"`
	Picture  any       `json:"picture,omitempty"`
}

// Reading is one that was found.
type Reading struct {
	Token  string  `json:"token"`
	Says   string  `json:"says"`
	Inside bool    `json:"inside"`
	Off    float64 `json:"off"` // found less wanted
}

// Lists is what there is to choose from.
type Lists struct {
	Build     string     `json:"build"`
	Documents []Document `json:"documents"`
	Papers    []Choice   `json:"papers"`
	Printers  []Choice   `json:"printers"`
	Trades    []Choice   `json:"trades"`
	Units     []string   `json:"units"`
	Voices    []string   `json:"voices"`
	Layers    []string   `json:"layers"`
	Default   struct {
		Paper   string `json:"paper"`
		Printer string `json:"printer"`
		Trade   string `json:"trade"`
	} `json:"default"`
}

// Choice is one thing of a list.
type Choice struct {
	Name string `json:"name"`
	Says string `json:"says,omitempty"` // its size, or what it is for
}

// Document is a kind of document.
type Document struct {
	Name     string   `json:"name"`
	As       []string `json:"as"`
	Example  string   `json:"example"`
	Readings bool     `json:"readings,omitempty"` // it needs what was measured back
	Printer  bool     `json:"printer,omitempty"`  // it needs a printer and no job
}

// Printer is what is known of a printer, to be kept by the page.
type Printer struct {
	Name string   `json:"name"`
	Text string   `json:"text"` // the file that trammel calibrate keeps, and asks bring in printers
	Says []string `json:"says"`
}
