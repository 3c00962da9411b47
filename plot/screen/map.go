package screen

import (
	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
)

// Sheet is one sheet of paper over a piece, in the piece's own coordinates.
type Sheet struct {
	Label   string
	Corners [4]geom.Point
}

// Map is a piece as its baseline lies level, with the sheets that cover it, askew as they
// may be, each with its number where that has room.
func Map(c construct.Construction, sheets []Sheet, width float64) Picture {
	level := unit.Angle(0)
	if b, ok := c.Base(); ok {
		level = b.Line.Direction()
	}
	points := listed(placesOf(c))
	for _, s := range sheets {
		points = append(points, s.Corners[:]...)
	}
	f := frameOf(unit.Length(width))
	f.about, f.highest = 8, f.highest*0.8
	v := viewOf(points, level, f)
	v.height = max(v.height, 60)
	var w writer
	w.head(v.width, v.height, "map")
	on := func(points []geom.Point) (all []geom.Point) {
		for _, p := range points {
			all = append(all, v.at(p))
		}
		return all
	}
	if len(c.Outline.Points) > 2 {
		w.polygon("piece", on(c.Outline.Points))
	}
	for _, s := range sheets {
		corners := on(s.Corners[:])
		w.polygon("sheet", corners)
		room := min(corners[0].Distance(corners[1]), corners[1].Distance(corners[2]))
		if middle := (geom.Line{From: corners[0], To: corners[2]}).At(0.5); s.Label != "" {
			w.number(s.Label, middle, room)
		}
	}
	return scene{view: v}.data(Picture{SVG: w.end(), Width: float64(v.width), Height: float64(v.height)})
}
