package setout

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/net"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
)

// sure works out how sure each point is: its place as it was measured, seen from the
// baseline, and as it is set out from there.
func (w *work) sure() {
	base := w.way.Base
	set := map[geom.Name]adjust.Covariance{}
	for _, p := range w.way.Pegs {
		set[p.Name] = p.Covariance
	}
	turn := unit.Angle(0) // from the axes of the baseline to those of the plane
	if w.Baseline.Zero == 1 {
		turn = unit.Turn / 2
	}
	for _, p := range w.Pegs {
		if _, ok := w.at[p.Name]; !ok {
			continue
		}
		_, seen := w.net.Seen(p.Name, base)
		out := set[p.Name]
		both := seen.Plus(out)
		s := Sure{
			Peg: p.Name, Along: both.X(), Across: both.Y(), Ellipse: both.Turned(turn).Ellipse().Within95(),
			Measured: seen.Figure95(), SetOut: out.Figure95(), Both: both.Figure95(),
		}
		from, to := w.sides[base[0]], w.sides[base[1]]
		switch s.Distance = min(p.At.Distance(from), p.At.Distance(to)); p.Name {
		case base[0], base[1]:
			s.Distance = w.Baseline.Length
		}
		if w.Permitted > 0 {
			s.Permitted = tape.Permitted(w.Permitted, s.Distance)
			s.Inside = s.Both <= s.Permitted
		}
		w.Sure = append(w.Sure, s)
	}
}

// Seen is where a point of the net lies from the baseline, whose first end is the origin
// and whose direction that of x, and how surely it was measured.
func (s Sheet) Seen(n geom.Name) (geom.Point, adjust.Covariance) {
	return s.net.Seen(n, [2]geom.Name{s.Baseline.From, s.Baseline.To})
}

// Framed is a matrix that leads from those coordinates to where one leads from the
// net's own plane.
func (s Sheet) Framed(m [6]float64) [6]float64 {
	p, _ := s.net.Point(s.Baseline.From)
	q, _ := s.net.Point(s.Baseline.To)
	sin, cos := math.Sincos(float64(geom.Line{From: p, To: q}.Direction()))
	return [6]float64{
		m[0]*cos + m[2]*sin, m[1]*cos + m[3]*sin, m[2]*cos - m[0]*sin, m[3]*cos - m[1]*sin,
		m[0]*p.X.MM() + m[2]*p.Y.MM() + m[4], m[1]*p.X.MM() + m[3]*p.Y.MM() + m[5],
	}
}

// doubts about what was measured: a sheet made from a slip sets the slip out.
func (w *work) doubts(net net.Adjusted) (all []string) {
	say := words.In(w.Language).Nets()
	if len(net.Suspects) > 0 || !net.Global.Passed || len(net.Doubts) > 0 {
		for _, f := range append(say.Findings(net, w.Style), say.Doubts(net)...) {
			all = append(all, f.Sentence())
		}
	}
	if which := say.Which(net); which != "" {
		all = append(all, which)
	}
	if len(w.Outline) == 4 {
		if q := net.Rectangle([4]geom.Name(w.Outline)); q.Measured {
			all = append(all, say.Rectangle(q, w.Style).Sentence())
		}
	}
	if level := w.assumed(); level != "" {
		all = append(all, level+" Level them, or their pulls stand on that.")
	}
	for _, f := range say.TooFine(net, w.Style) {
		all = append(all, f.Sentence())
	}
	if rough := w.roughly(net); len(rough) > 0 {
		finer := "Where the millimetre was read, write it: 8000 or 8.000m, or +-2 behind it."
		if w.Inches() {
			finer = `Where the sixteenth was read, write it: 26'-3 0/16", or +-1/16in behind it.`
		}
		all = append(all, fmt.Sprintf("Written roughly, and counted so: %s. %s", strings.Join(rough, ", "), finer))
	}
	if !w.lone() { // its crossing is told below the tables
		for _, c := range w.flat() {
			all = append(all, string(c.At)+": its arcs cross at "+w.Style.Angle(c.Angle)+", not sound. Its checks decide.")
		}
	}
	return all
}

// flat are the crossings of arcs that place a corner and are not sound.
func (s Sheet) flat() (all []Crossing) {
	for _, p := range s.Main {
		if p.Method == pegging.TwoArcs && !p.Crossing.Sound {
			all = append(all, p.Crossing)
		}
	}
	return all
}

// Flat says, for who makes the sheet, which arcs cross so that it is hard to see where.
func (s Sheet) Flat() (all []string) {
	for _, c := range s.flat() {
		all = append(all, fmt.Sprintf("arcs swung from %s and %s cross at only %s at %s: hard to mark exactly",
			s.Baseline.From, s.Baseline.To, s.Style.Angle(min(c.Angle, unit.Turn/2-c.Angle)), c.At))
	}
	return all
}

// tooRough is the tolerance from which on a length was not read on a tape: whoever
// wrote it left digits away.
const tooRough unit.Length = 5

// roughly are the lengths whose last digit, where no tolerance is stated, allows more
// than any tape leaves open: "AB=8m is ±500 mm".
func (s Sheet) roughly(net net.Adjusted) (all []string) {
	for _, r := range net.Results {
		m := r.Measurement
		if m.Kind == triangle.Angle || m.Value.Stated {
			continue
		}
		if t, _ := m.Value.Tolerance.Float64(); unit.Length(t) >= tooRough {
			open := fmt.Sprintf("%.0f mm", t)
			if s.Inches() {
				open = fmt.Sprintf("%.2g in", t/unit.Inch.MM())
			}
			all = append(all, fmt.Sprintf("%s=%s is ±%s", m.Subject(), m.Value.Text, open))
		}
	}
	return all
}
