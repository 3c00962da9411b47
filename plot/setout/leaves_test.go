package setout

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/net"
	"trammel/geom/pegging"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/internal/pagetest"
	"trammel/plot/lettering"
	"trammel/plot/words"
)

// around is a net of n pegs once round a site, each measured from both ends of the first
// side and to the next one: to the millimetre, with errors.
func around(t testing.TB, r *rand.Rand, n int) Sheet {
	t.Helper()
	for {
		size := 3000 * math.Exp(2.5*r.Float64())
		var at []geom.Point
		for i := range n {
			far, turn := size*(0.55+0.45*r.Float64()), (float64(i)+0.8*(r.Float64()-0.5))/float64(n)*2*math.Pi
			at = append(at, geom.Point{X: unit.Length(1.3 * far * math.Cos(turn)), Y: unit.Length(far * math.Sin(turn))})
		}
		var tokens, outline []string
		for i, p := range at {
			outline = append(outline, string(rune('A'+i)))
			for j := range i {
				if j < 2 || j == i-1 {
					tokens = append(tokens, fmt.Sprintf("%c%c=%.0f", 'A'+j, 'A'+i, p.Distance(at[j]).MM()))
				}
			}
		}
		in, err := netOf(tokens, outline)
		if err != nil {
			continue
		}
		if s, err := Prepare(in); err == nil {
			return s
		}
	}
}

func netOf(tokens, outline []string) (in Input, err error) {
	var l net.Net
	for _, token := range tokens {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			return in, err
		}
		l.Measured = append(l.Measured, m)
	}
	for _, n := range outline {
		l.Outline = append(l.Outline, geom.Name(n))
	}
	a, err := net.Adjust(l)
	return Input{Asked: pegging.Asked{Net: a}}, err
}

// inkDown is how far down its page the lowest ink reaches between head and foot, as a share
// of what lies between them.
func inkDown(p draw.Page, first bool) float64 {
	top := p.Height - 19 // the margin and the head's first line
	if first {
		top -= 9
	}
	low := top
	for _, op := range p.Ops {
		if o, ok := op.(draw.Text); ok && strings.HasPrefix(o.Words, "The plan is a picture") {
			continue
		}
		low = min(low, op.Bounds(lettering.Go()).Min.Y)
	}
	return float64((top - low) / (top - 14.5))
}

// A triangle is one leaf, a net of up to 8 pegs as well, one of 20 pegs two; no page is
// less than half full.
func TestLeaves(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	check := func(name string, s Sheet, most int) {
		pages := pagesOf(t, s, pagetest.A4)
		if len(pages) > most {
			t.Errorf("%s: %d pages, %d at most", name, len(pages), most)
		}
		unbroken(t, name, s, pages)
		for i, p := range pages {
			if full := inkDown(p, i == 0); len(pages) > 1 && full < 0.5 {
				t.Errorf("%s: page %d of %d is filled to %.2f", name, i+1, len(pages), full)
			}
		}
	}
	for _, c := range shapes {
		check(c.name, prepared(t, c.tokens, c.change), 2)
	}
	check("floor", preparedNet(t, floor, "ABCDEF", nil), 2)
	for i := range gate.Of(17, 60) {
		n := 4 + i%17
		most := 4
		if n <= 8 {
			most = 2
		}
		check(fmt.Sprintf("net %d of %d pegs", i, n), around(t, r, n), most)
	}
}

// unbroken says whether each step stands on one page, and each table: its heads are not set
// again, and both halves of the checks stand on one page.
func unbroken(t *testing.T, name string, s Sheet, pages []draw.Page) {
	heads := map[string][]int{}
	var said []string
	for i, p := range pages {
		said = append(said, strings.Join(strings.Fields(pagetest.Running(pages[i:i+1])), ""))
		for _, op := range p.Ops {
			if o, ok := op.(draw.Text); ok && o.Height == draw.NoteHeight {
				heads[o.Words] = append(heads[o.Words], i)
			}
		}
	}
	for head, most := range map[string]int{"step": 1, "what it is": 1, "good from": 2} {
		on := heads[head]
		if len(on) == 0 || len(on) > most || on[0] != on[len(on)-1] {
			t.Errorf("%s: the head %q stands on pages %v", name, head, on)
		}
	}
	short := s.Says().Short()
	for i, step := range s.Steps {
		whole := func(words string) bool {
			return slices.ContainsFunc(said, func(page string) bool { return strings.Contains(page, strings.Join(strings.Fields(words), "")) })
		}
		n := 0
		both := slices.IndexFunc(short, func(x words.Step) bool { n += x.Pulls; return n > i })
		if !whole(step) && !whole(short[both].Words) {
			t.Errorf("%s: step %d is on no page whole: %s", name, i+1, step)
		}
	}
}

