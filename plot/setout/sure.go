package setout

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/survey"
	"trammel/geom/unit"
)

// sure works out how sure each point is: its place as it was measured, seen from the
// baseline, and as it is set out from there.
func (w *work) sure() {
	base := w.way.Base
	set := map[geom.Name]survey.Covariance{}
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
			s.Permitted = survey.Permitted(w.Permitted, s.Distance)
			s.Inside = s.Both <= s.Permitted
		}
		w.Sure = append(w.Sure, s)
	}
}

// doubts about what was measured: a sheet made from a slip sets the slip out.
func (w *work) doubts(net survey.Adjusted) (all []string) {
	if len(net.Suspects) > 0 || !net.Global.Passed || len(net.Warnings) > 0 {
		for _, f := range net.Findings(w.Style) {
			all = append(all, sentence(f))
		}
	}
	if which := net.Which(); which != "" {
		all = append(all, which)
	}
	if len(w.Outline) == 4 {
		if q := net.Rectangle([4]geom.Name(w.Outline)); q.Measured {
			all = append(all, sentence(q.Say(w.Style)))
		}
	}
	if rough := roughly(net); len(rough) > 0 {
		all = append(all, fmt.Sprintf("Written roughly, and counted so: %s. Where the millimetre was read, write it: 8000 or 8.000m, or +-2 behind it.", strings.Join(rough, ", ")))
	}
	for _, p := range w.Main {
		if p.Method == survey.TwoArcs && !p.Crossing.Sound && !w.lone() {
			all = append(all, string(p.Peg)+": its arcs cross at "+w.Style.Angle(p.Crossing.Angle)+", not sound. Its checks decide.")
		}
	}
	return all
}

// tooRough is the tolerance from which on a length was not read on a tape: whoever
// wrote it left digits away.
const tooRough unit.Length = 5

// roughly are the lengths whose last digit, where no tolerance is stated, allows more
// than any tape leaves open: "AB=8m is ±500 mm".
func roughly(net survey.Adjusted) (all []string) {
	for _, r := range net.Results {
		m := r.Measurement
		if m.Kind == geom.Angle || m.Value.Stated {
			continue
		}
		if t, _ := m.Value.Tolerance.Float64(); unit.Length(t) >= tooRough {
			all = append(all, fmt.Sprintf("%s=%s is ±%.0f mm", m.Subject(), m.Value.Text, t))
		}
	}
	return all
}
