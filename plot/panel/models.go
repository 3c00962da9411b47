package panel

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/task"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/words"
)

// Model is a construction that is shown, step by step.
type Model struct {
	Title  string
	Given  []string // one a line
	Panels []Panel
}

// NoTriangle shows three sides in mm of which two are together shorter than the third: both
// arcs about the ends of the longest, and the gap between them, with the rule behind it. Empty
// where they make a triangle.
func NoTriangle(sides [3]float64, l words.Language, size Size, r draw.Ruler) []Panel {
	slices.Sort(sides[:])
	if sides[0]+sides[1] >= sides[2] || sides[0] <= 0 {
		return nil
	}
	return staged(noneOfThree(sides[2], sides[1], sides[0], l), l, size, r)
}

// model is one before it has pictures.
type model struct {
	title string
	given []string
	moves []move
}

// Models are all constructions that trammel knows, one of each kind of task and of what else
// a class learns.
//
// The error is one of measurements that fix no triangle, which these do.
func Models(l words.Language, size Size, r draw.Ruler) (all []Model, err error) {
	says := words.In(l)
	var list []model
	for _, k := range task.Kinds() {
		t := task.Shown(k)
		moves, err := movesOfTask(t, l, false)
		if err != nil {
			return nil, err
		}
		list = append(list, model{says.Models().Title(k), says.Tasks().Given(t), moves})
	}
	for _, x := range []struct {
		title         string
		given, tokens []string
	}{
		{says.Models().HalfCircle(), []string{"AB = 90 mm", "angle C = 90°", "CA = 52 mm"}, []string{"AB=90", "C=90deg", "CA=52"}},
		{says.Models().Touching(), []string{"AB = 100 mm", "angle A = 30°", "BC = 50 mm"}, []string{"AB=100", "A=30deg", "BC=50"}},
	} {
		h, err := solved(x.tokens, 0)
		if err != nil {
			return nil, err
		}
		list = append(list, model{x.title, x.given, movesOf(h, l)})
	}
	list = append(list, model{says.Models().NoneOfThree(), []string{"AB = 95 mm", "BC = 40 mm", "CA = 35 mm"}, noneOfThree(95, 40, 35, l)},
		model{says.Models().Kite(), []string{"AB = AD = 50 mm", "BC = CD = 80 mm", "AC = 100 mm"}, movesOf(kite(), l)})
	for _, m := range list {
		all = append(all, Model{m.title, m.given, staged(m.moves, l, size, r)})
	}
	return all, nil
}

// movesOfTask are those of a task: of two triangles in one figure, of none the arc that falls
// short.
func movesOfTask(t task.Task, l words.Language, tight bool) ([]move, error) {
	tokens, radius := t.Tokens(), float64(t.Given[2])
	if t.Kind == task.SSA0 { // C is the foot on the arm
		tokens[2] = fmt.Sprintf("CA=%.17g", float64(t.Given[0])*math.Cos(float64(t.Given[1])*math.Pi/180))
	}
	h, err := solved(tokens, 0)
	if err != nil {
		return nil, err
	}
	switch t.Kind {
	case task.SSA0:
		return none(h, l, radius), nil
	case task.SSA2:
		return both(h, l), nil
	}
	m := newMover(h, l)
	m.tight = tight && t.Kind == task.BHS // its other crossing lies far off
	return m.moves(), nil
}

// Figure is the drawing of a task as it should come out, true to scale, with every line of the
// construction, and the sentences of its steps.
type Figure struct {
	Wide, High unit.Length
	Ops        draw.Drawing // from the lower left corner
	Steps      []string
}

// FigureOf a task. The error is one of numbers that fix no triangle.
func FigureOf(t task.Task, l words.Language, r draw.Ruler) (f Figure, err error) {
	moves, err := movesOfTask(t, l, true)
	if err != nil {
		return f, err
	}
	s := stage{letters: draw.FigureHeight, r: r, scale: 1}
	var last move
	for _, m := range moves {
		if m.outline != nil {
			last.outline = m.outline
		}
		if m.measures {
			continue
		}
		f.Steps = append(f.Steps, m.say)
	}
	last.tool = func(s *stage) {
		if end := moves[len(moves)-1].gap; end != nil {
			s.gap(geom.VectorOf(end.From), geom.VectorOf(end.To))
		}
	}
	s.show(moves, last)
	box := s.ops[0].Bounds(r)
	for _, op := range s.ops {
		box = box.Join(op.Bounds(r))
	}
	for _, op := range s.ops {
		f.Ops = append(f.Ops, draw.Shift(op, geom.Point{}.Minus(box.Min)))
	}
	f.Wide, f.High = box.Width(), box.Height()
	return f, nil
}

// solved is a triangle that is made by hand on AB.
func solved(tokens []string, answer int) (h words.ByHand, err error) {
	var ms []triangle.Measurement
	given := map[geom.Name]unit.Reading{}
	for _, token := range tokens {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			return h, err
		}
		if m.Kind == triangle.Angle {
			given[m.At[1]] = m.Value
		}
		ms = append(ms, m)
	}
	s, err := triangle.Solve(ms, [2]geom.Name{"A", "B"})
	if err != nil {
		return h, err
	}
	if len(s.Answers) > 1 && s.Answers[1].Triangle.Sides[1] > s.Answers[0].Triangle.Sides[1] {
		answer = 1 - answer
	}
	c, err := construct.Choose(s, answer, construct.Hand{OnBase: true, Reach: 120, Protractor: unit.Degree})
	return piece(c, given), err
}

// kite is the net of one: two triangles on one diagonal.
func kite() words.ByHand {
	x := (50.0*50 - 80*80 + 100*100) / 200
	y := math.Sqrt(50*50 - x*x)
	corners := geom.Polygon{{}, geom.Vector{X: x, Y: -y}.Point(), {X: 100}, geom.Vector{X: x, Y: y}.Point()}
	o := geom.OutlineOf([]geom.Name{"A", "B", "C", "D"}, corners)
	var ms []triangle.Measurement
	for _, token := range []string{"AB=50", "DA=50", "BC=80", "CD=80", "AC=100"} {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			panic("panel: " + err.Error()) // they are written above
		}
		ms = append(ms, m)
	}
	return piece(construct.ConstructNet(o, nil, [2]geom.Name{"A", "C"}, ms), nil)
}
