package setout

import (
	"fmt"
	"io"

	"trammel/geom/pegging"
	"trammel/plot/phone"
)

// Text writes the sheet as plain text for a phone: UTF-8, lines of at most 40
// characters ended by a line feed, every figure as on the paper.
func (s Sheet) Text(out io.Writer) error {
	var t phone.Text
	if title := s.Title(); title != "" {
		t.Para("", title)
	}
	t.Para("", "Setting-out sheet. All figures in "+s.Style.Name()+".")
	if s.Date != "" {
		t.Para("", s.Date)
	}

	t.Head("Bring")
	t.List(s.Bring)
	t.Head("Take care")
	t.List(s.Cautions)
	if len(s.Doubts) > 0 {
		t.Head("Before setting out")
		t.List(s.Doubts)
	}
	s.textPegs(&t)
	t.Head("Steps")
	for i, x := range s.Steps {
		t.Para(fmt.Sprintf("%2d. ", i+1), x)
	}
	s.textMarks(&t)
	t.Head("Checks")
	for _, c := range s.Checks {
		t.Para(fmt.Sprintf("%2d. ", c.Number), fmt.Sprintf("%s to %s  %s", c.From, c.To, s.Figure(c.Reads)))
		t.Para("    ", fmt.Sprintf("good %s to %s", s.Figure(c.Least), s.Figure(c.Greatest)))
		t.Line("    found ________________")
	}
	t.Line("")
	for _, x := range s.Basis {
		t.Para("", x)
	}
	s.textSure(&t)
	_, err := t.WriteTo(out)
	return err
}

// textPegs are the places of the pegs, the pulls and what the tape reads where it is
// corrected.
func (s Sheet) textPegs(t *phone.Text) {
	t.Head("Pegs")
	both := s.BothSides()
	side := ", " + s.OneSide().String()
	if both {
		side = ""
	}
	t.Para("", fmt.Sprintf("in the order of setting: along from %s, then square out%s", s.Baseline.From, side))
	rows := [][]string{}
	for _, p := range s.Pegs {
		along := s.Figure(max(p.Along, 0))
		if p.Along < 0 && s.Figure(-p.Along) != along {
			along = "−" + s.Figure(-p.Along)
		}
		row := []string{string(p.Name), along, s.Figure(p.Offset)}
		if both {
			row = append(row, p.Side.String())
		}
		rows = append(rows, row)
	}
	t.Table(rows)
	t.Head("Hold 0 at, pull to")
	rows = nil
	for _, p := range s.Pulls {
		reads := s.Figure(p.Reads)
		if p.Use == pegging.ForAngle {
			reads = s.Turned(p.Angle)
		}
		rows = append(rows, []string{fmt.Sprint(p.Number), string(p.Hold) + " " + string(p.To), reads, s.Says().Use(p)})
	}
	t.Table(rows)
	if words := s.Says().Crossing(); words != "" {
		t.Line("")
		t.Para("", words)
	}
	if s.Corrected {
		t.Head("Tape corrections")
		t.Para("", s.Says().Taping())
		for _, p := range s.Pulls {
			if s.corrects(p) {
				t.Para(fmt.Sprintf("%2d. ", p.Number), fmt.Sprintf("%s %s true %s: %s, lay off %s", p.Hold, p.To, s.Figure(p.Length), s.Says().Broken(p), s.Figure(p.Reads)))
			}
		}
	}
}

// textSure is how sure each peg is, and each way.
func (s Sheet) textSure(t *phone.Text) {
	t.Head("How sure, in " + s.SmallUnit())
	t.Line("peg, measured, set out, both")
	var rows [][]string
	for _, x := range s.Sure {
		row := []string{string(x.Peg), s.Small(x.Measured), s.Small(x.SetOut), s.Small(x.Both)}
		if s.Permitted > 0 {
			row = append(row, s.Says().Inside(x)+" "+s.Small(x.Permitted))
		}
		rows = append(rows, row)
	}
	t.Table(rows)
	t.Para("", s.Says().HowSure())
	t.Head("Which way is surest")
	for i, x := range s.Ranking.Best {
		used := ""
		if i == s.Ranking.Used {
			used = ", used"
		}
		t.Para("- ", fmt.Sprintf("%s from %s: %s %s at %s, %.1f times%s", s.Says().Way(x.Method), edge(x.Base), s.Small(x.Figure), s.SmallUnit(), x.Pegs[x.Worst].Name, x.Times, used))
	}
	t.Para("", s.Says().Rank())
}

// textMarks are the marks along the edges, the nails in the profile boards and where
// the strings cross.
func (s Sheet) textMarks(t *phone.Text) {
	side := func(row []string, x pegging.Side) []string {
		if s.BothSides() || len(s.Nails) > 0 {
			row = append(row, x.String())
		}
		return row
	}
	if len(s.Marks) > 0 {
		t.Head("Marks along the edges")
		t.Line("edge, from its first; along, square out")
		var rows [][]string
		for _, m := range s.Marks {
			rows = append(rows, side(s.markFigures(m)[:4], m.Side))
		}
		t.Table(rows)
	}
	if len(s.Nails) > 0 {
		t.Head("Nails in the profile boards")
		t.Line("string, beyond, by; along, square out")
		var rows [][]string
		for _, n := range s.Nails {
			rows = append(rows, side([]string{edge(n.Edge), string(n.Beyond), s.laid(n.Past, 0), s.laidAlong(n.Along, 0), s.laid(n.Offset, 0)}, n.Side))
		}
		t.Table(rows)
	}
	if len(s.Strings) > 0 {
		t.Head("Strings, from their first nail")
		for _, x := range s.Strings {
			t.Para("- ", fmt.Sprintf("%s %s long, crosses %s at %s, %s at %s", edge(x.Edge), s.laid(x.Length, 0), edge(x.With[0]), s.laid(x.Corners[0], 0), edge(x.With[1]), s.laid(x.Corners[1], 0)))
		}
	}
}
