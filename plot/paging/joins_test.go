package paging_test

import (
	"math"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/paging"
)

// seam is what two neighbours show twice.
type seam struct {
	under, over int // indices of the pages: the left or upper one is covered
	upright     bool
	middle      float64 // x (upright) or y of its middle line, in the plane
	strip       geom.Rect
}

// seamsOf finds the neighbours from the windows alone: pages that share a strip
// as wide as the overlap and as long as a window.
func seamsOf(p paging.Plan) (all []seam) {
	w, h := p.Sheet.Width-p.Sheet.Left-p.Sheet.Right, p.Sheet.Height-p.Sheet.Top-p.Sheet.Bottom
	near := func(a, b unit.Length) bool { return math.Abs(float64(a-b)) < 1e-6 }
	for i, a := range p.Cells {
		for k, b := range p.Cells {
			s := geom.Rect{
				Min: geom.Point{X: max(a.Window.Min.X, b.Window.Min.X), Y: max(a.Window.Min.Y, b.Window.Min.Y)},
				Max: geom.Point{X: min(a.Window.Max.X, b.Window.Max.X), Y: min(a.Window.Max.Y, b.Window.Max.Y)}}
			switch {
			case near(s.Width(), p.Sheet.Overlap) && near(s.Height(), h) && b.Window.Min.X > a.Window.Min.X:
				all = append(all, seam{i, k, true, float64(s.Centre().X), s})
			case near(s.Height(), p.Sheet.Overlap) && near(s.Width(), w) && b.Window.Min.Y < a.Window.Min.Y:
				all = append(all, seam{i, k, false, float64(s.Centre().Y), s})
			}
		}
	}
	return all
}

// along and across are a point's coordinates in the frame of a seam.
func (s seam) along(p geom.Point) float64 {
	if s.upright {
		return float64(p.Y)
	}
	return float64(p.X)
}

func (s seam) across(p geom.Point) float64 {
	if s.upright {
		return float64(p.X) - s.middle
	}
	return float64(p.Y) - s.middle
}

// joinLines are a page's join strokes in the plane that belong to a seam: near
// its middle line, or within its strip.
func joinLines(c laid, p draw.Page, s seam) (all []draw.Line) {
	reach := max(5, math.Abs(s.across(s.strip.Max))) + 0.1
	for _, op := range p.Ops {
		o, ok := op.(draw.Line)
		if !ok || !isJoin(op) {
			continue
		}
		o.From, o.To = back(c.plan, p, o.From), back(c.plan, p, o.To)
		if math.Abs(s.across(o.From)) < reach && math.Abs(s.across(o.To)) < reach && s.strip.Grow(1e-6).Has(o.At(0.5)) {
			all = append(all, o)
		}
	}
	return all
}

// marks are where arms across the middle line stand that are as long on both sides.
func (s seam) marks(lines []draw.Line) (at []float64) {
	for _, l := range lines {
		a, b := s.across(l.From), s.across(l.To)
		if math.Abs(s.along(l.From)-s.along(l.To)) < 1e-6 && math.Abs(a+b) < 1e-6 && math.Abs(a-b) > 3 {
			at = append(at, s.along(l.From))
		}
	}
	slices.Sort(at)
	return at
}

// ticks are the thin strokes across, long to one side only.
func (s seam) ticks(lines []draw.Line) (all []draw.Line) {
	for _, l := range lines {
		if l.Pen == draw.Thin && math.Abs(s.along(l.From)-s.along(l.To)) < 1e-6 && math.Abs(s.across(l.From)+s.across(l.To)) > 1e-6 {
			all = append(all, l)
		}
	}
	return all
}

