// Package report is what trammel found and made, for other software: the shape of what
// --json writes, in mm and degrees, and how it follows from solved pieces.
//
// Files, from the top floor to the ground: report.go, check_report.go, setout_report.go, net_report.go,
// shape_report.go.
package report

import (
	"slices"
	"strings"

	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/plot/draw"
	"trammel/profiles/job"
)

// Report is what trammel found and made, for other software: lengths in mm,
// angles in degrees, full double precision.
type Report struct {
	Version int           `json:"version"`
	Job     string        `json:"job"`
	Unit    string        `json:"unit"` // that figures are written in
	Trade   string        `json:"trade,omitempty"`
	Date    string        `json:"date,omitempty"`
	Pieces  []PieceReport `json:"pieces"`
	Sheet   *SheetReport  `json:"sheet,omitempty"`
	Pages   []PageReport  `json:"pages"`
}

// PieceReport is one triangle, or one net of more points.
type PieceReport struct {
	Name      string                `json:"name"`
	Case      string                `json:"case"`
	Pick      int                   `json:"pick"`
	Answers   int                   `json:"answers"`
	Quantity  int                   `json:"quantity"`
	Base      string                `json:"base"`
	Outline   []string              `json:"outline,omitempty"` // counter-clockwise
	Points    map[string][2]float64 `json:"points"`
	Sides     map[string]float64    `json:"sides"`
	Angles    map[string]float64    `json:"angles"`
	Heights   map[string]float64    `json:"heights"`
	Area      float64               `json:"area_mm2"`
	Perimeter float64               `json:"perimeter"`
	Measured  []measuredReport      `json:"measured"`
	Warnings  []string              `json:"warnings"`
	// Side says of a net that fits in several ways what only this one has, Others the
	// same of those that the job's own sides exclude.
	Side   []string      `json:"side,omitempty"`
	Others []otherReport `json:"others,omitempty"`
	Layout *LayoutReport `json:"layout,omitempty"`
	Setout *SetoutReport `json:"setout,omitempty"` // of setout: how it is set out
	Shape  *shapeReport  `json:"shape,omitempty"`
	Net    *netReport    `json:"net,omitempty"` // where more than a triangle, or more than needed, was measured
}

// otherReport is another way in which the points of a net may lie.
type otherReport struct {
	Side []string `json:"side"`
	Area float64  `json:"area_mm2"`
}

// measuredReport is one measurement beside the triangle. Moves says how far each
// corner goes for 1 mm more (a length) or 0.5° more (an angle). Where is of the job as
// it was read first: a PDF that carries it says what its file said.
type measuredReport struct {
	Token     string             `json:"token"`
	Where     string             `json:"where,omitempty"`
	Kind      string             `json:"kind"` // distance, angle or height
	Value     float64            `json:"value"`
	Tolerance float64            `json:"tolerance"`
	Stated    bool               `json:"tolerance_stated"`
	Residual  float64            `json:"residual"` // computed less measured
	Moves     map[string]float64 `json:"moves,omitempty"`
	// Adjustment of it among the others, where there was one.
	Adjustment *adjustmentReport `json:"adjustment,omitempty"`
}

// LayoutReport says how a piece lies on its pages.
type LayoutReport struct {
	Pages   int     `json:"pages"`   // of one copy
	Rows    int     `json:"rows"`    // of the grid they lie in
	Columns int     `json:"columns"` //
	Turn    float64 `json:"turn"`    // of the piece on the paper, degrees counter-clockwise
	Plain   int     `json:"plain"`   // pages that plain rows and columns would have taken
	Least   int     `json:"least"`   // the fewest that any placement needs
	Proven  bool    `json:"proven"`  // that Least is the fewest
}

// SheetReport is the paper.
type SheetReport struct {
	Paper   string  `json:"paper"`
	Printer string  `json:"printer"`
	Width   float64 `json:"width"`
	Height  float64 `json:"height"`
	Left    float64 `json:"left"`
	Top     float64 `json:"top"`
	Right   float64 `json:"right"`
	Bottom  float64 `json:"bottom"`
	Overlap float64 `json:"overlap"`
}

// PageReport is one page as the finished file has it.
type PageReport struct {
	Number int           `json:"number"`
	Label  string        `json:"label"`
	Kind   string        `json:"kind"`
	Width  float64       `json:"width"`
	Height float64       `json:"height"`
	Places []placeReport `json:"places"`
	// Lay is the page's place in the order in which those of one template are laid, from
	// 1. Kept is what is left of it when it is cut along its unbroken lines: a polygon in
	// the page's mm, counter-clockwise, the first point not repeated.
	Lay  int          `json:"lay,omitempty"`
	Kept [][2]float64 `json:"kept,omitempty"`
	// Warp leads from where marks are to be on the paper to where they lie in the file,
	// on a page that is made for one printer alone. Places lead to the file.
	Warp *[6]float64 `json:"warp,omitempty"`
}

// placeReport is a piece on a page: its index among the pieces, which copy of
// it, counted from 1, and the matrix from its coordinates to the page's.
type placeReport struct {
	Piece  int        `json:"piece"`
	Copy   int        `json:"copy"`
	Matrix [6]float64 `json:"matrix"`
}

