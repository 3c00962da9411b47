package pegging

import (
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Sure is how sure a corner is.
type Sure struct {
	Peg           geom.Name
	Along, Across unit.Length    // σ along the baseline and across it, all in all
	Ellipse       adjust.Ellipse // the one that holds 95 of 100, in the plane of the baseline
	// 95 % figures: from the measurements, from the setting-out, from both.
	Measured, SetOut, Both unit.Length
	// Distance from the nearer end of the baseline, and what that permits; 0: not asked for.
	Distance, Permitted unit.Length
	Inside              bool // Both is not more than Permitted
}

// sureOf works out how sure each point is, as measured and as set out from the baseline.
func sureOf(s Set, permitted unit.Length) (all []Sure) {
	set := map[geom.Name]adjust.Covariance{}
	for _, p := range s.way.Pegs {
		set[p.Name] = p.Covariance
	}
	turn := unit.Angle(0) // from the axes of the baseline to those of the plane
	if s.Baseline.Zero == 1 {
		turn = unit.Turn / 2
	}
	from, to := s.Baseline.From, s.Baseline.To
	for _, p := range s.Pegs {
		if _, ok := s.at[p.Name]; !ok {
			continue
		}
		_, seen := s.Seen(p.Name)
		out := set[p.Name]
		both := seen.Plus(out)
		x := Sure{
			Peg: p.Name, Along: both.X(), Across: both.Y(), Ellipse: both.Turned(turn).Ellipse().Within95(),
			Measured: seen.Figure95(), SetOut: out.Figure95(), Both: both.Figure95(),
		}
		switch x.Distance = min(p.At.Distance(s.spots[from]), p.At.Distance(s.spots[to])); p.Name {
		case from, to:
			x.Distance = s.Baseline.Length
		}
		if permitted > 0 {
			x.Permitted = tape.Permitted(permitted, x.Distance)
			x.Inside = x.Both <= x.Permitted
		}
		all = append(all, x)
	}
	return all
}

// Seen is where a point of the net lies from the baseline, whose zero end is the origin
// and whose direction that of x, and how surely it was measured.
func (f Frame) Seen(n geom.Name) (geom.Point, adjust.Covariance) {
	return f.Net.Seen(n, f.way.Base)
}
