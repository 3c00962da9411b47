package floor

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
)

// skewRooms are rooms with walls that lean by up to 20° each way, and one with a post.
func skewRooms(t *testing.T) (all []Sheet) {
	t.Helper()
	for _, walls := range []geom.Polygon{
		{{}, {X: 3810}, {X: 2860, Y: 2470}, {X: -60, Y: 2460}}, // the sea wall askew
		{{}, {X: 4000, Y: 90}, {X: 3900, Y: 3000}, {X: 250, Y: 3100}},
		{{}, {X: 3000}, {X: 3600, Y: 2800}, {X: 900, Y: 2650}}, // both sides lean by about 15°
		{{X: 100}, {X: 3600, Y: -150}, {X: 3700, Y: 2900}, {X: 1900, Y: 2850}, {X: 1850, Y: 1700}, {Y: 1650}},
	} {
		n := []geom.Name{"A", "B", "C", "D", "E", "F"}[:len(walls)]
		s := Sheet{Outline: geom.OutlineOf(n, walls), Gaps: make([]unit.Length, len(walls)), Along: "AB"}
		for i := range s.Gaps {
			s.Gaps[i] = 8
		}
		r, err := tiling.Floor{Walls: walls, Gaps: s.Gaps}.Region()
		if err != nil {
			t.Fatal(err)
		}
		g := tiling.Grid{Along: 600, Across: 300, Joint: 3, Kerf: 3, Pattern: tiling.Brick, Step: 1, Of: 2, Angle: walls.Edge(0).Direction()}
		s.Plan = r.Best(t.Context(), g, tiling.Wish{Aims: []tiling.Aim{tiling.Balanced}})
		all = append(all, s)
	}
	return all
}

var (
	markWords   = regexp.MustCompile(`([\d.]+) square off (\w+) at ([\d.]+) from (\w)`)
	squareWords = regexp.MustCompile(`mark ([\d.]+) along line 1 to the (left|right), towards (\w+), and ([\d.]+) along line 2 (away from|towards) you, towards (\w+)\. Between the two marks it must pull ([\d.]+) mm`)
)

func figure(t *testing.T, words string) unit.Length {
	t.Helper()
	x, err := strconv.ParseFloat(words, 64)
	if err != nil {
		t.Fatal(err)
	}
	return unit.Length(x)
}

// snapped is the line that a step leads to by its figures alone.
func snapped(t *testing.T, s Sheet, step string) geom.Line {
	t.Helper()
	marks := markWords.FindAllStringSubmatch(step, -1)
	if len(marks) != 2 {
		t.Fatalf("%q: %d marks", step, len(marks))
	}
	var at [2]geom.Point
	for k, m := range marks {
		for i, p := range s.Outline.Points {
			if s.Outline.Side(i) != m[2] {
				continue
			}
			way := geom.VectorOf(s.Outline.Points[s.Outline.Next(i)].Minus(p)).Unit()
			in := way.Left()
			if string(s.Outline.Names[i]) != m[4] {
				p, way = s.Outline.Points[s.Outline.Next(i)], way.Times(-1)
			}
			at[k] = p.Plus(way.Times(float64(figure(t, m[3]))).Point()).Plus(in.Times(float64(figure(t, m[1]))).Point())
		}
	}
	return geom.Line{From: at[0], To: at[1]}
}

// Who follows the figures of the steps and nothing else gets both lines where the tiles are, with walls
// that lean, within what rounding to a millimetre does.
func TestStepsLeadToTheLines(t *testing.T) {
	for i, s := range skewRooms(t) {
		start, ok := s.start()
		if !ok {
			t.Fatalf("room %d: no start", i)
		}
		steps := s.startWords()
		box := s.Plan.Grid.Tile(start.Tile, s.drawn().Shift)
		back := geom.Placement{Turn: s.Plan.Grid.Angle}
		low, right, left := back.Apply(box.Min), back.Apply(geom.Point{X: box.Max.X, Y: box.Min.Y}), back.Apply(geom.Point{X: box.Min.X, Y: box.Max.Y})
		for step, ends := range [][2]geom.Point{{low, right}, {low, left}} {
			line := snapped(t, s, steps[step])
			for _, p := range ends {
				v := geom.VectorOf(line.To.Minus(line.From)).Unit()
				if off := v.Cross(geom.VectorOf(p.Minus(line.From))); math.Abs(off) > 1.5 {
					t.Errorf("room %d, line %d: %.2f mm off the tile's corner: %s", i, step+1, off, steps[step])
				}
			}
		}
	}
}