// Of returns the report of the solved pieces, without pages.
func Of(w solved.Work) Report {
	r := Report{
		Version: 1, Job: w.Title, Unit: w.Figures.Unit.String(), Trade: w.Trade.Name, Date: w.Job.Date,
		Pieces: make([]PieceReport, len(w.Pieces)), Pages: []PageReport{},
	}
	for i, p := range w.Pieces {
		r.Pieces[i] = reportOne(w, p)
		places(w, &r.Pieces[i])
	}
	return r
}

func reportOne(w solved.Work, p solved.Piece) PieceReport {
	r := PieceReport{
		Name: p.Name, Case: p.Solution.Case, Pick: p.Answer + 1, Answers: len(p.Solution.Answers), Quantity: p.Quantity,
		Points: map[string][2]float64{}, Sides: map[string]float64{}, Angles: map[string]float64{}, Heights: map[string]float64{},
		Measured: measured(p), Warnings: append([]string{}, p.Cares()...), Outline: geom.Texts(p.Outline().Names), Shape: reportShape(w, p),
	}
	if a, ok := p.Checked(); ok {
		r.Net = reportNet(w, a)
		adjustments(r.Measured, a)
	}
	if p.Net != nil {
		r.net(p)
		return r
	}
	t := p.Triangle()
	r.Base, r.Area, r.Perimeter = string(t.Names[0]+t.Names[1]), float64(t.Area), t.Perimeter.MM()
	for i, n := range t.Names {
		r.Points[string(n)] = Pair(t.Points[i])
		r.Angles[string(n)] = t.Angles[i].Degrees()
		r.Heights[string(n)] = t.Heights[i].MM()
	}
	for _, s := range solved.Sides(t) {
		r.Sides[s.Name] = s.Length.MM()
	}
	return r
}

// Kinds of measurements, as software reads them.
var Kinds = map[triangle.Kind]string{triangle.Distance: "distance", triangle.Angle: "angle", triangle.Height: "height"}

func measured(p solved.Piece) []measuredReport {
	list := make([]measuredReport, len(p.Solution.Measured))
	for i, m := range p.Solution.Measured {
		value, _ := m.Value.Value.Float64()
		tolerance, _ := m.Value.Tolerance.Float64()
		list[i] = measuredReport{Token: m.Text, Where: m.Where, Kind: Kinds[m.Kind], Value: value, Tolerance: tolerance, Stated: m.Value.Stated}
	}
	if p.Net != nil {
		for i, s := range p.Net.Results {
			list[i].Residual = solved.Figure(s.Measurement.Kind, s.Residual)
		}
		return list
	}
	a := p.Solution.Answers[p.Answer]
	for i, r := range a.Residuals {
		list[i].Residual = solved.Figure(p.Solution.Measured[i].Kind, adjust.Figure(r))
	}
	for _, m := range a.Moves {
		moves := map[string]float64{}
		for i, n := range a.Triangle.Names {
			moves[string(n)] = m.Corners[i].MM()
		}
		list[m.Measurement].Moves = moves
	}
	return list
}

func ReportPage(number int, p draw.Page) PageReport {
	r := PageReport{Number: number, Label: p.Label, Kind: string(p.Kind), Width: p.Width.MM(), Height: p.Height.MM(), Places: []placeReport{}, Lay: p.Lay}
	if p.Warp != (draw.Matrix{}) {
		r.Warp = (*[6]float64)(&p.Warp)
	}
	if p.Lay > 0 {
		for _, q := range p.Kept() {
			r.Kept = append(r.Kept, [2]float64{q.X.MM(), q.Y.MM()})
		}
	}
	for _, q := range p.Places {
		r.Places = append(r.Places, placeReport{q.Piece, q.Copy + 1, q.Matrix})
	}
	return r
}

// place is where something was written, as a report has it: of a job that a document
// carries, where it was written at first.
func place(w solved.Work, where string) string {
	j := w.Job
	inner, ok := strings.CutPrefix(where, j.Within+" ("+j.File+":")
	if j.Within == "" || !ok {
		return where
	}
	inner = strings.TrimSuffix(inner, ")")
	source := j.MadeWith.Source.Text
	switch {
	case source == job.CommandLine:
		return ""
	case source == "":
		return j.File + ":" + inner
	case len(j.MadeWith.Places) == len(j.Pieces[0].Measure):
		if i := slices.IndexFunc(j.Pieces[0].Measure, func(t job.Setting) bool { return t.Where == where }); i >= 0 {
			inner = j.MadeWith.Places[i].Text
		}
	}
	return source + ":" + inner
}

// places are those of a report, where the job was written at first.
func places(w solved.Work, r *PieceReport) {
	for i := range r.Measured {
		r.Measured[i].Where = place(w, r.Measured[i].Where)
	}
	if r.Shape == nil {
		return
	}
	for i := range r.Shape.Holes {
		r.Shape.Holes[i].Where = place(w, r.Shape.Holes[i].Where)
	}
}