func TestMarksCoincide(t *testing.T) {
	for _, c := range slices.Concat(cases(t), crowded(t), random(t, paging.RandomPieces)) {
		pages := pagesOf(c)
		seams := seamsOf(c.plan)
		if len(pages) > 1 && len(seams) == 0 {
			t.Errorf("%s: no seams found", c.name)
		}
		for _, s := range seams {
			name := c.name + ", " + pages[s.under].Label + " | " + pages[s.over].Label
			under, over := joinLines(c, pages[s.under], s), joinLines(c, pages[s.over], s)
			a, b := s.marks(under), s.marks(over)
			if len(a) != len(b) || len(a) == 0 {
				t.Errorf("%s: marks at %v and %v", name, a, b)
				continue
			}
			if len(a) < 2 && !c.hard {
				t.Errorf("%s: a single mark cannot show a turn", name)
			}
			for i := range a {
				if math.Abs(a[i]-b[i]) > promised {
					t.Errorf("%s: mark %d at %.4f and %.4f", name, i, a[i], b[i])
				}
			}
			// Equal distances: multiples of the smallest of a known list.
			if len(a) > 2 {
				space := a[1] - a[0]
				for i := 2; i < len(a); i++ {
					space = min(space, a[i]-a[i-1])
				}
				for i := 1; i < len(a); i++ {
					if n := (a[i] - a[i-1]) / space; math.Abs(n-math.Round(n)) > 1e-6 {
						t.Errorf("%s: marks at %v are not at equal distances", name, a)
					}
				}
				known := []float64{50, 40, 30, 25, 20, 15, 10}
				if c.f.Inches {
					known = []float64{50.8, 38.1, 25.4, 19.05, 12.7}
				}
				if !slices.ContainsFunc(known, func(k float64) bool { return math.Abs(space-k) < 1e-6 || math.Abs(space-2*k) < 1e-6 }) {
					t.Errorf("%s: marks %g mm apart", name, space)
				}
			}
			checkTicks(t, name, s, s.ticks(under), s.ticks(over), a)
			checkTrim(t, name, s, under, over)
		}
	}
}

// Ticks 1 mm apart on the sheet below and 0.9 mm on the one on top, eleven each,
// the longest at the same place and no others within 0.05 mm: a slip of n tenths
// brings the pair n steps away together.
func checkTicks(t *testing.T, name string, s seam, under, over []draw.Line, marks []float64) {
	t.Helper()
	if len(under) != len(over) || len(under)%11 != 0 {
		t.Errorf("%s: %d and %d ticks", name, len(under), len(over))
		return
	}
	for k := 0; k < len(under); k += 11 {
		longest := func(ticks []draw.Line) (at, side float64) {
			best := 0.0
			for _, l := range ticks {
				if float64(l.Length()) > best {
					best, at, side = float64(l.Length()), s.along(l.From), s.across(l.From)+s.across(l.To)
				}
			}
			return at, side
		}
		a, b := under[k:k+11], over[k:k+11]
		zero, below := longest(a)
		same, above := longest(b)
		if math.Abs(zero-same) > promised {
			t.Errorf("%s: the longest ticks at %.4f and %.4f", name, zero, same)
		}
		if below*above >= 0 || s.upright && above < 0 || !s.upright && above > 0 {
			t.Errorf("%s: ticks stand %+.1f and %+.1f across: not each on the sheet that stays visible", name, below, above)
		}
		meet := 0
		for i := range a {
			n := math.Round(s.along(a[i].From) - zero)
			if d := s.along(a[i].From) - zero - n; math.Abs(d) > 1e-6 {
				t.Errorf("%s: a tick below %.4f off 1 mm", name, d)
			}
			if d := s.along(b[i].From) - zero - 0.9*math.Round((s.along(b[i].From)-zero)/0.9); math.Abs(d) > 1e-6 {
				t.Errorf("%s: a tick on top %.4f off 0.9 mm", name, d)
			}
			for j := range b {
				if math.Abs(s.along(a[i].From)-s.along(b[j].From)) < 0.05 {
					meet++
				}
			}
		}
		if meet != 1 {
			t.Errorf("%s: %d pairs of ticks meet", name, meet)
		}
		for _, m := range marks {
			if math.Abs(m-zero) < 8 {
				t.Errorf("%s: ticks at %.1f stand in the mark at %.1f", name, zero, m)
			}
		}
	}
}

// On the sheet on top the middle line is one stroke to cut along, through the whole
// window; the one below has it light and in dashes, and is cut along the outer edge of
// the strip, so that none of its margin is left where the other has its window.
func checkTrim(t *testing.T, name string, s seam, under, over []draw.Line) {
	t.Helper()
	half := s.across(s.strip.Max)
	get := func(lines []draw.Line, pen draw.Pen, at float64) (all [][2]float64) {
		for _, l := range lines {
			l.Pen.Phase = 0
			from, to := s.along(l.From), s.along(l.To)
			if l.Pen == pen && math.Abs(s.across(l.From)-at) < promised && math.Abs(s.across(l.To)-at) < promised {
				all = append(all, [2]float64{min(from, to), max(from, to)})
			}
		}
		return all
	}
	whole := [][2]float64{{s.along(s.strip.Min), s.along(s.strip.Max)}}
	same := func(a [][2]float64) bool {
		return len(a) == 1 && math.Abs(a[0][0]-whole[0][0]) < promised && math.Abs(a[0][1]-whole[0][1]) < promised
	}
	rim := half - min(0.175, half)
	if !s.upright {
		rim = -rim
	}
	if cut := get(over, draw.Trim, 0); !same(cut) {
		t.Errorf("%s: the sheet on top is cut %v, want %v", name, cut, whole)
	}
	if cut := get(under, draw.Trim, rim); !same(cut) {
		t.Errorf("%s: the sheet below is cut %v, want %v", name, cut, whole)
	}
	light := get(under, draw.Covers, 0)
	if len(light) == 0 {
		t.Errorf("%s: no light line below", name)
	}
	for _, l := range light {
		if l[0] < whole[0][0]-promised || l[1] > whole[0][1]+promised {
			t.Errorf("%s: the light line %v leaves the strip", name, l)
		}
	}
}

