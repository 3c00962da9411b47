package pegging

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
)

// Level is how high a peg stands, over whatever all levels count from.
type Level struct {
	Name geom.Name
	At   unit.Length
}

// Ground is how high pegs stand: as was said, the others on the plane through those.
type Ground struct {
	at      map[geom.Name]unit.Length
	Assumed []geom.Name // nobody said how high these stand, in the order of the pegs
	Plane   Plane
}

// Plane is how the plane of a ground was laid.
type Plane uint8

const (
	LevelAcross   Plane = iota // falling along the line of the levels, level across it
	ThroughLevels              // through three
	NearestLevels              // nearest to more
)

// At is the level of a peg.
func (g Ground) At(n geom.Name) unit.Length { return g.at[n] }

// Fall is the difference of level of two pegs, never negative.
func (g Ground) Fall(m, n geom.Name) unit.Length {
	return unit.Length(math.Abs(float64(g.at[m] - g.at[n])))
}

// narrow is up to which share of its length a strip says nothing of the fall across it.
const narrow = 0.1

// GroundOf is the ground under the pegs. Two levels make a plane that falls from one to
// the other and is level across; three one through all; more the plane nearest to
// them. What was said stays as it was said.
//
// Errors: a *unit.Fault where fewer than two levels are given, a peg is named twice or
// is not there, or the ground is steeper than 45° between two levels.
func GroundOf(pegs []Peg, levels []Level) (Ground, error) {
	g := Ground{at: map[geom.Name]unit.Length{}}
	at := map[geom.Name]geom.Vector{}
	var names []geom.Name
	for _, p := range pegs {
		at[p.Name], names = geom.VectorOf(p.At), append(names, p.Name)
	}
	fault := func(what, hint string) error { return &unit.Fault{Subject: unit.Levels, What: what, Hint: hint} }
	for i, l := range levels {
		if _, known := at[l.Name]; !known {
			return g, fault(fmt.Sprintf("there is no peg %s", l.Name), "the pegs are "+geom.List(names))
		}
		if _, twice := g.at[l.Name]; twice {
			return g, fault(fmt.Sprintf("%s is levelled twice", l.Name), "give each peg one level")
		}
		for _, m := range levels[:i] {
			if d := at[l.Name].To(at[m.Name]); math.Abs(float64(l.At-m.At)) >= d {
				return g, fault(fmt.Sprintf("from %s to %s the ground is steeper than 45°: %s over %s", m.Name, l.Name, bareMetres(l.At-m.At), bareMetres(unit.Length(d))),
					"a tape is not laid so steep: measure in steps, each level, and give no levels")
			}
		}
		g.at[l.Name] = l.At
	}
	if len(levels) < 2 {
		return g, fault("one level says nothing of the fall", "give two pegs or more: A 0, B 320")
	}
	var mid geom.Vector
	z := 0.0
	share := 1 / float64(len(levels))
	for _, l := range levels {
		mid, z = mid.Plus(at[l.Name].Times(share)), z+l.At.MM()*share
	}
	var xx, yy, xy2, xz, yz float64
	for _, l := range levels {
		d, h := at[l.Name].Minus(mid), l.At.MM()-z
		xx, yy, xy2, xz, yz = xx+d.X*d.X, yy+d.Y*d.Y, xy2+d.X*d.Y, xz+d.X*h, yz+d.Y*h
	}
	e := adjust.Covariance{XX: unit.Area(xx), YY: unit.Area(yy), XY: unit.Area(xy2)}.Ellipse()
	along := geom.Vector{X: 1, Y: 0}.Turned(e.Turn)
	slope := along.Times((xz*along.X + yz*along.Y) / (float64(e.Major) * float64(e.Major)))
	g.Plane = LevelAcross
	if float64(e.Minor) > narrow*float64(e.Major) {
		across := along.Left()
		slope = slope.Plus(across.Times((xz*across.X + yz*across.Y) / (float64(e.Minor) * float64(e.Minor))))
		g.Plane = ThroughLevels
		if len(levels) > 3 {
			g.Plane = NearestLevels
		}
	}
	for _, n := range names {
		if _, said := g.at[n]; !said {
			g.at[n] = unit.Length(z + slope.Dot(at[n].Minus(mid)))
			g.Assumed = append(g.Assumed, n)
		}
	}
	return g, nil
}

func bareMetres(l unit.Length) string {
	return strings.TrimPrefix(unit.Decimals(l.MM()/1000, 3), "-") + " m"
}
