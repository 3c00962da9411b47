// Package pdf writes a document as a PDF (ISO 32000-2) at its true size. It is our
// own writer since every mark must lie within 0.005 mm of its place and the same
// input must give the same bytes; see DEVELOPERS.md for what others do.
//
// Pages are written as they come, and nothing of a page is kept but its name.
//
// Files, from the top floor to the ground: pdf.go, content.go, structure.go, catalog.go, tree.go,
// font.go, file.go, open.go, text.go.
package pdf

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/internal/decimal"
	"trammel/plot/lettering"
)

// MaxSide is the longest side of a page: 14 400 units (ISO 32000-1, annex C.2).
const MaxSide unit.Length = 5080

// minSide is the shortest, 3 units.
const minSide unit.Length = 3 * 25.4 / 72

// Write writes the whole document.
//
// Lines and the middles of curves lie within 0.001 mm of their place. A page
// longer than MaxSide or a character that the lettering lacks is a *unit.Fault;
// errors of w are returned as they are. What was written until then is of no use.
func Write(w io.Writer, d draw.Document) error {
	if d.Pages == nil {
		return errEmpty
	}
	f := newFile(w)
	catalog, root, resources := f.reserve(), f.reserve(), f.reserve()
	var (
		fonts [2]embedded
		used  = map[draw.Layer]bool{}
		tree  = tree{root: root}
		names []name
	)
	says := newStructure(f)
	c := content{font: lettering.Go(), fonts: &fonts, used: used, says: says}
	hidden := func(l draw.Layer) bool { return slices.Contains(d.Hide, l) }

	for p := range d.Pages {
		if err := fits(p, len(names)+1); err != nil {
			return err
		}
		page := f.reserve()
		says.begin(page, p, hidden)
		c.marks(p.Ops, p.Warp, hidden)
		if c.err != nil {
			return on(title(p.Label, len(names)+1), c.err)
		}
		body := f.reserve()
		f.stream(body, "", c.b)
		b := fmt.Appendf(nil, "<< /Type /Page /Parent %d 0 R /MediaBox [0 0 ", tree.parent(f))
		b = append(decimal.Append(b, points(p.Width), 6), ' ')
		b = decimal.Append(b, points(p.Height), 6)
		b = fmt.Appendf(b, "] /Resources %d 0 R /Contents %d 0 R%s >>", resources, body, says.end())
		f.object(page, b)
		tree.add(f, page)
		names = append(names, name{page, p.Label, p.Kind, p.Piece})
		if f.err != nil {
			return f.err
		}
	}
	if len(names) == 0 {
		return errEmpty
	}
	tree.finish(f)

	b, err := f.fonts(c.font, fonts)
	if err != nil {
		return err
	}
	groups := f.layers(used)
	b = append(append([]byte("<< /Font <<"), b...), " >> /Properties <<"...)
	for _, g := range groups {
		b = fmt.Appendf(b, " /%s %d 0 R", g.layer, g.ref)
	}
	f.object(resources, append(b, " >> >>"...))
	info := f.catalog(catalog, trees{pages: root, says: says.root}, d, names, groups)
	says.finish()
	return f.finish(catalog, info)
}

var errEmpty = errors.New("pdf: a document without a page")

// points of a length: 1/72 inch each.
func points(l unit.Length) float64 { return l.MM() * 72 / 25.4 }

func fits(p draw.Page, number int) error {
	for _, side := range [...]unit.Length{p.Width, p.Height} {
		if !(side >= minSide && side <= MaxSide) {
			return &unit.Fault{
				Subject: unit.Page, Of: title(p.Label, number),
				What: fmt.Sprintf("a page of %g × %g mm does not go into a PDF, whose sides are 2 to %g mm", p.Width, p.Height, MaxSide),
				Hint: "choose a shorter paper; the pages join",
			}
		}
	}
	return nil
}

// on says which page an error is on.
func on(page string, err error) error {
	if f, ok := err.(*unit.Fault); ok {
		return f.In(page)
	}
	return fmt.Errorf("%s: %w", page, err)
}
