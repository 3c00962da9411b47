package setout

import (
	"math"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/internal/pagetest"
	"trammel/plot/lettering"
	"trammel/plot/plan"
)

// With north up a baseline of a bearing of b leads b clockwise from up, its pegs stand where
// the plan's place says, the arrow points up and every name and length stands there; without
// it the baseline is level.
func TestNorthUp(t *testing.T) {
	for _, deg := range []float64{0, 35, 90, 135, 180, 260, 359} {
		for _, up := range []bool{false, true} {
			bearing := unit.Angle(deg) * unit.Degree
			s := preparedNet(t, floor, "ABCDEF", func(in *Input) {
				in.Base, in.Bearing, in.NorthUp = [2]geom.Name{"A", "B"}, &bearing, up
			})
			page := pagesOf(t, s, pagetest.A4)[0]
			m := page.Places[0].Matrix
			at := func(n geom.Name) geom.Point {
				return m.Apply(geom.Placement{Turn: -s.Place.Turn}.Apply(s.Spot(n).Minus(s.Place.Shift)))
			}
			want := math.Pi/2 - bearing.Radians()
			if !up {
				want = 0
				if s.Baseline.Zero == 1 {
					want = math.Pi
				}
			}
			way := geom.Line{From: at("A"), To: at("B")}.Direction().Radians()
			if d := math.Remainder(way-want, 2*math.Pi); math.Abs(d) > 1e-9 {
				t.Errorf("%.0f°, up %v: the baseline leads %.1f°, want %.1f°", deg, up, way*180/math.Pi, want*180/math.Pi)
			}
			for _, q := range s.sitePegs() {
				if q.Role != pegging.Corner {
					continue
				}
				if !slices.ContainsFunc(page.Ops, func(op draw.Op) bool {
					o, ok := op.(draw.Arc)
					return ok && o.Sweep == unit.Turn && o.Centre.Distance(at(q.Name)) < 0.01
				}) {
					t.Errorf("%.0f°, up %v: %s is not where the place of the plan says", deg, up, q.Name)
				}
				if !slices.ContainsFunc(page.Ops, func(op draw.Op) bool {
					o, ok := op.(draw.Text)
					return ok && o.Words == string(q.Name) && o.At.Distance(at(q.Name)) < 25
				}) {
					t.Errorf("%.0f°, up %v: %s has no name", deg, up, q.Name)
				}
			}
			if up {
				northPoints(t, deg, s.planned())
			}
		}
	}
}

// northPoints asks whether the arrow's name stands above its shaft.
func northPoints(t *testing.T, deg float64, p plan.Plan) {
	d, ok := p.Fit(190, 150, lettering.Go())
	if !ok {
		t.Fatalf("%.0f°: no room", deg)
	}
	i := slices.IndexFunc(d.Ops, func(op draw.Op) bool { o, ok := op.(draw.Text); return ok && o.Words == "north" })
	if i < 2 {
		t.Fatalf("%.0f°: no arrow", deg)
	}
	shaft, ok := d.Ops[i-2].(draw.Line)
	if !ok || math.Abs(float64(shaft.To.X-shaft.From.X)) > 1e-9 || shaft.To.Y <= shaft.From.Y || d.Ops[i].(draw.Text).At.Y < shaft.To.Y {
		t.Errorf("%.0f°: the arrow does not point up: %+v", deg, d.Ops[i-2])
	}
	for _, side := range p.Sides {
		if !slices.ContainsFunc(d.Ops, func(op draw.Op) bool { o, ok := op.(draw.Text); return ok && o.Words == side.Words }) {
			t.Errorf("%.0f°: %s%s has no length", deg, side.From, side.To)
		}
	}
}
