// Package job reads the job file: what a person writes. It is strict, and every
// error has a line and a column.
//
// Files, from the top floor to the ground: merge.go, csv.go, job.go, doubt.go, over.go,
// write.go, shape.go, site.go, carried.go, net.go, levels.go, ground.go, csv_doubt.go,
// csv_fields.go, words.go.
package job

import (
	"fmt"
	"slices"
	"time"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Limits of one job.
const (
	MaxPieces       = 1000
	MaxQuantity     = 1000
	MaxMeasurements = 2000 // of one piece: geom/net takes no more
	MaxName         = 80   // letters of a job's or a piece's name: more does not fit a title line
)

// Setting is a word of the job with its place, read further by those who know
// what it means. Text is empty where the job does not say.
type Setting struct {
	Text  string
	Where string // file:line:column, or the flag that said it
}

// Job is a job file as written. What it does not say is empty or zero.
type Job struct {
	File   string // the name in messages; empty: no file
	Within string // the file that carries this one; empty: none
	Raw    []byte // the bytes as read
	Name   Setting

	Unit, Fraction, Angles, Trade, Paper, Printer Setting

	Date   string             // YYYY-MM-DD
	Site   map[string]Setting // by the words of siteKeys: the ground, the tools and the day
	Pieces []Piece
	Over   Over // what a document was made with
}

// Piece is one triangle, or one net of triangles, to be made.
type Piece struct {
	Name     string // empty where the job gives none
	NameAt   string // where Name was written
	Where    string
	Measure  []Setting // the tokens, such as AB=600
	Notes    []string  // beside each of them, empty where nothing is noted; nil where nothing is
	Quantity int       // 1 where the job does not say
	Pick     Pick
	PickAt   string           // where Pick was written
	Base     [2]geom.Name     // empty: choose
	BaseAt   string           // where Base was written
	With     construct.Method // to construct it
	WithAt   string           // where With was written, where that counts over the job
	Way      construct.Method // to place its pegs, where they are set out; of a merged job

	Outline   []geom.Name // the edge once round; empty: the triangle
	OutlineAt string
	Sides     []Aside // on which side points lie
	SideAt    string
	Found     []Setting // the tokens of what was measured back
	FoundAt   string
	Fixed     []geom.Name // pegs that are known to stand right
	FixedAt   string
	Levels    []Level // how high pegs stand; none: all is level
	LevelsAt  string

	Shape Shape // allowances, corners, holes, hand, face, grain
}

// Read reads a job file whole. Its errors are *unit.Fault with file:line:column.
func Read(file string, data []byte) (Job, error) {
	root, err := strict.Parse(file, data)
	return read(Job{File: file, Raw: data}, root, err)
}

// ReadWithin is Read of a job file that another file carries.
func ReadWithin(within, file string, data []byte) (Job, error) {
	root, err := strict.ParseWithin(within, file, data)
	return read(Job{File: file, Within: within, Raw: data}, root, err)
}

func read(j Job, root strict.Value, err error) (Job, error) {
	if err != nil {
		return j, err
	}
	made, root, carried := root.Take(madeWith)
	if carried {
		if j.Over, err = readOver(made); err != nil {
			return j, err
		}
	}
	fields, err := root.Fields("the job", "job", "unit", "fraction", "angles", "trade", "paper", "printer", "date", "site", "pieces")
	if err != nil {
		return j, err
	}
	settings := map[string]*Setting{"job": &j.Name, "unit": &j.Unit, "fraction": &j.Fraction, "angles": &j.Angles,
		"trade": &j.Trade, "paper": &j.Paper, "printer": &j.Printer}
	for _, f := range fields {
		switch f.Key {
		case "date":
			j.Date, err = date(f.Value)
		case "site":
			j.Site, err = site(f.Value)
		case "pieces":
			j.Pieces, err = pieces(f.Value)
		case "job":
			j.Name.Where = f.Value.Where()
			j.Name.Text, err = name(f.Value, "the job's name")
		default:
			s := settings[f.Key]
			s.Where = f.Value.Where()
			s.Text, err = f.Value.Text(f.Key)
		}
		if err != nil {
			return j, err
		}
	}
	if j.Pieces == nil {
		return j, root.Fault("the job has no pieces", "pieces: and below it  - measure: [AB=600, BC=450, CA=450]")
	}
	return j, j.settle(made)
}

func name(v strict.Value, what string) (string, error) {
	s, err := v.Text(what)
	if err == nil && len([]rune(s)) > MaxName {
		err = v.Fault(fmt.Sprintf("%s is longer than %d letters", what, MaxName), "")
	}
	return s, err
}

func date(v strict.Value) (string, error) {
	s, err := v.Text("date")
	if err != nil {
		return "", err
	}
	if _, err := time.Parse(time.DateOnly, s); err != nil {
		return "", v.Fault(fmt.Sprintf("%q is not a date", strict.Shorten(s)), "write year-month-day, such as 2031-04-30")
	}
	return s, nil
}

func pieces(v strict.Value) ([]Piece, error) {
	items, ok := v.Items()
	switch {
	case !ok:
		return nil, v.Fault("pieces is not a list", "begin each piece with a dash: - measure: [AB=600, BC=450, CA=450]")
	case len(items) == 0:
		return nil, v.Fault("the job has no pieces", "- measure: [AB=600, BC=450, CA=450]")
	case len(items) > MaxPieces:
		return nil, items[MaxPieces].Fault(fmt.Sprintf("more than %d pieces", MaxPieces), "make several jobs of it")
	}
	list := make([]Piece, 0, len(items))
	for _, item := range items {
		p, err := piece(item)
		if err != nil {
			return nil, err
		}
		list = append(list, p)
	}
	return list, nil
}

func piece(v strict.Value) (Piece, error) {
	p := Piece{Where: v.Where(), Quantity: 1}
	fields, err := v.Fields("the piece", append([]string{"name", "measure", "quantity", "pick", "base", "with"}, slices.Concat(netKeys, shapeKeys)...)...)
	if err != nil {
		return p, err
	}
	for _, f := range fields {
		switch f.Key {
		case "name":
			p.NameAt = f.Value.Where()
			p.Name, err = name(f.Value, "the piece's name")
		case "measure":
			p.Measure, err = measure(f.Value)
		case "quantity":
			p.Quantity, err = f.Value.Integer("quantity", 1, MaxQuantity)
		case "edges", "corners", "holes", "handed", "face", "grain":
			err = p.Shape.read(f)
		case "outline", "side", "found", "fixed", "levels":
			err = p.net(f)
		default:
			err = p.word(f)
		}
		if err != nil {
			return p, err
		}
	}
	if p.Measure == nil {
		return p, v.Fault("the piece has no measurements", "measure: [AB=600, BC=450, CA=450]")
	}
	return p, nil
}

// word reads one of the settings that the command line has as well.
func (p *Piece) word(f strict.Field) error {
	text, err := f.Value.Text(f.Key)
	if err != nil {
		return err
	}
	var fault error
	switch f.Key {
	case "pick":
		p.PickAt = f.Value.Where()
		p.Pick, fault = ParsePick(text)
	case "base":
		p.BaseAt = f.Value.Where()
		p.Base, fault = ParseBase(text)
	case "with":
		p.With, fault = ParseMethod(text)
	}
	if bad, ok := fault.(*unit.Fault); ok {
		return f.Value.Fault(f.Key+": "+bad.What, bad.Hint)
	}
	return nil
}
