package setout

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// correctionWords are the rule of the signs, and what the corrections stand on.
func (s Sheet) correctionWords() string {
	var parts []string
	if s.Weighed {
		c := s.Conditions
		how := fmt.Sprintf("The tape at %s °C", number(float64(c.Temperature)))
		if c.Pull > 0 {
			how += fmt.Sprintf(", pulled with %s N", number(float64(c.Pull)))
		}
		if c.Span > 0 {
			how += ", hanging in spans of " + s.Style.LengthUnit(c.Span)
		}
		parts = append(parts, how+".")
	}
	if s.Falls {
		parts = append(parts, s.levelWords())
	}
	rule := "A correction is the true length less what the tape reads. Laying out subtracts it: the tape reads the true length less the corrections. (Measuring adds it.) Pulls, steps, checks, marks and boards are told as the tape reads; the plan and the pegs are true."
	if s.Falls {
		rule = strings.Replace(rule, "true length", "true length, level,", 1)
		if s.Weighed {
			rule += " A 3-4-5 square is corrected for the fall alone."
		}
	} else {
		rule += " A 3-4-5 square needs none: it is square at any size."
	}
	return strings.Join(append(parts, rule), " ")
}

// correctionBlocks are the readings of the tape, broken down.
func (s Sheet) correctionBlocks() []sheet.Block {
	if !s.Corrected {
		return nil
	}
	t := sheet.Table{Gutter: 3.5, Whole: len(s.Pulls) <= short, Columns: []sheet.Column{
		{Head: "pull", Align: sheet.ToRight}, {Head: "from"}, {Head: "to"}, {Head: "true", Align: alignOf(s.Figures)}, {Head: "correction", Align: sheet.OnPoint}, {Head: "lay off", Align: alignOf(s.Figures)}, {Head: "because of", Fill: true},
	}}
	for _, p := range s.Pulls {
		if !s.corrects(p) {
			continue
		}
		t.Cells = append(t.Cells, []string{fmt.Sprint(p.Number), string(p.Hold), string(p.To), s.Figure(p.Length), s.signed(p.By.Sum()), s.Figure(p.Reads), s.broken(p)})
	}
	return []sheet.Block{sheet.Heading{Words: "Tape corrections"}, sheet.Paragraph{Words: s.correctionWords(), Keep: true}, kept(1), narrowing{Table: t}}
}

// corrects says whether a pull has a correction to tell of.
func (s Sheet) corrects(p Pull) bool { return p.Use != ForAngle && (p.Use != ForLeg || s.Falls) }

// broken is the correction of a pull, broken down.
func (s Sheet) broken(p Pull) string {
	if parts := words.In(s.Language).Pegs().Corrections(p.By, s.Fine()); parts != "" {
		return parts
	}
	return "none"
}

// signed is a correction with its sign.
func (s Sheet) signed(l unit.Length) string {
	switch text := s.Fine().Length(max(l, -l)); {
	case text == s.Fine().Length(0):
		return text
	case l < 0:
		return "−" + text
	default:
		return "+" + text
	}
}

// markBlocks are the tables of the marks along the edges and of the profile boards.
func (s Sheet) markBlocks() (out []sheet.Block) {
	if len(s.Marks) > 0 {
		t := sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Columns: []sheet.Column{
			{Head: "edge"}, {Head: "from its\nfirst", Align: alignOf(s.Figures)}, {Head: "along,\nfrom " + string(s.Baseline.From), Align: alignOf(s.Figures)}, {Head: "square\nout", Align: alignOf(s.Figures)}, {Head: "side"},
		}}
		for _, m := range s.Marks {
			t.Cells = append(t.Cells, s.markFigures(m))
		}
		out = append(out, sheet.Heading{Words: "Marks along the edges, every " + s.Style.LengthUnit(s.Every)}, columned{t, betweenTables})
	}
	if len(s.Nails) > 0 {
		t := sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Columns: []sheet.Column{
			{Head: "string"}, {Head: "beyond"}, {Head: "from the\ncorner", Align: alignOf(s.Figures)}, {Head: "along,\nfrom " + string(s.Baseline.From), Align: alignOf(s.Figures)}, {Head: "square\nout", Align: alignOf(s.Figures)}, {Head: "side"},
		}}
		for _, n := range s.Nails {
			t.Cells = append(t.Cells, []string{edge(n.Edge), string(n.Beyond), s.laid(n.Past, 0), s.laidAlong(n.Along, 0), s.laid(n.Offset, 0), n.Side.String()})
		}
		out = append(out, sheet.Heading{Words: "Nails in the profile boards, clear of the digging by " + s.Style.LengthUnit(s.Boards)}, columned{t, betweenTables})
		if missing := 2*len(s.Outline) - len(s.Nails); missing > 0 {
			out = append(out, sheet.Paragraph{Words: fmt.Sprintf("%d more would stand too far off: there an edge runs nearly straight on past its corner.", missing)})
		}
	}
	if len(s.Strings) > 0 {
		t := sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Columns: []sheet.Column{
			{Head: "string"}, {Head: "nail to\nnail", Align: alignOf(s.Figures)}, {Head: "crosses"}, {Head: "at", Align: alignOf(s.Figures)}, {Head: "crosses"}, {Head: "at", Align: alignOf(s.Figures)},
		}}
		for _, x := range s.Strings {
			t.Cells = append(t.Cells, []string{edge(x.Edge), s.laid(x.Length, 0), edge(x.With[0]), s.laid(x.Corners[0], 0), edge(x.With[1]), s.laid(x.Corners[1], 0)})
		}
		out = append(out, sheet.Heading{Words: "Strings, and where they cross, from the first nail"}, columned{t, betweenTables})
	}
	return out
}

func edge(e [2]geom.Name) string { return string(e[0] + e[1]) }

// markFigures are the figures of a mark on an edge, as the tape reads.
func (s Sheet) markFigures(m EdgeMark) []string {
	edge, along, out := s.markFalls(m)
	return []string{string(m.Edge[0] + m.Edge[1]), s.laid(m.At, edge), s.laidAlong(m.Along, along), s.laid(m.Offset, out), m.Side.String()}
}

// laid is a length as the tape reads it over a fall; laidAlong the same of a running
// distance, with a sign where it lies behind the zero end.
func (s Sheet) laid(l, fall unit.Length) string {
	r, _ := s.reads(l, fall)
	return s.Figure(r)
}

func (s Sheet) laidAlong(l, fall unit.Length) string {
	if l < 0 && s.Figure(-l) != s.Figure(0) {
		return "−" + s.laid(-l, fall)
	}
	return s.laid(max(l, 0), fall)
}

// columned sets a long table in two halves side by side where the width allows, in
// smaller letters where it allows only those.
type columned struct {
	sheet.Table
	gutter unit.Length
}

func (b columned) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	n := (len(b.Cells) + 1) / 2
	if 2*b.Breadth(r)+b.gutter > width && n > short/4 {
		b.Height = draw.NoteHeight
	}
	if n < 4 || 2*b.Breadth(r)+b.gutter > width || n > 2*short {
		return narrowing{Table: b.Table}.Rows(width, r)
	}
	left, right := b.Table, b.Table
	left.Cells, right.Cells = b.Cells[:n], b.Cells[n:]
	return sheet.Beside{Stacks: [][]sheet.Block{{left}, {right}}, Gutter: b.gutter}.Rows(width, r)
}