// The marks of 3-4-5 and the fourth corner lie in the floor, on the way to the walls that are named.
func TestTriangleLiesInTheFloor(t *testing.T) {
	for i, s := range skewRooms(t) {
		start, _ := s.start()
		steps := s.startWords()
		m := squareWords.FindStringSubmatch(steps[2])
		if m == nil {
			t.Fatalf("no directions in %q", steps[2])
		}
		x, y := figure(t, m[1]), figure(t, m[4])
		if math.Abs(math.Hypot(float64(x), float64(y))-float64(figure(t, m[7]))) > 1e-6 {
			t.Errorf("room %d: %v, %v and %s are no right angle", i, x, y, m[7])
		}
		if m[2] == "left" {
			x = -x
		}
		if m[5] == "towards" {
			y = -y
		}
		frame := geom.Placement{Turn: s.Plan.Grid.Angle}
		o := start.Square.At[0]
		along, across := frame.Apply(geom.Point{X: x}), frame.Apply(geom.Point{Y: y})
		all := []geom.Point{o.Plus(along), o.Plus(across)}
		if strings.Contains(strings.Join(steps, " "), "fourth corner") {
			all = append(all, o.Plus(along).Plus(across))
		}
		for _, p := range all {
			if !s.Outline.Points.Has(p) {
				t.Errorf("room %d: %v lies in no floor", i, p)
			}
		}
		for k, way := range []geom.Point{along, across} {
			beyond := geom.Line{From: o, To: o.Plus(way.Times(20))}
			first, near := "", math.Inf(1)
			for w := range s.Outline.Points { // stepped along, by the sides of the walls' ends
				e := s.Outline.Points.Edge(w)
				for q := 0.0; q <= 1; q += 0.0005 {
					p := e.At(q)
					if beyond.Distance(p) < 4 && float64(p.Distance(o)) < near {
						first, near = s.Outline.Side(w), float64(p.Distance(o))
					}
				}
			}
			if want := m[3+3*k]; first != want {
				t.Errorf("room %d: towards %s, which is %s", i, want, first)
			}
		}
	}
}

// Where the corners are known to less than the gap, nobody is told that there is nothing to deduct.
func TestCutsAreMeasuredInPlaceWhereCornersAreUnsure(t *testing.T) {
	s := skewRooms(t)[0]
	for _, uneven := range []unit.Length{0, 5, 11} {
		s.Uneven = uneven
		words := fmt.Sprint(s.says().Cards(s.laid()))
		if unsure := uneven > 8; strings.Contains(words, "nothing to deduct") == unsure || strings.Contains(words, "in place before it is cut") != unsure {
			t.Errorf("corners to %v, gap 8: %s", uneven, words)
		}
	}
}

// What a table of cuts along a wall says, set off from the corners that it names, comes the gap short of
// the wall on both edges of every tile.
func TestTapersEndTheGapShortOfTheWall(t *testing.T) {
	told := 0
	for i, s := range skewRooms(t) {
		all, _ := s.tapers()
		frame := geom.Placement{Turn: -s.Plan.Grid.Angle}
		for _, one := range all {
			wall := frame.Line(s.Outline.Points.Edge(one.Wall))
			for _, x := range one.Tiles {
				told++
				box := s.Plan.Grid.Tile(s.drawn().Pieces[x.Piece].Spot, s.drawn().Shift)
				var a, b geom.Point // the first mark and the second, from the corners that are named
				how, columns := s.says().Taper("", one.Side)
				switch words := columns[1] + how; {
				case strings.HasPrefix(words, "on near edge") && strings.Contains(words, "from its right corners"):
					a, b = geom.Point{X: box.Max.X - x.From, Y: box.Min.Y}, geom.Point{X: box.Max.X - x.To, Y: box.Max.Y}
				case strings.HasPrefix(words, "on near edge") && strings.Contains(words, "from its left corners"):
					a, b = geom.Point{X: box.Min.X + x.From, Y: box.Min.Y}, geom.Point{X: box.Min.X + x.To, Y: box.Max.Y}
				case strings.HasPrefix(words, "on left edge") && strings.Contains(words, "from its near corners"):
					a, b = geom.Point{X: box.Min.X, Y: box.Min.Y + x.From}, geom.Point{X: box.Max.X, Y: box.Min.Y + x.To}
				case strings.HasPrefix(words, "on left edge") && strings.Contains(words, "from its far corners"):
					a, b = geom.Point{X: box.Min.X, Y: box.Max.Y - x.From}, geom.Point{X: box.Max.X, Y: box.Max.Y - x.To}
				}
				for _, p := range []geom.Point{a, b} {
					if d := wall.Distance(p); math.Abs(float64(d)-8) > 0.01 {
						t.Errorf("room %d, along %s: the mark comes %.2f mm from the wall", i, s.Outline.Side(one.Wall), d)
					}
				}
			}
		}
	}
	if told < 20 {
		t.Errorf("only %d tiles were told of", told)
	}
}

// No number of the plan is struck through by a line to snap, and no dashed line stands there without a figure.
func TestPlanNumbersAreClearOfTheLines(t *testing.T) {
	for i, s := range append(skewRooms(t), laidRoom(t)) {
		var lines []geom.Line
		ops := onPlan{s}.planDrawing(func(p geom.Point) geom.Point { return p.Times(1. / 25) }, 1./25, lettering.Go())
		for _, op := range ops {
			if l, ok := op.(draw.Line); ok && l.Pen.Dash == draw.LongDashDotted {
				lines = append(lines, l.Line)
			}
			if l, ok := op.(draw.Line); ok && l.Pen.Dash == draw.Hidden.Dash {
				t.Errorf("room %d: a dashed line without a figure", i)
			}
		}
		if len(lines) != 2 {
			t.Fatalf("room %d: %d lines", i, len(lines))
		}
		for _, op := range ops {
			w, ok := op.(draw.Text)
			if !ok || !strings.Contains(w.Words, ".") {
				continue
			}
			box := w.Bounds(lettering.Go())
			middle := geom.Line{From: geom.Point{X: box.Min.X, Y: w.At.Y + w.Height/2}, To: geom.Point{X: box.Max.X, Y: w.At.Y + w.Height/2}}
			if w.Turn != 0 {
				continue
			}
			for _, l := range lines {
				if middle.Apart(l) < 0.1 {
					t.Errorf("room %d: %s is struck through", i, w.Words)
				}
			}
		}
	}
}
