package panel

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/gate"
	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/internal/pagetest"
	"trammel/plot/lettering"
	"trammel/plot/words"
)

var inClass = words.English{Voice: words.Class}

// whole says what is wrong with a panel whatever it shows.
func whole(t *testing.T, name string, p Panel) {
	t.Helper()
	r := lettering.Go()
	if len(p.Ops) == 0 || p.Say == "" {
		t.Errorf("%s, step %d shows %d things and says %q", name, p.Number, len(p.Ops), p.Say)
	}
	heavy := 0
	area := geom.Rect{Max: geom.Point{X: p.Wide, Y: p.High}}.Grow(3)
	for _, op := range p.Ops {
		if b := op.Bounds(r); !area.Has(b.Min) || !area.Has(b.Max) {
			t.Errorf("%s, step %d: %+v lies outside of %v × %v", name, p.Number, op, p.Wide, p.High)
		}
		if s, ok := draw.Stroked(op); ok && s.Pen.Width == fresh.Width {
			heavy++
		}
	}
	if heavy == 0 && !strings.HasPrefix(p.Say, "Work out") {
		t.Errorf("%s, step %d: nothing is new", name, p.Number)
	}
	pagetest.Overlaps(t, fmt.Sprintf("%s, step %d", name, p.Number), []draw.Page{{Ops: p.Ops}}, r)
}

// All constructions that are shown, for the hand and for a screen.
func TestModels(t *testing.T) {
	for _, size := range []Size{Hand, Screen} {
		all, err := Models(inClass, size, lettering.Go())
		if err != nil {
			t.Fatal(err)
		}
		if len(all) != len(task.Kinds())+4 {
			t.Errorf("%d models", len(all))
		}
		for _, m := range all {
			if len(m.Panels) < 3 {
				t.Errorf("%s has %d steps", m.Title, len(m.Panels))
			}
			for _, p := range m.Panels {
				whole(t, m.Title, p)
			}
		}
	}
}

var degreesSaid = regexp.MustCompile(`mark (\d+)°`)

// The picture and the sentence come from one step: the number ringed heavily on the protractor
// is the one that is said, the one struck through is what it leaves of 180, and the ring lies
// where the drawing has that angle.
func TestProtractorAgreesWithSentence(t *testing.T) {
	r, seen := rand.New(rand.NewPCG(12, 4)), 0
	for range gate.Of(60, 2000) {
		a, b := 20+r.IntN(70), 20+r.IntN(70)
		h, err := solved([]string{"AB=90", fmt.Sprintf("A=%ddeg", a), fmt.Sprintf("B=%ddeg", b)}, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range Of(h, inClass, Hand, lettering.Go()) {
			m := degreesSaid.FindStringSubmatch(p.Say)
			if m == nil {
				continue
			}
			seen++
			var ring draw.Arc
			var thin []string
			for _, op := range p.Ops {
				switch o := op.(type) {
				case draw.Arc:
					if o.Pen.Width == fresh.Width && o.Radius > 1 && o.Radius < 4 {
						ring = o
					}
				case draw.Text:
					if !o.Bold {
						thin = append(thin, o.Words)
					}
				}
			}
			i := slices.IndexFunc(p.Ops, func(op draw.Op) bool {
				o, ok := op.(draw.Text)
				return ok && o.Bold && o.Words == m[1] && o.At.Distance(ring.Centre) < 3
			})
			if i < 0 {
				t.Errorf("A=%d B=%d: %s is said and not ringed", a, b, m[1])
			}
			other := strings.Split(strings.TrimSuffix(p.Why, "°."), " ")
			if !slices.Contains(thin, other[len(other)-1]) {
				t.Errorf("A=%d B=%d: %q is not on the thin scale", a, b, p.Why)
			}
		}
	}
	if seen < 100 {
		t.Errorf("only %d protractors", seen)
	}
}

// Sentences are those of the steps, in their order, in every voice; of triangles of every
// kind and at any size, nothing is empty and nothing runs off its picture.
func TestPanelsOfAnyTriangle(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 5))
	for n := range gate.Of(20, 500) {
		size := math.Pow(10, 1.5+2.5*r.Float64())
		a, b, c := size*(0.5+r.Float64()), size*(0.5+r.Float64()), size*(0.5+0.4*r.Float64())
		tokens := [][]string{
			{fmt.Sprintf("AB=%.0f", c), fmt.Sprintf("BC=%.0f", a), fmt.Sprintf("CA=%.0f", b)},
			{fmt.Sprintf("AB=%.0f", c), fmt.Sprintf("A=%ddeg", 30+r.IntN(90)), fmt.Sprintf("CA=%.0f", b)},
			{fmt.Sprintf("AB=%.0f", c), fmt.Sprintf("A=%ddeg", 30+r.IntN(60)), fmt.Sprintf("C-AB=%.0f", b/2)},
		}[n%3]
		h, err := solved(tokens, 0)
		if err != nil {
			continue
		}
		for _, v := range words.Voices() {
			l := words.English{Voice: v}
			panels, say := Of(h, l, Hand, lettering.Go()), words.InWords(l.Steps(), h)
			if len(panels) != len(say) {
				t.Fatalf("%v: %d panels, %d sentences", tokens, len(panels), len(say))
			}
			for i, p := range panels {
				if p.Say != say[i] {
					t.Errorf("%v: step %d says %q, not %q", tokens, i+1, p.Say, say[i])
				}
				whole(t, fmt.Sprint(v, tokens), p)
			}
		}
	}
}