// isCut says whether a stroke is one to cut paper along: that crosses the piece as
// the cut will.
func isCut(op draw.Op) bool {
	l, ok := op.(draw.Line)
	return ok && isJoin(op) && l.Pen == draw.Trim
}

// Marks, ticks, light line and words keep clear of the piece: marks by 1 mm,
// words by 2 mm from other words.
func TestMarksKeepClear(t *testing.T) {
	r := lettering.Go()
	for _, c := range slices.Concat(cases(t), crowded(t), random(t, paging.RandomPieces)) {
		for _, p := range pagesOf(c) {
			lines, arcs := strokesOf(p.Ops, isPiece)
			for _, op := range p.Ops {
				if !isJoin(op) || isCut(op) {
					continue
				}
				if o, ok := op.(draw.Text); ok {
					for _, q := range alongBox(o.Box(r)) {
						if off := offStrokes(q, lines, arcs); off < 1 {
							t.Errorf("%s, %s: %q is %.2f mm from a stroke", c.name, p.Label, o.Words, off)
							break
						}
					}
					for _, other := range p.Ops {
						if w, ok := other.(draw.Text); ok && isPiece(other) && textGap(o, w, r) < 2-1e-9 {
							t.Errorf("%s, %s: %q is %.2f mm from %q", c.name, p.Label, o.Words, textGap(o, w, r), w.Words)
						}
					}
					continue
				}
				for _, q := range sampled(op, 0.5) {
					if off := offStrokes(q, lines, arcs); off < 0.95 {
						t.Errorf("%s, %s: a mark is %.2f mm from the piece at %v", c.name, p.Label, off, q)
						break
					}
				}
			}
		}
	}
}

// alongBox is points round a box and across its middle.
func alongBox(b [4]geom.Point) (all []geom.Point) {
	for i := range 4 {
		all = append(all, sampled(draw.Line{Line: geom.Line{From: b[i], To: b[(i+1)%4]}}, 0.5)...)
	}
	return append(all, sampled(draw.Line{Line: geom.Line{From: b[0], To: b[2]}}, 0.5)...)
}

// textGap is the distance between the boxes of two lines of words that do not
// cover one another.
func textGap(a, b draw.Text, r draw.Ruler) float64 {
	gap := math.Inf(1)
	for _, k := range [2][2]draw.Text{{a, b}, {b, a}} {
		box := k[1].Box(r)
		lines, _ := strokesOf([]draw.Op{draw.Polyline{Points: box[:], Closed: true}}, func(draw.Op) bool { return true })
		for _, q := range alongBox(k[0].Box(r)) {
			gap = min(gap, offStrokes(q, lines, nil))
		}
	}
	return gap
}

