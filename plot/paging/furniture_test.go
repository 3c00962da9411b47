package paging_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/lettering"
	"trammel/plot/paging"
)

var barWords = regexp.MustCompile(`^(100|50|25|10) mm(: measure this bar)?$|^(4|2|1|1/2) in(: measure this bar)?$`)

// barLength is what the words beside a check bar say.
func barLength(words string) float64 {
	figure, measure, _ := strings.Cut(strings.TrimSuffix(words, ": measure this bar"), " ")
	v := map[string]float64{"100": 100, "50": 50, "25": 25, "10": 10, "4": 4, "2": 2, "1": 1, "1/2": 0.5}[figure]
	if measure == "in" {
		v *= 25.4
	}
	return v
}

// bars are the lengths said across and along, each confirmed by a ladder of that length
// whose blocks are black and white by turns, the first black.
func bars(p draw.Page) (across, along []float64) {
	for _, op := range p.Ops {
		o, ok := op.(draw.Text)
		if !ok || !isNote(op) || !barWords.MatchString(o.Words) {
			continue
		}
		want := barLength(o.Words)
		for _, op := range p.Ops {
			long, up, ok := furniture.Ladder(op)
			if !ok || up != (o.Turn != 0) || math.Abs(float64(long)-want) > promised {
				continue
			}
			frame := op.Bounds(nil).Grow(draw.Thin.Width / 2)
			var black []float64
			for _, op := range p.Ops {
				q, solid := op.(draw.Polyline)
				if b := op.Bounds(lettering.Go()); solid && q.Solid && frame.Grow(promised).Has(b.Min) && frame.Grow(promised).Has(b.Max) {
					from, size := b.Min.X-frame.Min.X, b.Width()
					if up {
						from, size = b.Min.Y-frame.Min.Y, b.Height()
					}
					black = append(black, float64(from/size))
				}
			}
			by := len(black) > 0
			for i, at := range black {
				by = by && math.Abs(at-2*float64(i)) < 1e-6
			}
			if !by {
				continue
			}
			if o.Turn == 0 {
				across = append(across, want)
			} else {
				along = append(along, want)
			}
			break
		}
	}
	return across, along
}

func words(p draw.Page) (all []draw.Text) {
	for _, op := range p.Ops {
		if o, ok := op.(draw.Text); ok && isNote(op) {
			all = append(all, o)
		}
	}
	return all
}

// said is the furniture's words in one line.
func said(p draw.Page) string {
	var s []string
	for _, o := range words(p) {
		s = append(s, o.Words)
	}
	return strings.Join(s, " ")
}

func TestEveryPageHasItsFurniture(t *testing.T) {
	count := map[float64]int{}
	for _, c := range slices.Concat(cases(t), crowded(t), random(t, paging.RandomPieces)) {
		hard := c.hard
		pages := pagesOf(c)
		for i, p := range pages {
			across, along := bars(p)
			if len(across) != 1 || len(along) != 1 {
				t.Errorf("%s, %s: bars across %v, along %v", c.name, p.Label, across, along)
				continue
			}
			count[across[0]]++
			if least := 50.0; !hard && (across[0] < least || along[0] < least) {
				t.Errorf("%s, %s: bars of %g and %g mm", c.name, p.Label, across[0], along[0])
			}
			text := said(p)
			if !strings.Contains(text, "print at 100 %, actual size") {
				t.Errorf("%s, %s: does not say how to print: %s", c.name, p.Label, text)
			}
			if !hard && !strings.Contains(text, strings.Fields(c.f.Piece)[0]) {
				t.Errorf("%s, %s: does not say what it belongs to: %s", c.name, p.Label, text)
			}
			label := 0
			for _, o := range words(p) {
				if o.Words == c.plan.Cells[i].Label && (o.Height == draw.LabelHeight || hard && o.Height >= draw.CornerHeight || c.name == "small paper") {
					label++
				}
			}
			if want := min(1, len(pages)-1); label != want {
				t.Errorf("%s, %s: the label stands %d times, want %d", c.name, p.Label, label, want)
			}
		}
	}
	if count[100] < 40 {
		t.Errorf("only %d pages have a long bar: %v", count[100], count)
	}
}

// Each neighbour is named once, with a wedge whose tip points its way and lies
// towards that edge.
func TestNeighboursAreNamed(t *testing.T) {
	for _, c := range cases(t) {
		for i, p := range pagesOf(c) {
			cell := c.plan.Cells[i]
			for _, n := range []struct {
				label string
				way   geom.Point
			}{{cell.LeftOf, at(-1, 0)}, {cell.RightOf, at(1, 0)}, {cell.Above, at(0, 1)}, {cell.Below, at(0, -1)}} {
				if n.label == "" {
					continue
				}
				found := 0
				for k, op := range p.Ops {
					o, ok := op.(draw.Text)
					if !ok || !isNote(op) || o.Words != n.label || o.Height != draw.TitleHeight {
						continue
					}
					found++
					arrow, ok := p.Ops[k-1].(draw.Polyline)
					if !ok || !arrow.Solid || len(arrow.Points) != 3 {
						t.Errorf("%s, %s: %s has no wedge", c.name, p.Label, n.label)
						continue
					}
					base := geom.Line{From: arrow.Points[1], To: arrow.Points[2]}.At(0.5)
					d := arrow.Points[0].Minus(base)
					if got := float64(d.X*n.way.X + d.Y*n.way.Y); math.Abs(got-float64(d.Distance(geom.Point{}))) > 1e-9 || got < 3 {
						t.Errorf("%s, %s: the wedge of %s points to %v", c.name, p.Label, n.label, d)
					}
				}
				if found != 1 {
					t.Errorf("%s, %s: neighbour %s is named %d times", c.name, p.Label, n.label, found)
				}
			}
		}
	}
}

