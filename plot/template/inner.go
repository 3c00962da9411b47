package template

import (
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// innerPoints are the points of a net within the piece, or beside it, that a page shows.
func (f *face) innerPoints() (all []construct.Spot) {
	for _, s := range f.piece.Construction.Inner {
		if s.At = f.plan.Place.Apply(s.At); f.shown(s.At) {
			all = append(all, s)
		}
	}
	return all
}

// letterInner writes the names of the inner points beside their prick points.
func (f *face) letterInner() {
	for _, s := range f.innerPoints() {
		w := words{string(s.Name), draw.TitleHeight, true}
		all := f.spare[:0]
		for d := unit.Length(3); d <= 12; d++ {
			for k := range 16 {
				a := unit.Turn/8 + unit.Turn/16*unit.Angle(k)
				all = append(all, candidate{text: w.at(s.At.Toward(a, d+w.height/2), 0), cost: float64(d) + float64(k)/16})
			}
		}
		all = f.led(all, w, s.At, unit.Turn/8, 30)
		f.put(all, func() []candidate {
			last := f.led(nil, words{w.say, draw.FigureHeight, true}, s.At, unit.Turn/8, 0)
			for k := range last {
				last[k].over = true
			}
			return last
		})
	}
}
