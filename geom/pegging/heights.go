package pegging

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
)

// Heights is how high the marks of a setting-out lie.
type Heights struct {
	Set
	Falls  bool   // the pulls follow the ground; otherwise all is level
	Ground Ground // under the points, where Falls

	level map[geom.Name]unit.Length // of every mark, where Falls
}

// heightsOf works out how high every mark lies: a corner as its level says, what is on
// the baseline on the straight lines between the corners that stand on it, the middle of
// a side in the middle, a foot on another line as that falls, the top of a square on the
// line from its foot to the first corner that it is made for.
func heightsOf(s Set, falls bool, g Ground) Heights {
	h := Heights{Set: s, Falls: falls, Ground: g}
	if !falls {
		return h
	}
	h.level = map[geom.Name]unit.Length{}
	for n := range s.at {
		h.level[n] = g.At(n)
	}
	for _, p := range s.Pegs {
		switch _, known := h.level[p.Name]; {
		case known:
		case p.Line != [2]geom.Name{}:
			a, b := h.level[p.Line[0]], h.level[p.Line[1]]
			h.level[p.Name] = a + (b-a)*unit.Length(h.from(p.Line, p.At).X)/h.Between(p.Line[0], p.Line[1])
		case p.Side == OnLine:
			h.level[p.Name] = h.onBaseline(p.Along)
		case p.Role == Middle:
			h.level[p.Name] = (h.level[p.Of[0]] + h.level[p.Of[1]]) / 2
		}
	}
	for _, x := range slices.Concat(s.Main, s.Second) {
		if x.Square < 0 {
			continue
		}
		q := s.Squares[x.Square]
		offset := unit.Length(math.Abs(s.from(x.Base, s.spots[x.Peg]).Y))
		if _, known := h.level[q.Top]; !known {
			foot := h.level[q.At]
			h.level[q.Top] = foot + (h.level[x.Peg]-foot)*(q.Up/offset)
		}
	}
	return h
}

// Level is how high a mark lies; 0 where all is level.
func (h Heights) Level(n geom.Name) unit.Length { return h.level[n] }

// Fall is the difference of level between two marks; 0 where all is level.
func (h Heights) Fall(a, b geom.Name) unit.Length {
	return unit.Length(math.Abs(float64(h.level[a] - h.level[b])))
}

// onBaseline is how high the line of the baseline lies at a running distance.
func (h Heights) onBaseline(along unit.Length) unit.Length {
	on := slices.DeleteFunc(slices.Clone(h.Pegs), func(p Mark) bool { return p.Role != Corner || p.Side != OnLine })
	slices.SortFunc(on, func(a, b Mark) int { return cmp.Compare(a.Along, b.Along) })
	i := 0
	for i < len(on)-2 && along > on[i+1].Along {
		i++
	}
	a, b := on[i], on[i+1]
	low, high := h.Ground.At(a.Name), h.Ground.At(b.Name)
	return low + (high-low)*((along-a.Along)/(b.Along-a.Along))
}

// EdgeFalls are the falls of a mark on an edge: from the edge's first corner to it, from
// the zero end to its foot, and from there to it.
func (h Heights) EdgeFalls(m EdgeMark) (edge, along, out unit.Length) {
	if !h.Falls {
		return 0, 0, 0
	}
	from, to := h.level[m.Edge[0]], h.level[m.Edge[1]]
	rise := (to - from) * (m.At / h.Between(m.Edge[0], m.Edge[1]))
	foot := h.onBaseline(m.Along)
	abs := func(l unit.Length) unit.Length { return max(l, -l) }
	return abs(rise), abs(foot - h.level[h.Baseline.From]), abs(from + rise - foot)
}

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