// Every type of step is shown.
func TestEveryStepHasAPanel(t *testing.T) {
	seen := map[string]bool{}
	for _, tokens := range [][]string{
		{"AB=90", "BC=80", "CA=60"}, {"AB=90", "A=50deg", "CA=60"}, {"AB=90", "A=60deg", "C=72deg"}, {"AB=90", "A=90deg", "CA=60"},
		{"AB=90", "C-AB=50", "CA=62"}, {"AB=90", "C=90deg", "CA=52"},
	} {
		h, err := solved(tokens, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range h.Construction.Steps {
			seen[fmt.Sprintf("%T", s)] = true
		}
		for _, p := range Of(h, inClass, Hand, lettering.Go()) {
			whole(t, fmt.Sprint(tokens), p)
		}
	}
	for _, s := range construct.StepTypes() {
		if !seen[fmt.Sprintf("%T", s)] {
			t.Errorf("no panel of %T is looked at", s)
		}
	}
}

// A panel with a protractor of 10 cm is full size where the triangle has room: AB on the paper
// is as long as it says.
func TestFullSizePanels(t *testing.T) {
	h, err := solved([]string{"AB=90", "A=50deg", "CA=60"}, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range Of(h, inClass, Hand, lettering.Go()) {
		if !p.FullSize {
			continue
		}
		for _, op := range p.Ops {
			if l, ok := op.(draw.Line); ok && math.Abs(float64(l.Length()-90*unit.Millimetre)) < 1e-9 && l.Pen == stood {
				return
			}
		}
	}
	t.Error("no line of 90 mm on a panel that is full size")
}

// Sides that make no triangle are shown with the gap, in the words of a lesson.
func TestNoTriangle(t *testing.T) {
	panels := NoTriangle([3]float64{400, 100, 200}, inClass, Hand, lettering.Go())
	if len(panels) != 3 {
		t.Fatalf("%d panels", len(panels))
	}
	for _, p := range panels {
		whole(t, "no triangle", p)
	}
	last := panels[2]
	if last.Why != "The two shorter sides together must be longer than the third: 100 + 200 is less than 400." || !strings.Contains(last.Say, "100 mm are missing") {
		t.Errorf("%s %s", last.Say, last.Why)
	}
	if NoTriangle([3]float64{3, 4, 5}, inClass, Hand, lettering.Go()) != nil {
		t.Error("3, 4 and 5 make a triangle")
	}
}
