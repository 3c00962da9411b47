package app

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/sheet"
	"trammel/plot/template"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// PictureOptions is what is to be seen.
type PictureOptions struct {
	Setout bool        // of the setting-out sheet, else of the template
	Page   job.Setting // its number, or its name as a file; empty: of the template all, of the sheet the first
	Pixels int         // of the longest side
	Paint  Painter
}

// Painter writes a page as a picture, each pixel a square with the given side. The
// caller brings it, so that what never paints does not carry one.
type Painter func(out io.Writer, p draw.Page, pixel unit.Length) error

// picture is a page as it is to be seen on a screen.
type picture struct {
	page  draw.Page
	words string // what it shows
}

// makePreview makes a picture of one of the other documents.
func makePreview(o Order) (*Document, error) {
	d, p, err := o.pictured()
	if err != nil {
		return nil, err
	}
	side := max(p.page.Width, p.page.Height) / unit.Length(o.Picture.Pixels)
	return &Document{
		Warnings: o.Work.Warnings(), Report: d.Report, Summary: func() []string { return []string{p.words} },
		files: map[string]func(io.Writer) error{"png": func(out io.Writer) error { return o.Picture.Paint(out, p.page, side) }},
	}, nil
}

// pictured is the document that a picture is of, and what is seen of it.
func (o Order) pictured() (d *Document, p picture, err error) {
	name := o.Picture.Page
	if !o.Picture.Setout && name.Where == "" {
		t, err := o.Work.template()
		if err != nil {
			return nil, p, err
		}
		p, err = t.overview()
		return &Document{Report: func() any { return t.report() }}, p, err
	}
	kind := "template"
	if o.Picture.Setout {
		kind = "setout"
	}
	if d, err = KindOf(kind).Make(o); err == nil {
		err = d.laid()
	}
	if err != nil {
		return nil, p, err
	}
	if name.Where == "" {
		name.Text = "1"
	}
	p, err = pageOf(d, name.Text)
	if !o.Picture.Setout {
		p.page = o.Work.shown(p.page)
	}
	return d, p, unit.Placed(err, name.Where)
}

// overview shows each piece with all its pages, several in rows.
func (t *layout) overview() (picture, error) {
	shown := t.sharedShown()
	for _, l := range t.laid {
		if l.shared {
			continue
		}
		p, err := template.Overview(t.work.templatePiece(l.piece), l.plan, lettering.Go(), t.work.style())
		if err != nil {
			return picture{}, t.work.InPiece(l.piece, err)
		}
		shown = append(shown, t.work.shown(p))
	}
	words := fmt.Sprintf("%s with its %s", t.laid[0].piece.Title(), lines.Plural(len(t.laid[0].plan.Cells), "page"))
	if len(t.laid) > 1 || t.shared.pages > 0 {
		words = lines.Plural(len(t.laid), "piece")
	}
	return picture{together(shown), words}, nil
}

// together puts several pictures into one, in rows as near a square as they go,
// each under its name.
func together(pages []draw.Page) draw.Page {
	if len(pages) == 1 {
		return pages[0]
	}
	const gap, name unit.Length = 10, 5
	columns := int(math.Ceil(math.Sqrt(float64(len(pages)))))
	all := draw.Page{Kind: draw.Template}
	height := func(row []draw.Page) (h unit.Length) {
		for _, p := range row {
			h = max(h, p.Height+gap+2*name)
		}
		return h
	}
	for row := range slices.Chunk(pages, columns) {
		all.Height += height(row)
	}
	top := all.Height
	for row := range slices.Chunk(pages, columns) {
		for i, p := range row {
			at := geom.Point{X: unit.Length(i) * (p.Width + gap), Y: top - 2*name - p.Height}
			all.Ops = append(all.Ops, sheet.Shift(p.Ops, at)...)
			all.Ops = append(all.Ops, draw.Text{At: geom.Point{X: at.X + gap, Y: top - 2*name}, Height: name, Bold: true, Words: p.Piece, On: draw.Notes})
			all.Width = max(all.Width, unit.Length(i+1)*(p.Width+gap))
		}
		top -= height(row)
	}
	return all
}

// mostNamed is how many pages a hint names.
const mostNamed = 60

// pageOf is a page by the number of its sheet, by "index", by its name as a file or, where
// pages have no numbers of their own, by where it stands among them.
func pageOf(d *Document, name string) (picture, error) {
	names := d.names()
	var found draw.Page
	var at []int
	n, labelled, named := 0, false, false
	for p := range d.pages() {
		labelled = labelled || p.Label != ""
		switch {
		case named:
		case strings.EqualFold(name, names[n]):
			found, at, named = p, []int{n}, true
		case strings.EqualFold(name, cmp.Or(p.Label, string(p.Kind))):
			found, at = p, append(at, n)
		}
		n++
	}
	if number, _ := strconv.Atoi(name); len(at) == 0 && !labelled && number > 0 && number <= n {
		at = []int{number - 1}
		for p := range d.pages() {
			if found = p; number == 1 {
				break
			}
			number--
		}
	}
	switch len(at) {
	case 1:
		return picture{found, fmt.Sprintf("page %d of %d", at[0]+1, n)}, nil
	case 0:
		hint := map[bool]string{true: "there is ", false: "there are "}[n == 1] + lines.Plural(n, "page")
		if labelled && n <= mostNamed {
			hint += ": " + strings.Join(names, " ")
		}
		return picture{}, &unit.Fault{What: fmt.Sprintf("there is no page %q", strict.Shorten(name)), Hint: hint}
	}
	var which []string
	for _, k := range at[:min(len(at), 20)] {
		which = append(which, names[k])
	}
	return picture{}, &unit.Fault{What: fmt.Sprintf("%s may be any of %s", strict.Shorten(name), lines.Plural(len(at), "page")), Hint: "say which: " + strings.Join(which, ", ")}
}
