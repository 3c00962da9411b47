package template

import (
	"math"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// on takes a point of the piece to the plane of the sheets by the plain formula of
// a turn and a shift.
func on(m geom.Placement, p geom.Point) geom.Point {
	s, c := math.Sincos(float64(m.Turn))
	return geom.Point{
		X: unit.Length(float64(p.X)*c-float64(p.Y)*s) + m.Shift.X,
		Y: unit.Length(float64(p.X)*s+float64(p.Y)*c) + m.Shift.Y,
	}
}

const exact = 1e-9 // mm

func TestOutlineAndArcsAreTrueToScale(t *testing.T) {
	for _, c := range cases {
		for _, p := range pieces(t, c.by, c.tokens) {
			plan := laid(t, p, a4, paging.Full)
			d, err := Draw(p, plan, font, full())
			if err != nil {
				t.Fatal(err)
			}
			tri := p.Triangle
			var outlines []draw.Polyline
			var arcs []draw.Arc
			for _, op := range d {
				switch o := op.(type) {
				case draw.Polyline:
					if o.On == draw.Outline {
						outlines = append(outlines, o)
					}
				case draw.Arc:
					if o.On == draw.Construction && o.Radius != prick {
						arcs = append(arcs, o)
					}
				}
			}
			if len(outlines) != 1 || !outlines[0].Closed || outlines[0].Pen != draw.Wide || len(outlines[0].Points) != 3 {
				t.Fatalf("%s: the outline is not one wide closed line: %v", c.tokens, outlines)
			}
			for i, q := range outlines[0].Points {
				if q.Distance(on(plan.Place, tri.Points[i])) > exact {
					t.Errorf("%s: corner %s lies at %v", c.tokens, tri.Names[i], q)
				}
			}
			var swings []construct.Swing
			for _, s := range p.Construction.Steps {
				switch s := s.(type) {
				case construct.Swing:
					swings = append(swings, s)
				case construct.HalfCircle: // about the middle of the longest side
					swings = append(swings, construct.Swing{About: geom.Line{From: tri.Points[0], To: tri.Points[1]}.At(0.5), Radius: tri.Sides[2] / 2, Through: tri.Points[2]})
				}
			}
			if len(arcs) != len(swings) {
				t.Fatalf("%s: %d arcs for %d swings", c.tokens, len(arcs), len(swings))
			}
			for i, s := range swings {
				a := arcs[i]
				if a.Radius != s.Radius || a.Centre.Distance(on(plan.Place, s.About)) > exact {
					t.Errorf("%s: arc %d is %v", c.tokens, i, a)
				}
				if math.Abs(math.Abs(a.Sweep.Degrees())-30) > 1e-9 || a.At(0.5).Distance(on(plan.Place, s.Through)) > 1e-9*max(1, s.Radius) {
					t.Errorf("%s: arc %d does not reach 15° to each side of the crossing", c.tokens, i)
				}
			}
		}
	}
}

// What the steps say and what is drawn are of the same values: every figure of a
// construction line stands in the words, and every radius in the drawing.
func TestStepsAndLinesAgree(t *testing.T) {
	for _, c := range cases {
		for _, p := range pieces(t, c.by, c.tokens) {
			style := full()
			plan := laid(t, p, a4, paging.Full)
			d, err := Draw(p, plan, font, style)
			if err != nil {
				t.Fatal(err)
			}
			var said []string
			for _, op := range d {
				if o, ok := op.(draw.Text); ok {
					said = append(said, o.Words)
				}
			}
			steps := Steps(p, style)
			if len(steps) != len(p.Construction.Steps) {
				t.Fatalf("%s: %d sentences for %d steps", c.tokens, len(steps), len(p.Construction.Steps))
			}
			for i, step := range p.Construction.Steps {
				want := func(figure string) {
					if !strings.Contains(steps[i], figure) {
						t.Errorf("%s: step %d does not say %s: %s", c.tokens, i+1, figure, steps[i])
					}
				}
				switch s := step.(type) {
				case construct.Swing:
					r := style.Figures.Length(s.Radius)
					want(" to " + r + ".")
					if !s.Measured {
						want(r + " is computed.")
					}
					if !slices.ContainsFunc(said, func(w string) bool {
						return strings.Contains(w, "R "+map[bool]string{true: r, false: "(" + r + ")"}[s.Measured]+" from "+string(s.Centre))
					}) {
						t.Errorf("%s: no arc is lettered %s about %s: %q", c.tokens, r, s.Centre, said)
					}
				case construct.SetAngle:
					if math.Abs(s.Angle.Degrees()-90) < 1e-9 {
						want("Try square on")
						break
					}
					want(style.Figures.Angle(s.Angle))
				case construct.DrawBase:
					want(style.Figures.Length(s.Length))
				case construct.MarkOff:
					want(style.Figures.Length(s.Length))
				case construct.Erect:
					want(style.Figures.Length(s.Height))
				case construct.Parallel:
					want(style.Figures.Length(s.Distance))
				}
				// Every line of the step lies on something drawn.
				for _, m := range Marks(step) {
					var ends []geom.Point
					switch m := m.(type) {
					case draw.Line:
						ends = []geom.Point{m.From, m.At(0.5), m.To}
					case draw.Arc:
						ends = []geom.Point{m.At(0), m.At(0.5), m.At(1)}
					}
					for _, e := range ends {
						if e := on(plan.Place, e); !covered(d, e) {
							t.Errorf("%s: step %d (%T) draws nothing at %v", c.tokens, i+1, step, e)
						}
					}
				}
			}
		}
	}
}

// covered says whether some stroke runs through a point.
func covered(d draw.Drawing, p geom.Point) bool {
	for _, op := range d {
		switch o := op.(type) {
		case draw.Line:
			if fromLine(p, o.Line) < 1e-6 {
				return true
			}
		case draw.Arc:
			if fromArc(p, o.Arc) < 1e-6 {
				return true
			}
		case draw.Polyline:
			for i := range o.Points {
				if fromLine(p, geom.Polygon(o.Points).Edge(i)) < 1e-6 {
					return true
				}
			}
		}
	}
	return false
}

func TestEveryStepHasWordsAndLines(t *testing.T) {
	silent := map[string]bool{"construct.ThirdAngle": true, "construct.CheckSide": true, "construct.CheckAngle": true, "construct.CheckHeight": true}
	seen := map[string]bool{}
	for _, c := range cases {
		for _, p := range pieces(t, c.by, c.tokens) {
			for i, step := range p.Construction.Steps {
				name := typeName(step)
				seen[name] = true
				if drawn := len(Marks(step)) > 0; drawn == silent[name] {
					t.Errorf("%s draws lines: %t", name, drawn)
				}
				if say := Steps(p, full())[i]; len(say) < 10 || !strings.HasSuffix(say, ".") || strings.Contains(say, "%!") {
					t.Errorf("%s says %q", name, say)
				}
			}
		}
	}
	for _, step := range construct.StepTypes() {
		if !seen[typeName(step)] {
			t.Errorf("no case has a %s", typeName(step))
		}
		if say := Steps(Piece{Construction: construct.Construction{Steps: []construct.Step{step}}}, full()); say[0] == "" {
			t.Errorf("%T has no words", step)
		}
	}
}

func TestMeasuredIsBareAndComputedInParentheses(t *testing.T) {
	p := piece(t, "AB=150 A=50deg CA=90.25")
	d, err := Draw(p, laid(t, p, a4, paging.Full), font, full())
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	for _, op := range d {
		if o, ok := op.(draw.Text); ok {
			said = append(said, o.Words)
		}
	}
	// By the cosine rule: BC 115.058, B 36.933°, C 93.067°, height 69.136 (computed apart).
	for _, want := range []string{"A", "B", "C", "150", "90.3", "(115.1)", "50°", "(36.9°)", "(93.1°)", "(69.1)"} {
		if !slices.Contains(said, want) {
			t.Errorf("%s is missing among %q", want, said)
		}
	}
}

func TestStyleLeavesOut(t *testing.T) {
	p := piece(t, "AB=150 BC=120 CA=130")
	plan := laid(t, p, a4, paging.Full)
	count := func(s Style) (texts, arcs, centre int) {
		d, err := Draw(p, plan, font, s)
		if err != nil {
			t.Fatal(err)
		}
		for _, op := range d {
			switch o := op.(type) {
			case draw.Text:
				texts++
			case draw.Arc:
				if o.Radius != prick {
					arcs++
				}
			case draw.Line:
				if o.Pen == draw.Centre {
					centre++
				}
			}
		}
		return
	}
	for _, c := range []struct {
		style               Style
		texts, arcs, centre int
	}{
		{full(), 3 + 3 + 3 + 1 + 2, 3 + 2, 1},
		{Style{}, 3, 0, 0},
		{Style{Lengths: true}, 6, 0, 0},
		{Style{Angles: true}, 6, 3, 0},
		{Style{Heights: true}, 4, 0, 1},
		{Style{Arcs: true}, 5, 2, 0},
	} {
		if a, b, e := count(c.style); a != c.texts || b != c.arcs || e != c.centre {
			t.Errorf("%+v draws %d words, %d arcs, %d heights; want %d, %d, %d", c.style, a, b, e, c.texts, c.arcs, c.centre)
		}
	}
}

func TestMissingCharacterIsAFault(t *testing.T) {
	p := piece(t, "AB=150 BC=120 CA=130")
	plan := laid(t, p, a4, paging.Full)
	p.Name = "Platte 角"
	_, err := Draw(p, plan, font, full())
	if f, ok := err.(*unit.Fault); !ok || !strings.Contains(f.What, "角") || f.Hint == "" {
		t.Errorf("Draw: %v", err)
	}
	if _, err := Index(p, plan, font, full(), Front{}); err == nil || !strings.Contains(err.Error(), "角") {
		t.Errorf("Index: %v", err)
	}
}

func TestSettleMovesOnlyWhereThePagesAllow(t *testing.T) {
	p := piece(t, "AB=120 BC=90 CA=110")
	raw, err := paging.Lay(p.Triangle.Polygon(), a4, paging.Full, nil, paging.Effort{})
	if err != nil {
		t.Fatal(err)
	}
	plan := Settle(raw)
	w, b := plan.Cells[0].Window, plan.Outline.Bounds()
	if b.Min.X-w.Min.X < 13.9 || b.Min.Y-w.Min.Y < 13.9 || w.Max.X-b.Max.X < 13.9 || w.Max.Y-b.Max.Y < 13.9 {
		t.Errorf("the piece %v stands too near the edge of %v", b, w)
	}
	for i, q := range plan.Outline {
		if q.Distance(on(plan.Place, p.Triangle.Points[i])) > exact {
			t.Errorf("corner %d and the placement disagree", i)
		}
	}
	if again := Settle(plan); again.Place != plan.Place {
		t.Error("settling twice moves twice")
	}
	p = piece(t, "AB=600 BC=450 CA=450")
	big, err := paging.Lay(p.Triangle.Polygon(), a4, paging.Full, nil, paging.Effort{})
	if err != nil {
		t.Fatal(err)
	}
	if big.Cols > 1 && big.Rows > 1 && Settle(big).Place != big.Place {
		t.Error("a piece on rows and columns must stay")
	}
}
