package pdf

import (
	"fmt"
	"slices"
	"strconv"

	"trammel/plot/draw"
)

// structure is what the document says, part by part in the order of reading (ISO
// 32000-1, 14.7 and 14.8), so that it can be read out and taken out. It is written at the
// end, when all parts are known.
type structure struct {
	f      *file
	root   ref
	parts  []*part // all of them, the document first
	known  map[*draw.Tag]*part
	owners [][]*part // of the marks of each page that has any

	// Of the page that is being written:
	page   ref
	figure *part                // what its Alt speaks of
	labels map[draw.Layer]*part // words without a tag
	marks  []*part              // whose each mark is
}

// part is an element of the tree. Its content comes in the order of the marks.
type part struct {
	number int // in structure.parts
	in     *part
	role   draw.Role
	alt    string
	kids   []kid
}

// kid is a part or, where that is nil, a mark on a page.
type kid struct {
	part *part
	page ref
	mark int
}

var roles = [...]string{
	draw.AsParagraph: "P", draw.AsTitle: "H1", draw.AsHeading: "H2", draw.AsSection: "Sect",
	draw.AsList: "L", draw.AsItem: "LI", draw.AsLabel: "Lbl", draw.AsItemBody: "LBody",
	draw.AsTable: "Table", draw.AsRow: "TR", draw.AsHead: "TH", draw.AsCell: "TD", draw.AsFigure: "Figure",
}

func newStructure(f *file) *structure {
	return &structure{f: f, root: f.reserve(), known: map[*draw.Tag]*part{}, labels: map[draw.Layer]*part{}, parts: []*part{{}}}
}

// begin makes the parts of a page that are new, in the order of reading, from the
// operations that are shown.
func (s *structure) begin(page ref, p draw.Page, hidden func(draw.Layer) bool) {
	s.page, s.marks, s.figure = page, make([]*part, 0, 16), nil
	clear(s.labels)
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
					s.labels[l] = s.add(s.parts[0], draw.AsParagraph, "")
				}
			case p.Alt != "" && s.figure == nil:
				s.figure = s.add(s.parts[0], draw.AsFigure, p.Alt)
			}
		}
	}
}

func (s *structure) add(in *part, r draw.Role, alt string) *part {
	p := &part{number: len(s.parts), in: in, role: r, alt: alt}
	s.parts = append(s.parts, p)
	in.kids = append(in.kids, kid{part: p})
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
	in := s.parts[0]
	if t.In != nil {
		in = s.of(t.In)
		if p, ok = s.known[t]; ok { // in holds it
			return p
		}
	}
	p = s.add(in, t.Role, t.Alt)
	s.known[t] = p
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
	n := len(s.marks)
	s.marks = append(s.marks, p)
	p.kids = append(p.kids, kid{page: s.page, mark: n})
	return n
}

// end is what a page says of its marks.
func (s *structure) end() (entry string) {
	if len(s.marks) == 0 {
		return ""
	}
	s.owners = append(s.owners, s.marks)
	return fmt.Sprintf(" /StructParents %d", len(s.owners)-1)
}

// finish writes the tree. No other object may get a number after it.
func (s *structure) finish() {
	first := s.f.firstPacked(len(s.parts) + 1)
	at := func(p *part) ref { return first + ref(p.number) }
	bodies := make([][]byte, 0, len(s.parts)+1)
	for _, p := range s.parts {
		bodies = append(bodies, s.body(p, at))
	}
	b := []byte("<</Nums[")
	for i, marks := range s.owners {
		b = append(strconv.AppendInt(b, int64(i), 10), '[')
		for _, p := range marks {
			b = append(strconv.AppendInt(b, int64(at(p)), 10), " 0 R "...)
		}
		b = append(b, ']')
	}
	bodies = append(bodies, append(b, "]>>"...))
	s.f.object(s.root, fmt.Appendf(nil, "<< /Type /StructTreeRoot /K %d 0 R /ParentTree %d 0 R /ParentTreeNextKey %d >>", first, int(first)+len(s.parts), len(s.owners)))
	s.f.pack(bodies)
}

// body of a part.
func (s *structure) body(p *part, at func(*part) ref) []byte {
	role, in := "Document", s.root
	if p.in != nil {
		role, in = roles[p.role], at(p.in)
	}
	b := fmt.Appendf(make([]byte, 0, 64+len(p.alt)+8*len(p.kids)), "<</S/%s/P %d 0 R", role, in)
	if p.alt != "" {
		b = append(b, "/Alt"+text(p.alt)...)
	}
	if p.role == draw.AsHead {
		b = append(b, "/A<</O/Table/Scope/Column>>"...)
	}
	page := ref(0)
	if i := slices.IndexFunc(p.kids, func(k kid) bool { return k.part == nil }); i >= 0 {
		page = p.kids[i].page
		b = fmt.Appendf(b, "/Pg %d 0 R", page)
	}
	if len(p.kids) > 0 {
		b = append(b, "/K["...)
	}
	for i, k := range p.kids {
		if i > 0 {
			b = append(b, ' ')
		}
		switch {
		case k.part != nil:
			b = append(strconv.AppendInt(b, int64(at(k.part)), 10), " 0 R"...)
		case k.page == page:
			b = strconv.AppendInt(b, int64(k.mark), 10)
		default:
			b = fmt.Appendf(b, "<</Type/MCR/Pg %d 0 R/MCID %d>>", k.page, k.mark)
		}
	}
	if len(p.kids) > 0 {
		b = append(b, ']')
	}
	return append(b, ">>"...)
}

func isWords(op draw.Op) bool {
	_, ok := op.(draw.Text)
	return ok
}
