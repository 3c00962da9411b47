package pdf

import (
	"fmt"

	"trammel/plot/draw"
)

// structure is what the document says, part by part in the order of reading (ISO
// 32000-1, 14.7 and 14.8), so that it can be read out and taken out.
type structure struct {
	f        *file
	root     ref
	document *part
	known    map[*draw.Tag]*part
	tagged   []*part // those of known, in the order of reading
	parents  []byte  // the tree from the marks of a page to their parts
	pages    int

	// Of the page that is being written:
	page   ref
	figure *part                // what its Alt speaks of
	labels map[draw.Layer]*part // words without a tag
	own    []*part              // figure and labels: nothing comes to them later
	owners []ref                // of the page's marks
}

// part is an element of the tree. Its content comes in the order of the marks.
type part struct {
	ref, in ref
	role    draw.Role
	alt     string
	kids    []kid
}

// kid is a part or, where page is not 0, a mark on a page.
type kid struct {
	ref  ref
	page ref
	mark int
}

var roles = [...]string{
	draw.AsParagraph: "P", draw.AsTitle: "H1", draw.AsHeading: "H2", draw.AsSection: "Sect",
	draw.AsList: "L", draw.AsItem: "LI", draw.AsLabel: "Lbl", draw.AsItemBody: "LBody",
	draw.AsTable: "Table", draw.AsRow: "TR", draw.AsHead: "TH", draw.AsCell: "TD", draw.AsFigure: "Figure",
}

func newStructure(f *file) *structure {
	s := &structure{f: f, root: f.reserve(), known: map[*draw.Tag]*part{}}
	s.document = &part{ref: f.reserve(), in: s.root}
	return s
}

// begin makes the parts of a page that are new, in the order of reading, from the
// operations that are shown.
func (s *structure) begin(page ref, p draw.Page, hidden func(draw.Layer) bool) {
	s.page, s.owners, s.own, s.figure, s.labels = page, s.owners[:0], s.own[:0], nil, map[draw.Layer]*part{}
	for _, first := range [...]bool{true, false} {
		for _, op := range p.Ops {
			t := op.Tag()
			switch l := op.Layer(); {
			case hidden(l) && !l.Fixed(), first != (t != nil && t.First):
			case t != nil:
				s.of(t)
			case l.Fixed():
			case isWords(op):
				if s.labels[l] == nil {
					s.labels[l] = s.ownPart(draw.AsParagraph, "")
				}
			case p.Alt != "" && s.figure == nil:
				s.figure = s.ownPart(draw.AsFigure, p.Alt)
			}
		}
	}
}

func (s *structure) ownPart(r draw.Role, alt string) *part {
	p := s.add(s.document, r, alt)
	s.own = append(s.own, p)
	return p
}

func (s *structure) add(in *part, r draw.Role, alt string) *part {
	p := &part{ref: s.f.reserve(), in: in.ref, role: r, alt: alt}
	in.kids = append(in.kids, kid{ref: p.ref})
	return p
}

// of is the part of a tag, nil of an ornament.
func (s *structure) of(t *draw.Tag) *part {
	if t.Role == draw.AsOrnament {
		return nil
	}
	p, ok := s.known[t]
	if ok {
		return p
	}
	in := s.document
	if t.In != nil {
		in = s.of(t.In)
		if p, ok = s.known[t]; ok { // in holds it
			return p
		}
	}
	p = s.add(in, t.Role, t.Alt)
	s.known[t] = p
	s.tagged = append(s.tagged, p)
	for _, h := range t.Holds {
		s.of(h)
	}
	return p
}

// partOf is the part that an operation of the page belongs to; nil: none.
func (s *structure) partOf(op draw.Op) *part {
	switch t := op.Tag(); {
	case t != nil:
		return s.of(t)
	case op.Layer().Fixed():
		return nil
	case isWords(op):
		return s.labels[op.Layer()]
	}
	return s.figure
}

// mark is the number of a new mark on the page, whose content belongs to a part.
func (s *structure) mark(p *part) int {
	n := len(s.owners)
	s.owners = append(s.owners, p.ref)
	p.kids = append(p.kids, kid{page: s.page, mark: n})
	return n
}

// end writes the parts that are the page's own, and is what the page says of its marks.
func (s *structure) end() (entry string) {
	for _, p := range s.own {
		s.write(p)
	}
	if len(s.owners) == 0 {
		return ""
	}
	s.parents = fmt.Appendf(s.parents, "%d [%s]\n", s.pages, refs(s.owners))
	s.pages++
	return fmt.Sprintf(" /StructParents %d", s.pages-1)
}

// finish writes the tree.
func (s *structure) finish() {
	for _, p := range s.tagged {
		s.write(p)
	}
	s.f.object(s.document.ref, append(append([]byte("<</S/Document/P "), fmt.Sprintf("%d 0 R/K[", s.root)...), append(kids(s.document.kids, 0), "]>>"...)...))
	parents := s.f.add("<< /Nums [%s] >>", s.parents)
	s.f.object(s.root, fmt.Appendf(nil, "<< /Type /StructTreeRoot /K %d 0 R /ParentTree %d 0 R /ParentTreeNextKey %d >>", s.document.ref, parents, s.pages))
}

// write writes a part that is whole.
func (s *structure) write(p *part) {
	b := fmt.Appendf(nil, "<</S/%s/P %d 0 R", roles[p.role], p.in)
	if p.alt != "" {
		b = append(b, "/Alt"+text(p.alt)...)
	}
	if p.role == draw.AsHead {
		b = append(b, "/A<</O/Table/Scope/Column>>"...)
	}
	page := ref(0)
	for _, k := range p.kids {
		if k.page != 0 {
			page = k.page
			b = fmt.Appendf(b, "/Pg %d 0 R", page)
			break
		}
	}
	switch k := kids(p.kids, page); {
	case len(p.kids) > 1:
		b = append(append(append(b, "/K["...), k...), ']')
	case len(p.kids) == 1:
		b = append(append(b, "/K "...), k...)
	}
	s.f.object(p.ref, append(b, ">>"...))
}

// kids of a part whose marks lie on the page where nothing else is said.
func kids(all []kid, page ref) (b []byte) {
	for i, k := range all {
		if i > 0 {
			b = append(b, ' ')
		}
		switch {
		case k.page == 0:
			b = fmt.Appendf(b, "%d 0 R", k.ref)
		case k.page == page:
			b = fmt.Append(b, k.mark)
		default:
			b = fmt.Appendf(b, "<</Type/MCR/Pg %d 0 R/MCID %d>>", k.page, k.mark)
		}
	}
	return b
}

func isWords(op draw.Op) bool {
	_, ok := op.(draw.Text)
	return ok
}
