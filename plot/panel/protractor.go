package panel

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// protractor lies with its centre on a corner and its 0 line on an arm. The scale whose 0 lies
// on that arm is bold, its 0 and the mark are ringed; the other is thin, and the number on it
// that is not meant is struck through.
type protractor struct {
	corner, arm geom.Vector
	degrees     float64
	left        bool // the angle opens to the left of the arm
	mark        string
}

// Its measures in mm at the size for hands: the rim is that of a protractor of 10 cm.
const (
	rim      = 50.0
	boldAt   = 43.2 // numbers of the right scale
	between  = 39.4 // the circle that parts the scales
	thinAt   = 35.8 // numbers of the other
	arrowAt  = 28.0
	strip    = 6.5 // below the 0 line
	crowding = 6   // numbers nearer than that to the mark's are left out, in degrees
)

func (t protractor) draw(s *stage) {
	f := math.Min(s.f(), float64(s.high)/64)
	p := s.at(t.corner)
	x := t.arm.Unit()
	y := x.Left()
	sense := 1.0
	if !t.left {
		y, sense = x.Right(), -1
	}
	base := math.Atan2(x.Y, x.X)
	at := func(deg, radius float64) geom.Vector {
		v, w := math.Sincos(deg * math.Pi / 180)
		return p.Plus(x.Times(w * radius * f)).Plus(y.Times(v * radius * f))
	}
	flat := func(u, v float64) geom.Vector { return p.Plus(x.Times(u * f)).Plus(y.Times(v * f)) }
	s.arc(p, rim*f, base, sense*math.Pi, tool)
	s.poly(tool, false, flat(rim, 0), flat(rim, -strip), flat(-rim, -strip), flat(-rim, 0))
	s.arc(p, between*f, base, sense*math.Pi, tick)
	s.line(flat(-between, 0), flat(between, 0), tick)
	s.line(flat(0, 0), flat(0, 4), tick)
	s.arc(p, 0.9*f, 0, 2*math.Pi, tick)
	for deg := 0; deg <= 180; deg++ {
		long, pen := 1.8, draw.Pen{Width: 0.13}
		switch {
		case deg%10 == 0:
			long, pen = 3.6, draw.Pen{Width: 0.3}
		case deg%5 == 0:
			long, pen = 2.8, draw.Pen{Width: 0.25}
		}
		s.line(at(float64(deg), rim), at(float64(deg), rim-long), pen)
	}
	t.numbers(s, at, base, sense, f/s.f())
	s.line(at(t.degrees, rim), at(t.degrees, rim-4.4), tool)
	dot := at(t.degrees, rim+2.2)
	s.arc(dot, 0.5*f, 0, 2*math.Pi, fresh)
	s.words(t.mark, at(t.degrees-9, rim+5.5), lettered{height: 2.5 * f / s.f()})
	// The arrow from 0 to the mark.
	end := t.degrees - 4
	s.arc(p, arrowAt*f, base+sense*3*math.Pi/180, sense*(end-3)*math.Pi/180, tool)
	s.solid(at(t.degrees-1, arrowAt), at(end-2, arrowAt+1.1), at(end-2, arrowAt-1.1))
}

// numbers of both scales, each read with its top away from the centre.
func (t protractor) numbers(s *stage, at func(deg, radius float64) geom.Vector, base, sense, small float64) {
	upright := func(deg float64) float64 { return base + sense*deg*math.Pi/180 - math.Pi/2 }
	bold, thin := lettered{height: 2.3 * small, bold: true}, lettered{height: 1.8 * small}
	put := func(n, deg, radius float64, w lettered, ring draw.Pen) {
		w.turn = upright(deg)
		if ring.Width > 0 {
			s.ringed(plain(n), at(deg, radius), w, ring)
			return
		}
		s.words(plain(n), at(deg, radius), w)
	}
	for deg := 10; deg < 180; deg += 10 {
		if d := float64(deg); math.Abs(d-t.degrees) > crowding {
			put(d, d, boldAt, bold, draw.Pen{})
			put(180-d, d, thinAt, thin, draw.Pen{})
		}
	}
	// At the ends of the 0 line both stand below it, where they are read.
	below := func(text string, side, radius float64, w lettered, ring bool) {
		q := at(0, radius)
		if side < 0 {
			q = at(180, radius)
		}
		down := at(-90, 1).Minus(at(0, 0)).Unit().Times(strip / 2 * small * s.f())
		w.turn = base
		if math.Cos(base) < -1e-9 {
			w.turn += math.Pi
		}
		if ring {
			s.ringed(text, q.Plus(down), w, tool)
			return
		}
		s.words(text, q.Plus(down), w)
	}
	below("0", 1, boldAt, bold, true)
	below("180", -1, boldAt, bold, false)
	below("180", 1, thinAt-1.6, thin, false)
	below("0", -1, thinAt-1.6, thin, false)
	put(t.degrees, t.degrees, boldAt, bold, fresh)
	put(180-t.degrees, t.degrees, thinAt, thin, draw.Pen{})
	// Struck through.
	c, up := at(t.degrees, thinAt), upright(t.degrees)
	half := float64(s.r.Width(plain(180-t.degrees), s.letters*unit.Length(1.8*small/3.5), false))/2 + 0.5*small*s.f()
	across := geom.Vector{X: math.Cos(up + 0.35), Y: math.Sin(up + 0.35)}.Times(half)
	s.line(c.Minus(across), c.Plus(across), tool)
}

// degrees as a sentence has them.
func degrees(x float64) string { return fmt.Sprintf("%s°", plain(x)) }