// Every join says on the sheet below which comes there, on the one on top that it is cut,
// and what a step is worth: on ordinary paper, on small paper and in narrow strips. Words
// are 2 mm from marks and ticks.
func TestJoinsAreNamed(t *testing.T) {
	r := lettering.Go()
	narrow, small := sheetA4, sheetA5
	narrow.Overlap, small.Overlap = 4, 4
	level := unit.Angle(0)
	for _, c := range append(cases(t),
		lay(t, "overlap 4", bySides(900, 640, 1100), narrow, nil), lay(t, "A5, overlap 4", bySides(500, 400, 300), small, nil), lay(t, "A5", bySides(900, 640, 1100), sheetA5, &level)) {
		pages := pagesOf(c)
		for _, s := range seamsOf(c.plan) {
			steps := 0
			for _, k := range [2]int{s.under, s.over} {
				want := map[bool]string{true: "cut", false: "lay " + pages[s.over].Label + " here"}[k == s.over]
				said := 0
				for _, op := range pages[k].Ops {
					o, ok := op.(draw.Text)
					if !ok || !isJoin(op) {
						continue
					}
					at := back(c.plan, pages[k], o.At)
					if !s.strip.Grow(6).Has(at) || (o.Turn != 0) != s.upright {
						continue
					}
					switch o.Words {
					case want:
						said++
					case "1 step 0.1", "1 step 0.004":
						steps++
					}
					marks, _ := strokesOf(pages[k].Ops, func(op draw.Op) bool {
						l, ok := op.(draw.Line)
						return ok && isJoin(op) && l.Pen == draw.Thin && l.Length() < 9
					})
					for _, q := range alongBox(o.Box(r)) {
						if off := offStrokes(q, marks, nil); off < 2-1e-9 {
							t.Errorf("%s, %s: %q is %.2f mm from a mark", c.name, pages[k].Label, o.Words, off)
							break
						}
					}
				}
				if said == 0 && c.plan.Sheet.Overlap >= 4 && !c.hard {
					t.Errorf("%s: %q does not stand on %s", c.name, want, pages[k].Label)
				}
			}
			if steps == 0 && c.plan.Sheet.Overlap >= 4 && len(s.ticks(joinLines(c, pages[s.over], s))) > 0 {
				t.Errorf("%s: nothing says what a step is worth between %s and %s", c.name, pages[s.under].Label, pages[s.over].Label)
			}
		}
	}
}

func slanted(op draw.Op) bool {
	o, ok := op.(draw.Line)
	return ok && o.From.X != o.To.X && o.From.Y != o.To.Y
}

// Sheets that share nothing have the two halves of each mark, one on each.
func TestMarksWithoutOverlap(t *testing.T) {
	c := laid{plan: byHand(paper("no overlap", 210, 297, 0), 1, 2, geom.Polygon{at(20, 20), at(330, 20), at(20, 200)}), f: someFurniture}
	c.drawing = drawn(c.plan)
	pages := pagesOf(c)
	var places [2][]float64
	for i, p := range pages {
		for k, op := range p.Ops {
			o, ok := op.(draw.Line)
			if ok && isJoin(op) && o.Pen == draw.Thin && o.From.Y == o.To.Y && slanted(p.Ops[k+1]) {
				places[i] = append(places[i], float64(o.From.Y))
				if edge := [2]unit.Length{200, 10}[i]; (o.To.X != edge) && (o.From.X != edge) || o.Length() != 2 {
					t.Errorf("page %d: half a mark from %v to %v", i, o.From, o.To)
				}
			}
		}
	}
	if len(places[0]) < 2 || !slices.Equal(places[0], places[1]) {
		t.Errorf("marks at %v and %v", places[0], places[1])
	}
}

// An edge of the piece that runs along the middle of a strip for its whole length
// is not marked over; one that does so for a part leaves marks on the rest.
func TestEdgeAlongTheStrip(t *testing.T) {
	for _, c := range []struct {
		name    string
		outline geom.Polygon
		marks   int
	}{
		{"the whole length", geom.Polygon{at(20, -50), at(185, -50), at(185, 400), at(20, 400)}, 0},
		{"a third", geom.Polygon{at(20, -50), at(185, -50), at(185, 90), at(20, 90)}, 4}, // shifted by 10: 98.5, 148.5, 198.5, 248.5
		{"beside the middle", geom.Polygon{at(20, -50), at(188, -50), at(188, 400), at(20, 400)}, 0},
		{"outside the strip", geom.Polygon{at(20, -50), at(197, -50), at(197, 400), at(20, 400)}, 5},
	} {
		l := laid{plan: byHand(sheetA4, 1, 2, c.outline), f: someFurniture}
		l.drawing = draw.Drawing{draw.Polyline{Points: c.outline, Closed: true, Pen: draw.Wide}}
		pages := pagesOf(l)
		s := seamsOf(l.plan)[0]
		for i, p := range pages {
			lines := joinLines(l, p, s)
			if got := len(s.marks(lines)); got != c.marks {
				t.Errorf("%s, page %d: %d marks, want %d", c.name, i, got, c.marks)
			}
			own, _ := strokesOf(p.Ops, isPiece)
			for _, op := range p.Ops {
				if !isJoin(op) || isCut(op) {
					continue
				}
				for _, q := range sampled(op, 0.5) {
					if off := offStrokes(q, own, nil); off < 0.95 {
						t.Fatalf("%s, page %d: %T is %.2f mm from the piece", c.name, i, op, off)
					}
				}
			}
		}
	}
}
