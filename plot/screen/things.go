package screen

import (
	"slices"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// thing is one that is or can be measured, where it lies on the screen: a line, or an
// angle at its From between its arms.
type thing struct {
	Tag
	from, to string
	line     geom.Line
	arms     [2]geom.Point
	out      unit.Angle // away from the piece, of a side and an angle
}

// known is what was measured of a piece, and where its points lie on the screen.
type known struct {
	measured []triangle.Measurement
	figures  unit.Style
	doubtful []string
	outline  []geom.Name
	spots    map[geom.Name]geom.Point
	inside   geom.Polygon // of the outline; nil where there is none
	rough    bool         // what was not measured is not known
}

// things are all that stand on the picture: sides, other lengths, heights, angles.
func (k known) things(computed geom.Outline) []thing {
	var sides, others, angles []thing
	triangular := len(k.outline) == 3
	for i, n := range k.outline {
		next, before := k.outline[(i+1)%len(k.outline)], k.outline[(i+len(k.outline)-1)%len(k.outline)]
		side := k.length(Side, n, next)
		side.out = k.away(side.line)
		angle := k.angle(before, n, next, triangular)
		if !k.rough {
			if side.Say == "" {
				side.Say = k.figures.Length(computed.Sides[i])
			}
			if angle.Say == "" {
				angle.Say = k.figures.Angle(computed.Angles[i])
			}
		}
		sides = append(sides, side)
		if triangular || angle.Given {
			angles = append(angles, angle)
		}
	}
	for _, m := range k.measured {
		has := func(all []thing) bool {
			return slices.ContainsFunc(all, func(t thing) bool {
				return t.Given && slices.ContainsFunc(k.same(m), func(s string) bool { return s == t.Of })
			})
		}
		if has(sides) || has(others) || has(angles) || !k.drawn(m) {
			continue
		}
		switch m.Kind {
		case triangle.Distance:
			others = append(others, k.length(Diagonal, m.At[0], m.At[1]))
		case triangle.Height:
			others = append(others, k.height(m))
		case triangle.Angle:
			if m.At[0] != "" {
				angles = append(angles, k.angle(m.At[0], m.At[1], m.At[2], false))
			}
		}
	}
	return slices.Concat(sides, others, angles)
}

// drawn says whether all points of a measurement have a place.
func (k known) drawn(m triangle.Measurement) bool {
	return !slices.ContainsFunc(m.Points(), func(n geom.Name) bool { _, ok := k.spots[n]; return !ok })
}

// same are the names of all measurements of the thing that m measures.
func (k known) same(m triangle.Measurement) (all []string) {
	for _, o := range k.measured {
		if o.Same(m) {
			all = append(all, o.Subject())
		}
	}
	return all
}

// told gives a thing what was measured of it.
func (k known) told(t thing, m triangle.Measurement) thing {
	for _, o := range k.measured {
		if o.Kind != m.Kind || !o.Same(m) || o.Kind == triangle.Angle && (o.At[0] == "") != (m.At[0] == "") && len(k.outline) != 3 {
			continue
		}
		if t.Given {
			t.Say += " / "
		} else {
			t.Of, t.Say = o.Subject(), ""
		}
		t.Given = true
		if o.Kind == triangle.Angle {
			t.Say += k.figures.Given(o.Value)
		} else {
			t.Say += o.Value.Text
		}
		t.Doubt = t.Doubt || slices.Contains(k.doubtful, o.Subject())
	}
	return t
}

func (k known) length(kind Kind, a, b geom.Name) thing {
	t := thing{Tag: Tag{Of: string(a + b), Kind: kind}, from: string(a), to: string(b), line: geom.Line{From: k.spots[a], To: k.spots[b]}}
	return k.told(t, triangle.Measurement{Kind: triangle.Distance, At: [3]geom.Name{a, b}})
}

// angle is named by its corner alone where there is no other.
func (k known) angle(a, at, b geom.Name, alone bool) thing {
	t := thing{Tag: Tag{Of: string(a + at + b), Kind: Angle}, from: string(at), line: geom.Line{From: k.spots[at], To: k.spots[at]}, arms: [2]geom.Point{k.spots[a], k.spots[b]}}
	m := triangle.Measurement{Kind: triangle.Angle, At: [3]geom.Name{a, at, b}}
	if alone {
		t.Of = string(at)
	}
	first, second := geom.Line{From: t.line.From, To: t.arms[0]}.Direction(), geom.Line{From: t.line.From, To: t.arms[1]}.Direction()
	t.out = first + between(first, second)/2 + unit.Turn/2
	return k.told(t, m)
}

// between is the turn from one direction to another, by less than half.
func between(a, b unit.Angle) unit.Angle {
	d := b - a
	for d > unit.Turn/2 {
		d -= unit.Turn
	}
	for d <= -unit.Turn/2 {
		d += unit.Turn
	}
	return d
}

func (k known) height(m triangle.Measurement) thing {
	apex := k.spots[m.At[0]]
	base := geom.VectorOf(k.spots[m.At[1]])
	way := geom.VectorOf(k.spots[m.At[2]]).Minus(base)
	foot := apex
	if way.Size() > 0 {
		way = way.Unit()
		foot = base.Plus(way.Times(geom.VectorOf(apex).Minus(base).Dot(way))).Point()
	}
	return k.told(thing{Tag: Tag{Of: m.Subject(), Kind: Height}, from: string(m.At[0]), to: string(m.At[1] + m.At[2]), line: geom.Line{From: apex, To: foot}}, m)
}

// away is the direction square to a side that leads out of the outline.
func (k known) away(l geom.Line) unit.Angle {
	out := l.Direction() + unit.Turn/4
	if k.inside != nil && k.inside.Has(l.At(0.5).Toward(out, 0.5)) {
		out += unit.Turn / 2
	}
	return out
}

// placesOf are the points of a construction.
func placesOf(c construct.Construction) map[geom.Name]geom.Point {
	all := map[geom.Name]geom.Point{}
	for i, n := range c.Outline.Names {
		all[n] = c.Outline.Points[i]
	}
	for _, s := range c.Inner {
		all[s.Name] = s.At
	}
	return all
}