// Every line that is pulled is drawn on the plan and has its length: beside it and nearer
// to it than to any other, or on a leader that begins on it.
func TestPulledLinesAreDrawnAndLabelled(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	sheets := map[string]Sheet{"gable": prepared(t, gable, nil), "floor": preparedNet(t, floor, "ABCDEF", nil), "house": preparedNet(t, house, "ABCD", nil)}
	for i := range gate.Of(25, 200) {
		n := 4 + i%17
		sheets[fmt.Sprintf("net %d of %d pegs", i, n)] = around(t, r, n)
	}
	pulled := 0
	for name, s := range sheets {
		d, ok := s.planned().Fit(190, 200, lettering.Go())
		if !ok {
			t.Errorf("%s: has no room", name)
		}
		var lines []geom.Line
		for _, x := range s.Pulls {
			if x.Part != pegging.SecondWay && (x.Use == pegging.ForArc || x.Use == pegging.ForRay) {
				lines = append(lines, geom.Line{From: s.Spot(x.Hold).Times(1 / d.Scale), To: s.Spot(x.To).Times(1 / d.Scale)})
			}
		}
		oneSize(t, name, s, d.Ops)
		k := 0
		for _, x := range s.Pulls {
			if x.Part != pegging.SecondWay && (x.Use == pegging.ForArc || x.Use == pegging.ForRay) {
				at := fmt.Sprintf("%s: %s%s", name, x.Hold, x.To)
				if !isDrawn(d.Ops, lines[k]) {
					t.Errorf("%s is not drawn", at)
				}
				if !isLabelled(d.Ops, lines, k, s.Figure(s.Between(x.Hold, x.To))) {
					t.Errorf("%s is not labelled", at)
				}
				pulled, k = pulled+1, k+1
			}
		}
	}
	if pulled < 400 {
		t.Errorf("only %d lines", pulled)
	}
}

// oneSize says whether the names of all corners on a plan are as high.
func oneSize(t *testing.T, name string, s Sheet, ops draw.Drawing) {
	high := unit.Length(0)
	for _, op := range ops {
		o, ok := op.(draw.Text)
		if !ok || !o.Bold || !slices.ContainsFunc(s.sitePegs(), func(q pegging.Mark) bool { return q.Role == pegging.Corner && string(q.Name) == o.Words }) {
			continue
		}
		if high == 0 {
			high = o.Height
		}
		if o.Height != high {
			t.Errorf("%s: %s is %.1f high, others %.1f", name, o.Words, o.Height, high)
		}
	}
}

// isDrawn says whether strokes lie on a line at 9 of 10 places, the gap of its length left out.
func isDrawn(ops draw.Drawing, l geom.Line) bool {
	on := 0
	const places = 40
	for i := range places {
		at := l.At((float64(i) + 0.5) / places)
		if slices.ContainsFunc(ops, func(op draw.Op) bool { return strokeNear(op, at) < 0.02 }) {
			on++
		}
	}
	return on > 0 && (float64(on)/places > 0.9 || unit.Length(places-on)/places*l.Length() < 20)
}

// strokeNear is how far a stroke is from a place.
func strokeNear(op draw.Op, at geom.Point) unit.Length {
	far := unit.Length(math.Inf(1))
	switch o := op.(type) {
	case draw.Line:
		far = o.Line.Distance(at)
	case draw.Polyline:
		for i := range o.Points {
			if i < len(o.Points)-1 || o.Closed {
				far = min(far, geom.Polygon(o.Points).Edge(i).Distance(at))
			}
		}
	}
	return far
}

func isLabelled(ops draw.Drawing, lines []geom.Line, own int, figure string) bool {
	for _, op := range ops {
		o, ok := op.(draw.Text)
		if !ok || o.Words != figure {
			continue
		}
		corners := o.Box(lettering.Go())
		box := geom.Polygon(corners[:])
		centre := o.At.Toward(o.Turn+unit.Turn/4, o.Height/2)
		mine := lines[own].Distance(centre)
		if mine < 7 && !slices.ContainsFunc(lines, func(l geom.Line) bool { return l != lines[own] && l.Distance(centre) < mine-0.3 }) {
			return true
		}
		if slices.ContainsFunc(ops, func(op draw.Op) bool { // a leader
			l, ok := op.(draw.Line)
			return ok && (lines[own].Distance(l.From) < 0.3 && nearBox(box, l.To) || lines[own].Distance(l.To) < 0.3 && nearBox(box, l.From))
		}) {
			return true
		}
	}
	return false
}

// nearBox says whether a leader's end is at a label.
func nearBox(box geom.Polygon, at geom.Point) bool {
	for i := range box {
		if box.Edge(i).Distance(at) < 0.8 {
			return true
		}
	}
	return false
}
