package tasks

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// rim of the film for all.
const rim = 130.0

// polar is one film for the whole class: the key has C as CA and A.
func (s Set) polar(on paging.Sheet, r draw.Ruler) draw.Page {
	l := newLeaf(on, r)
	l.words(s.marking().PolarTitle(), margin, 15.5, bold)
	l.lines(s.marking().PolarUse(), margin, 21, l.wide-2*margin, note)
	f := film{l, l.at(l.wide/2, 182), &draw.Tag{Role: draw.AsFigure, Alt: s.marking().FilmAlt()}}
	for deg := 0; deg <= 180; deg++ {
		from, pen := 40.0, draw.Fine
		switch {
		case deg%10 == 0:
			from, pen = 10, draw.Narrow
		case deg%5 == 0:
			from, pen = 30, draw.Thin
		}
		v, w := math.Sincos(float64(deg) * math.Pi / 180)
		f.stroke(f.at(from*w, from*v), f.at(rim*w, rim*v), pen)
		if deg%10 == 0 {
			f.numbered(deg, w, v)
		}
	}
	for radius := 10; radius <= rim; radius += 10 {
		f.add(draw.Arc{Arc: geom.Arc{Centre: f.a, Radius: unit.Length(radius), Sweep: unit.Turn / 2}, Pen: draw.Thin, On: draw.Outline, Of: f.tag})
		for _, side := range []float64{-1, 1} {
			f.words(fmt.Sprint(radius), f.at(side*float64(radius), 0).X, f.high-f.a.Y+7, note.to(draw.Middle))
		}
	}
	for mm := 1; mm <= rim; mm++ {
		long := 1.2
		if mm%5 == 0 {
			long = 2.2
		}
		for _, side := range []float64{-1, 1} {
			f.stroke(f.at(side*float64(mm), 0), f.at(side*float64(mm), -long), draw.Fine)
		}
	}
	f.ring(f.a, 2)
	l.bar(margin+60, l.high-13, 1, 0)
	l.bar(l.wide-8, 150, 0, 1)
	return l.page(draw.Overlay, s.marking().PolarTitle())
}

// numbered writes a ray's degrees at the rim, counted from the right, and above that from the left.
func (f film) numbered(deg int, w, v float64) {
	turn := unit.Angle(float64(deg-90) * math.Pi / 180)
	put := func(n int, r float64, bold bool) {
		f.add(draw.Text{At: f.at(r*w, r*v), Height: draw.NoteHeight, Turn: turn, Align: draw.Middle, Bold: bold, Words: fmt.Sprint(n), On: draw.Notes})
	}
	put(deg, rim+1.2, true)
	if deg > 0 && deg < 180 {
		put(180-deg, rim+5.2, false)
	}
}
