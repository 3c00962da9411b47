package flooring

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/area"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/profiles/tiled"
)

// roundSag is how far the polygon that stands for a round opening stands off it, mm.
const roundSag = 0.2

// openings puts what stands in the floor where it stands, and refuses what stands in a
// wall, outside, or in another opening.
func (f *Floor) openings() error {
	walls, err := area.Of(f.Outline.Points)
	if err != nil {
		return err
	}
	var before []area.Region
	for i, o := range f.Words.Openings {
		one, err := f.opening(o)
		if err != nil {
			return err
		}
		if one.Name == "" {
			one.Name = fmt.Sprintf("opening %d", i+1)
		}
		wrong := func(what string) error {
			return &unit.Fault{Where: o.Where, What: "openings: " + one.Name + " " + what, Hint: "measure it again: an opening lies whole in the floor, and clear of others"}
		}
		if i, j, crosses := one.Ring.Crossing(); crosses {
			return wrong(fmt.Sprintf("crosses itself, its side %d its side %d", i+1, j+1))
		}
		own, err := area.Of(one.Ring)
		if err != nil {
			return err
		}
		if out, err := own.Less(walls); err != nil || out.Area() > 1 {
			return cmpErr(err, wrong("stands outside the floor or in a wall"))
		}
		for k, other := range before {
			if both, err := own.Common(other); err != nil || both.Area() > 1 {
				return cmpErr(err, wrong("stands in "+f.Openings[k].Name))
			}
		}
		before, f.Openings = append(before, own), append(f.Openings, one)
	}
	return nil
}

func cmpErr(err, other error) error {
	if err != nil {
		return err
	}
	return other
}

// opening is one of them as a ring, counter-clockwise.
func (f *Floor) opening(o tiled.Opening) (one tiling.Opening, err error) {
	one.Name, one.Gap = o.Name, f.Words.Gap
	if o.Gap != nil {
		one.Gap = *o.Gap
	}
	if len(o.Ring) > 0 {
		for _, n := range o.Ring {
			at, ok := f.point(n)
			if !ok {
				return one, &unit.Fault{Where: o.Where, What: fmt.Sprintf("openings: there is no point %s", n), Hint: "measure it as the others of the floor"}
			}
			one.Ring = append(one.Ring, at)
		}
		if one.Ring.Contour().Area() < 0 {
			for i, j := 0, len(one.Ring)-1; i < j; i, j = i+1, j-1 {
				one.Ring[i], one.Ring[j] = one.Ring[j], one.Ring[i]
			}
		}
		return one, nil
	}
	k, err := f.wall(o.Wall, "openings", o.Where)
	if err != nil {
		return one, err
	}
	wall := f.Outline.Points.Edge(k)
	along := geom.VectorOf(wall.To).Minus(geom.VectorOf(wall.From)).Unit()
	in := along.Left()
	from := geom.VectorOf(wall.From)
	if f.Outline.Names[k] != o.From {
		from, along = geom.VectorOf(wall.To), along.Times(-1)
	}
	at := func(x, y unit.Length) geom.Vector {
		return from.Plus(along.Times(float64(o.Along + x))).Plus(in.Times(float64(o.Off + y)))
	}
	if o.Diameter > 0 {
		r := float64(o.Diameter) / 2
		n := max(int(math.Ceil(math.Pi/math.Acos(1-min(roundSag/r, 0.2)))), 8)
		outer := r / math.Cos(math.Pi/float64(n)) // round it, not in it
		for i := range n {
			a := unit.Turn * unit.Angle(float64(i)+0.5) / unit.Angle(n)
			one.Ring = append(one.Ring, at(0, 0).Point().Toward(a, unit.Length(outer)))
		}
		return one, nil
	}
	one.Ring = geom.Polygon{at(0, 0).Point(), at(o.Width, 0).Point(), at(o.Width, o.Deep).Point(), at(0, o.Deep).Point()}
	if f.Outline.Names[k] != o.From {
		one.Ring[1], one.Ring[3] = one.Ring[3], one.Ring[1]
	}
	return one, nil
}

// point of the piece by its name.
func (f *Floor) point(n geom.Name) (geom.Point, bool) {
	for _, p := range f.Piece.Pegs() {
		if p.Name == n {
			return p.At, true
		}
	}
	return geom.Point{}, false
}
