package template

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/shape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Piece is what is drawn.
type Piece struct {
	Job, Name string
	Marked    words.Marked // how many are marked from it
	construct.Construction
	Measured []triangle.Measurement // of it: other figures are computed

	Shape shape.Shape  // what is done to it beyond the outline; without sides: nothing
	Grain [2]geom.Name // the edge that the grain runs along; empty says nothing
	Face  string       // "face up"; empty says nothing
	Hand  string       // "opposite hand"; empty says nothing
	Which string       // a sentence: which of several placements of its points this is; empty: only one fits

	Shown geom.Polygon // what a page that it shares must show of it
}

// Style is what a trade wants to see and how figures are written.
type Style struct {
	Figures    unit.Style
	Lettering  unit.Length // of figures; 0 is draw.FigureHeight. All that is read follows in its ratio, never under draw.NoteHeight
	Arcs       bool        // the construction: arcs, arms, perpendiculars, parallels
	Heights    bool        // the height over the baseline
	Angles     bool
	Lengths    bool
	Steps      bool        // the construction by hand, in words
	Settings   bool        // how saw and square are set for each corner
	Saw        unit.Angle  // how far the mitre saw turns to each side of a square cut; 0: as most saws do
	Protractor unit.Angle  // the step of its marks; what lies between is set off by its chord. 0: any angle has a mark
	Reach      unit.Length // longest radius of the compasses; beyond it the steps say beam compasses. 0: those that are held in one hand

	CutOut bool // a piece is cut out along its print: it says inside what it is, on a page of its own too

	Language words.Language // of all that is said; nil: English at the bench
}

// sized is a lettering height of draw in the ratio of the figures that are wanted, never
// lower than what can be read.
func (s Style) sized(h unit.Length) unit.Length {
	if s.Lettering == 0 {
		return h
	}
	return max(h*s.Lettering/draw.FigureHeight, draw.NoteHeight)
}

// sizedAll is blocks of a sheet in their sizes.
func (s Style) sizedAll(blocks []sheet.Block) []sheet.Block {
	all := slices.Clone(blocks)
	for i, b := range all {
		switch b := b.(type) {
		case sheet.Paragraph:
			b.Height = s.sized(cmp.Or(b.Height, draw.NoteHeight))
			all[i] = b
		case sheet.List:
			b.Height = s.sized(cmp.Or(b.Height, draw.NoteHeight))
			all[i] = b
		case sheet.Heading:
			b.Height = s.sized(cmp.Or(b.Height, draw.FigureHeight))
			all[i] = b
		}
	}
	return all
}

// length and angle are figures as the paper shows them: bare when measured, in
// parentheses when computed.
func (s Style) length(l unit.Length, measured bool) string {
	return words.Computed(s.Figures.Length(l), measured)
}

func (s Style) angle(a unit.Angle, measured bool) string {
	return words.Computed(s.Figures.Angle(a), measured)
}

// says is what tells of it.
func (s Style) says() words.Language { return words.In(s.Language) }

// ByHand is the piece as it is made by hand.
func (p Piece) ByHand(s Style) words.ByHand {
	h := words.ByHand{Construction: p.Construction, Shape: p.Shape, Given: map[geom.Name]unit.Reading{},
		Figures: s.Figures, Reach: s.Reach, Protractor: s.Protractor, Saw: s.Saw}
	for i, n := range p.Outline.Names {
		if given, ok := p.Given(i); ok {
			h.Given[n] = given
		}
	}
	for i, n := range p.Triangle.Names {
		h.Heights[i] = p.measured(triangle.Height, n)
	}
	return h
}

// Ready says, before any page is laid, whether a piece can be drawn at all. A
// *unit.Fault names a character of its names that the lettering does not have.
func Ready(p Piece, r draw.Ruler) error {
	for _, w := range []struct {
		of    unit.Subject
		words string
	}{{unit.Job, p.Job}, {unit.Piece, p.Name}} {
		if c := r.Missing(w.words); c != 0 {
			return &unit.Fault{
				Subject: w.of, Of: fmt.Sprintf("%q", w.words),
				What: fmt.Sprintf("the lettering has no character %q (%U)", c, c),
				Hint: "write the name with letters that the Go fonts have (Latin, Greek and Cyrillic)",
			}
		}
	}
	return nil
}

// Given is the angle at corner i as it was measured, where the piece has just that:
// where more was measured than needed, it may have another.
func (p Piece) Given(i int) (unit.Reading, bool) {
	o := p.Outline
	if i >= len(o.Names) {
		return unit.Reading{}, false
	}
	for _, m := range p.Measured {
		if m.Kind != triangle.Angle || m.At[1] != o.Names[i] || !p.between(m) {
			continue
		}
		degrees, _ := m.Value.Value.Float64()
		if math.Abs(degrees-o.Angles[i].Degrees()) < 1e-9 {
			return m.Value, true
		}
	}
	return unit.Reading{}, false
}

// angle at corner i as the paper shows it: as it was given, nothing rounded, or
// computed.
func (p Piece) angle(i int, s Style) string {
	if given, ok := p.Given(i); ok {
		return s.Figures.Given(given)
	}
	return s.angle(p.Outline.Angles[i], false)
}

// between says whether an angle is the one inside the piece at its corner.
func (p Piece) between(m triangle.Measurement) bool {
	if m.At[0] == "" {
		return true
	}
	o := p.Outline
	i, _ := o.Corner(m.At[1])
	a, b := o.Names[o.Before(i)], o.Names[o.Next(i)]
	return o.Angles[i] < unit.Turn/2 && (m.At[0] == a && m.At[2] == b || m.At[0] == b && m.At[2] == a)
}

// measured says whether the job gave a length between two points or a height from a point.
func (p Piece) measured(kind triangle.Kind, at ...geom.Name) bool {
	return slices.ContainsFunc(p.Measured, func(m triangle.Measurement) bool {
		return m.Kind == kind && m.At[0] == at[0] && (kind == triangle.Height || m.At[1] == at[1]) ||
			m.Kind == kind && kind == triangle.Distance && m.At[0] == at[1] && m.At[1] == at[0]
	})
}

// shaped says whether anything is done to the piece beyond its outline.
func (p Piece) shaped() bool { return len(p.Shape.Sides) > 0 }

// corners of the piece in the plane of the sheets, where its finished edges cross:
// what the plan holds may be more than that.
func (p Piece) corners(plan paging.Plan) geom.Polygon {
	if !p.shaped() {
		return plan.Outline
	}
	return plan.Place.Polygon(p.Outline.Points)
}
