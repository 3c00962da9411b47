package words

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/pegging"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

func (s setOut) Doubts() (all []string) {
	net := s.Net
	say := nets{s.in}
	if len(net.Suspects) > 0 || !net.Global.Passed || len(net.Doubts) > 0 {
		for _, f := range append(say.Findings(net, s.Style), say.Doubts(net)...) {
			all = append(all, f.Sentence())
		}
	}
	if which := say.Which(net); which != "" {
		all = append(all, which)
	}
	if len(s.Outline) == 4 {
		if q := net.Rectangle([4]geom.Name(s.Outline)); q.Measured {
			all = append(all, say.Rectangle(q, s.Style).Sentence())
		}
	}
	if level := assumedIn(s); level != "" {
		all = append(all, level+" Level them, or their pulls stand on that.")
	}
	for _, f := range say.TooFine(net, s.Style) {
		all = append(all, f.Sentence())
	}
	if rough := roughly(s, net); len(rough) > 0 {
		finer := "Where the millimetre was read, write it: 8000 or 8.000m, or +-2 behind it."
		if s.Inches() {
			finer = `Where the sixteenth was read, write it: 26'-3 0/16", or +-1/16in behind it.`
		}
		all = append(all, fmt.Sprintf("Written roughly, and counted so: %s. %s", strings.Join(rough, ", "), finer))
	}
	if !s.Lone() { // its crossing is told below the tables
		for _, c := range flat(s) {
			all = append(all, string(c.At)+": its arcs cross at "+s.Style.Angle(c.Angle)+", not sound. Its checks decide.")
		}
	}
	return all
}

// flat are the crossings of arcs that place a corner and are not sound.
func flat(s setOut) (all []pegging.Crossing) {
	for _, p := range s.Main {
		if p.Method == pegging.TwoArcs && !p.Crossing.Sound {
			all = append(all, p.Crossing)
		}
	}
	return all
}

func (s setOut) Flat() (all []string) {
	for _, c := range flat(s) {
		all = append(all, fmt.Sprintf("arcs swung from %s and %s cross at only %s at %s: hard to mark exactly",
			s.Baseline.From, s.Baseline.To, s.Style.Angle(min(c.Angle, unit.Turn/2-c.Angle)), c.At))
	}
	return all
}

// tooRough is from which tolerance on a length was not read on a tape.
const tooRough unit.Length = 5

// roughly are the lengths whose last digit, where no tolerance is stated, allows more
// than any tape leaves open: "AB=8m is ±500 mm".
func roughly(s setOut, net net.Adjusted) (all []string) {
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