// Furniture keeps 1 mm from every stroke and 2 mm from all other words, stays
// out of what a neighbour covers and inside the window. On a page with room for
// its bars it keeps 2 mm.
func TestFurnitureKeepsClear(t *testing.T) {
	r := lettering.Go()
	for _, c := range slices.Concat(cases(t), crowded(t), random(t, paging.RandomPieces)) {
		for i, p := range pagesOf(c) {
			least := 2.0
			if across, along := bars(p); len(across) != 1 || len(along) != 1 || across[0] != along[0] || c.hard {
				least = 1
			}
			lines, arcs := strokesOf(p.Ops, func(op draw.Op) bool { return !isNote(op) })
			free := shift(c.plan.Cells[i].Window, at(10, 10).Minus(c.plan.Cells[i].Window.Min))
			if !c.hard {
				free = withoutStrips(free, c.plan, c.plan.Cells[i])
			}
			for _, op := range p.Ops {
				if !isNote(op) {
					continue
				}
				b := op.Bounds(r)
				if !free.Has(b.Min) || !free.Has(b.Max) {
					t.Errorf("%s, %s: furniture at %v outside %v", c.name, p.Label, b, free)
				}
				points := sampled(op, 0.5)
				if o, ok := op.(draw.Text); ok {
					points = alongBox(o.Box(r))
					for _, other := range p.Ops {
						if w, ok := other.(draw.Text); ok && !isNote(other) && textGap(o, w, r) < 2-1e-9 {
							t.Errorf("%s, %s: %q is %.2f mm from %q", c.name, p.Label, o.Words, textGap(o, w, r), w.Words)
						}
					}
				}
				for _, q := range points {
					if off := offStrokes(q, lines, arcs); off < least {
						t.Errorf("%s, %s: furniture (%T at %v) is %.2f mm from a stroke", c.name, p.Label, op, q, off)
						break
					}
				}
			}
			checkApart(t, c.name+", "+p.Label, p, r)
		}
	}
}

// withoutStrips is a window less what printed neighbours show too.
func withoutStrips(free geom.Rect, p paging.Plan, c paging.Cell) geom.Rect {
	v := p.Sheet.Overlap
	if c.LeftOf != "" {
		free.Min.X += v
	}
	if c.RightOf != "" {
		free.Max.X -= v
	}
	if c.Above != "" {
		free.Max.Y -= v
	}
	if c.Below != "" {
		free.Min.Y += v
	}
	return free
}

// checkApart holds the furniture's own words apart from one another and from its
// own bars: lines of one title by their leading, else by 1 mm.
func checkApart(t *testing.T, name string, p draw.Page, r draw.Ruler) {
	t.Helper()
	all := words(p)
	for i, a := range all {
		for _, b := range all[:i] {
			if textGap(a, b, r) < 0.85 {
				t.Errorf("%s: %q is %.2f mm from %q", name, a.Words, textGap(a, b, r), b.Words)
			}
		}
		lines, _ := strokesOf(p.Ops, func(op draw.Op) bool { _, line := op.(draw.Line); return line && isNote(op) })
		for _, q := range alongBox(a.Box(r)) {
			if off := offStrokes(q, lines, nil); off < 1 {
				t.Errorf("%s: %q is %.2f mm from a bar", name, a.Words, off)
				break
			}
		}
	}
}

// What the title says, and that long names end in time.
func TestTitle(t *testing.T) {
	r := lettering.Go()
	level := unit.Angle(0)
	for _, c := range []struct {
		name     string
		f        furniture.Furniture
		want     []string
		unwanted []string
	}{
		{"everything", furniture.Furniture{Job: "Slip gate brace", Piece: "Brace plate", Mark: "mark 4", Copies: 3, Copy: 1, Figures: "millimetres", Date: "2025-04-02", Note: "for the printer in the loft"},
			[]string{"Brace plate", "Slip gate brace", "mark 4; copy 2 of 3; millimetres; 2025-04-02", "for the printer in the loft", "print at 100 %, actual size"}, nil},
		{"nothing", furniture.Furniture{Copies: 1}, []string{"print at 100 %, actual size"}, []string{"mark", "copy", "sheet", "  "}},
		{"inches", furniture.Furniture{Inches: true}, []string{"4 in: measure this bar"}, []string{"mm"}},
		{"long", furniture.Furniture{Piece: strings.Repeat("Slip gate brace plate ", 20), Job: strings.Repeat("Boathouse", 30)}, []string{"Slip gate", "…"}, nil},
	} {
		l := lay(t, c.name, bySides(150, 90, 120), sheetA4, &level)
		l.f = c.f
		p := pagesOf(l)[0]
		text := said(p)
		for _, w := range c.want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: %q is missing in %q", c.name, w, text)
			}
		}
		for _, w := range c.unwanted {
			if strings.Contains(text, w) {
				t.Errorf("%s: %q is in %q", c.name, w, text)
			}
		}
		for _, o := range words(p) {
			if w := r.Width(o.Words, o.Height, o.Bold); w > 100 {
				t.Errorf("%s: %q is %.1f mm long", c.name, o.Words, w)
			}
		}
	}
}
