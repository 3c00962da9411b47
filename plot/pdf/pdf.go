// Package pdf writes a document as a PDF (ISO 32000-1) at its true size. It is our
// own writer since every mark must lie within 0.005 mm of its place and the same
// input must give the same bytes; see DEVELOPERS.md for what others do.
//
// Pages are written as they come, and nothing of a page is kept but its name.
package pdf

import (
	"fmt"
	"io"
	"slices"

	"trammel/geom/unit"
	"trammel/plot/draw"
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
	f := newFile(w)
	catalog, root, resources := f.reserve(), f.reserve(), f.reserve()
	var (
		fonts [2]embedded
		used  [5]bool
		tree  = tree{root: root}
		names []name
	)
	c := content{font: lettering.Go(), fonts: &fonts, used: &used}
	hidden := func(l draw.Layer) bool { return slices.Contains(d.Hide, l) }

	for p := range d.Pages {
		if err := fits(p, len(names)+1); err != nil {
			return err
		}
		c.marks(p.Ops, hidden)
		if err := c.fault(p, len(names)+1); err != nil {
			return err
		}
		body := f.reserve()
		f.stream(body, "", c.b)
		page := f.reserve()
		b := fmt.Appendf(nil, "<< /Type /Page /Parent %d 0 R /MediaBox [0 0 ", tree.parent(f))
		b = append(number(b, points(p.Width), 6), ' ')
		b = number(b, points(p.Height), 6)
		b = fmt.Appendf(b, "] /Resources %d 0 R /Contents %d 0 R >>", resources, body)
		f.object(page, b)
		tree.add(f, page)
		names = append(names, name{page, p.Label, p.Kind, p.Piece})
		if f.err != nil {
			return f.err
		}
	}
	if len(names) == 0 {
		return fmt.Errorf("pdf: a document without a page")
	}
	tree.finish(f)

	b := []byte("<< /Font <<")
	for i, e := range fonts {
		if len(e.chars) == 0 {
			continue
		}
		r, err := f.font(c.font, e, i == 1)
		if err != nil {
			return err
		}
		b = fmt.Appendf(b, " %s %d 0 R", [...]string{"/Regular", "/Bold"}[i], r)
	}
	groups := f.layers(used)
	b = append(b, " >> /Properties <<"...)
	for _, g := range groups {
		b = fmt.Appendf(b, " /%s %d 0 R", g.layer, g.ref)
	}
	f.object(resources, append(b, " >> >>"...))
	info := f.catalog(catalog, root, d, names, groups)
	return f.finish(catalog, info)
}

// points of a length: 1/72 inch each.
func points(l unit.Length) float64 { return l.MM() * 72 / 25.4 }

func fits(p draw.Page, number int) error {
	for _, side := range [...]unit.Length{p.Width, p.Height} {
		if !(side >= minSide && side <= MaxSide) {
			return &unit.Fault{
				Where: title(p.Label, number),
				What:  fmt.Sprintf("a page of %g × %g mm does not go into a PDF, whose sides are 2 to %g mm", p.Width, p.Height, MaxSide),
				Hint:  "choose a shorter paper; the pages join",
			}
		}
	}
	return nil
}

func title(label string, number int) string {
	if label != "" {
		return "page " + label
	}
	return fmt.Sprintf("page %d", number)
}

// fault is what could not be written on the page.
func (c *content) fault(p draw.Page, number int) error {
	switch {
	case c.missing != 0:
		return &unit.Fault{
			Where: fmt.Sprintf("%q", c.unusable),
			What:  fmt.Sprintf("the lettering has no character %q (%U)", c.missing, c.missing),
			Hint:  "write it in other characters",
		}
	case c.strayed:
		return fmt.Errorf("%s: a coordinate is not a number", title(p.Label, number))
	}
	return nil
}

// tree is the tree of pages: so many a branch that no reader walks a long list.
type tree struct {
	root     ref
	branch   ref
	leaves   []ref
	branches []byte
	pages    int
}

const perBranch = 64

func (t *tree) parent(f *file) ref {
	if t.branch == 0 {
		t.branch = f.reserve()
	}
	return t.branch
}

func (t *tree) add(f *file, page ref) {
	t.leaves = append(t.leaves, page)
	t.pages++
	if len(t.leaves) == perBranch {
		t.close(f)
	}
}

func (t *tree) close(f *file) {
	if t.branch == 0 {
		return
	}
	f.object(t.branch, fmt.Appendf(nil, "<< /Type /Pages /Parent %d 0 R /Count %d /Kids [%s] >>", t.root, len(t.leaves), refs(t.leaves)))
	t.branches = fmt.Appendf(t.branches, "%d 0 R ", t.branch)
	t.branch, t.leaves = 0, t.leaves[:0]
}

func (t *tree) finish(f *file) {
	t.close(f)
	f.object(t.root, fmt.Appendf(nil, "<< /Type /Pages /Count %d /Kids [%s] >>", t.pages, t.branches))
}

func refs(list []ref) []byte {
	var b []byte
	for _, r := range list {
		b = fmt.Appendf(b, "%d 0 R ", r)
	}
	return b
}
