package courses_test

import (
	"math"
	"testing"

	"trammel/geom"
	"trammel/geom/courses"
	"trammel/geom/tiling"
	"trammel/geom/unit"
)

func near(t *testing.T, what string, got unit.Length, want float64) {
	t.Helper()
	if math.Abs(got.MM()-want) > 0.0051 {
		t.Errorf("%s: %.3f, want %.2f", what, got.MM(), want)
	}
}

// The triangle 2300, 1900, 2700 with a gap of 8, tiles 300 and joints 3 from (212, 188.5): two
// cards that were worked out before (a nip and a triangle).
func TestWorkedCards(t *testing.T) {
	x := (2300.*2300 + 2700*2700 - 1900*1900) / (2 * 2300)
	f := tiling.Floor{Walls: geom.Polygon{{}, {X: 2300}, {X: unit.Length(x), Y: unit.Length(math.Sqrt(2700*2700 - x*x))}}, Gaps: []unit.Length{8, 8, 8}}
	r, err := f.Region()
	if err != nil {
		t.Fatal(err)
	}
	l := r.Lay(tiling.Grid{Along: 300, Across: 300, Joint: 3, Kerf: 3}, geom.Point{X: 212, Y: 188.5})
	found := 0
	for _, p := range l.Pieces {
		ring, _ := p.OwnRings()
		cuts := courses.Cuts(ring, p.Lying())
		switch (tiling.Spot{Row: p.Row, Column: p.Column}) {
		case tiling.Spot{Row: 0, Column: 1}:
			found++
			if len(cuts) != 1 {
				t.Fatalf("%d cuts", len(cuts))
			}
			c := cuts[0]
			near(t, "left edge from the near corner", c.To.Before, 293.63)
			near(t, "far edge from the right corner", c.From.After, 293.35)
			near(t, "length", c.Length, 9.21)
		case tiling.Spot{Row: 1, Column: 1}:
			found++
			c := cuts[0]
			near(t, "right edge", c.From.Before, 277.94)
			near(t, "near edge from the right corner", c.To.After, 290.22)
			if math.Abs(p.Width-200.73) > 0.0051 || math.Abs(p.Area-40330.8) > 0.051 {
				t.Errorf("width %.3f, area %.2f", p.Width, p.Area)
			}
		}
	}
	if found != 2 {
		t.Errorf("%d of the two pieces", found)
	}
}

// A room of 4 by 3 m with one wall that leans by 40 mm, and a post: what is set off by hand leads
// onto the lines (plain geometry, reckoned anew here).
func TestLinesAreWhereTheyAreMeasured(t *testing.T) {
	walls := geom.Polygon{{}, {X: 4000}, {X: 4000, Y: 3000}, {X: -40, Y: 3000}}
	post := geom.Polygon{{X: 1800, Y: 1200}, {X: 1950, Y: 1200}, {X: 1950, Y: 1350}, {X: 1800, Y: 1350}}
	r, err := tiling.Floor{Walls: walls, Gaps: []unit.Length{8, 8, 8, 8}, Openings: []tiling.Opening{{Ring: post, Gap: 8}}}.Region()
	if err != nil {
		t.Fatal(err)
	}
	g := tiling.Grid{Along: 300, Across: 300, Joint: 3, Kerf: 3}
	p := r.Best(t.Context(), g, tiling.Wish{})
	i, _ := p.Advised()
	s, ok := courses.Find(courses.Floor{Walls: walls, Openings: []geom.Polygon{post}}, g, &p.Choices[i].Layout, p.Middle)
	if !ok {
		t.Fatal("no start")
	}
	o := g.Tile(s.Tile, p.Choices[i].Shift).Min
	for name, l := range map[string]courses.Line{"rows": s.Rows, "cross": s.Cross} {
		for _, m := range l.Marks {
			wall := walls.Edge(m.Wall)
			at := wall.At(float64(m.Along / wall.Length()))
			in := geom.VectorOf(wall.To.Minus(wall.From)).Unit().Left() // square off the wall, until it meets the line
			off := (o.Y - at.Y).MM() / in.Y
			if name == "cross" {
				off = (o.X - at.X).MM() / in.X
			}
			near(t, name, m.Off, off)
			for k := range post {
				if m.Pull.Apart(post.Edge(k)) < 1 {
					t.Errorf("%s: the pull runs into the post", name)
				}
			}
		}
	}
	q := s.Square
	near(t, "3-4-5", unit.Length(math.Hypot(q.OnRows.MM(), q.OnCross.MM())), q.Between.MM())
	near(t, "between its marks", q.At[1].Distance(q.At[2]), q.Between.MM())
	if q.At[0].Distance(o) > 1e-9 {
		t.Errorf("it stands at %v, the tile at %v", q.At[0], o)
	}
}
