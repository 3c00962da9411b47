package app

import (
	"cmp"
	"fmt"
	"iter"
	"regexp"
	"slices"
	"strings"

	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/paging"
	"trammel/plot/template"
	"trammel/plot/words"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// document of a job, as yet without its pages.
func (w Work) document(subject string) *Document {
	return &Document{Warnings: w.Warnings(), Travels: w.travels(), carried: w.attachment, head: draw.Document{Title: w.documentTitle(), Subject: subject, Language: words.In(w.Language).Aloud().Language(), Date: w.Job.Date}}
}

// furniture of copy c of a piece, whose first page has the number in the document.
func (t *layout) furniture(l laid, c, number int) furniture.Furniture {
	w := t.work
	return furniture.Furniture{
		Job: w.Title, Piece: l.piece.Title(), PieceIndex: l.index, Copy: c, Copies: w.Copies, Mark: w.Words().Templates().Mark(marked(w, l.piece)),
		Inches: w.Figures.Unit >= unit.IN, Figures: w.Figures.Name(), Date: w.Job.Date, Printer: w.printer(), Language: w.Language, Lettering: w.Trade.Lettering,
		Note: w.Words().Templates().Measures(l.piece.Shape),
	}
}

func (w Work) templatePiece(p solved.Piece) template.Piece {
	t := template.Piece{
		Job: w.Title, Name: p.Title(), Marked: marked(w, p),
		Construction: p.Construction, Measured: p.Solution.Measured,
		Shape: p.Shape, Grain: p.Grain, Face: p.Facing(), Hand: p.Hand(), Shown: p.Covered(),
	}
	if p.Net != nil {
		t.Which = w.Words().Nets().Which(*p.Net)
	}
	return t
}

// marked is how many pieces are marked from a template.
func marked(w Work, p solved.Piece) words.Marked {
	pair := w.Job.Pieces[p.Index].Shape.Pair && !p.Other && (solved.Piece{Other: true, Face: p.Face}).Turned(w.BothHands)
	return words.Marked{Each: p.Quantity, Pair: pair}
}

func (w Work) style() template.Style {
	t := w.Trade
	return template.Style{
		CutOut:   words.Named(cmp.Or(w.Voice, t.Voice)) != words.Class, // a class draws it, and lays it on its print
		Language: w.Language, Figures: w.Figures, Lettering: t.Lettering, Reach: t.Compass, Saw: t.Saw, Protractor: t.Protractor,
		Arcs: t.Show["arcs"], Heights: t.Show["heights"], Angles: t.Show["angles"], Lengths: t.Show["lengths"], Steps: t.Show["steps"], Settings: t.Show["settings"],
	}
}

// onePage is the plan of a sheet that shows all of an outline.
func onePage(on paging.Sheet, outline geom.Polygon) paging.Plan {
	return paging.Plan{
		Sheet: on, Outline: outline, Rows: 1, Cols: 1, Least: 1, Bound: 1, Parallel: 1, Plain: 1,
		Cells: []paging.Cell{{Label: "1", Window: geom.Rect{Max: geom.Point{X: on.Width - on.Left - on.Right, Y: on.Height - on.Top - on.Bottom}}}},
	}
}

func theOnly(pages iter.Seq[draw.Page]) (page draw.Page) {
	for page = range pages {
	}
	return page
}

// fileName keeps of a name what every file system takes.
func fileName(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
	s := strings.Join(words, "-")
	s = cmp.Or(strings.Trim(s[:min(len(s), 60)], "-"), "piece")
	if devices.MatchString(s) {
		s += "-piece"
	}
	return s
}

// devices are names that Windows keeps to itself, whatever the ending.
var devices = regexp.MustCompile(`^(con|prn|aux|nul|com[0-9]|lpt[0-9])$`)

// numbered is the name of the file of piece i of several.
func numbered(i, of int, name string) string {
	return fmt.Sprintf("%0*d-%s", len(fmt.Sprint(of)), i+1, fileName(name))
}

// Layers are the names of the layers that can be left out.
func Layers() []string {
	var names []string
	for _, l := range draw.Layers() {
		if l != draw.Outline && !l.Fixed() {
			names = append(names, l.String())
		}
	}
	return names
}

// without reads a list of layers to be left out: construction,notes.
func without(t job.Setting) ([]draw.Layer, error) {
	if t.Text == "" {
		return nil, nil
	}
	var hide []draw.Layer
	for _, name := range strings.Split(t.Text, ",") {
		name = strings.TrimSpace(name)
		i := slices.IndexFunc(draw.Layers(), func(l draw.Layer) bool { return l.String() == name })
		switch {
		case name == draw.Outline.String():
			return nil, &unit.Fault{Where: t.Where, What: "the outline is what is cut, and stays", Hint: "layers: " + strings.Join(Layers(), ", ")}
		case i < 0 || draw.Layers()[i].Fixed():
			return nil, &unit.Fault{Where: t.Where, What: fmt.Sprintf("%q is not a layer", strict.Shorten(name)), Hint: strict.Suggest(name, Layers())}
		}
		hide = append(hide, draw.Layers()[i])
	}
	return hide, nil
}

// shown is a page without the layers that are left out.
func (w Work) shown(p draw.Page) draw.Page {
	if len(w.hide) > 0 {
		p.Ops = slices.DeleteFunc(slices.Clone(p.Ops), func(op draw.Op) bool { return slices.Contains(w.hide, op.Layer()) && !op.Layer().Fixed() })
	}
	return p
}
