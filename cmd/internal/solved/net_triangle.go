package solved

import (
	"errors"
	"fmt"
	"math"
	numbers "math/big"
	"slices"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// leeway is how many σ a measurement may differ from the triangle that all of them
// make, once the adjustment has found nothing amiss in them.
const leeway = 3

// triangle solves for a triangle. Where more than three things were measured they are
// weighed by what the tools keep, unless a tolerance is stated, at every size and as in
// any net: so a template and a setting-out sheet have the same figures.
// What differs by more than the last digit written, though not by more than the tools
// explain, is adjusted; what agrees exactly stays as it is. The adjustment is nil where it
// is not that of the triangle.
func (w Work) triangle(ms []triangle.Measurement, base [2]geom.Name) (triangle.Solution, *net.Adjusted, error) {
	s, err := triangle.Solve(ms, base)
	if len(ms) <= 3 || err == nil && (len(s.Answers) > 1 || exact(s.Answers[0])) {
		return s, nil, err
	}
	var none *triangle.NoTriangle
	var a net.Adjusted
	var same *net.Adjusted
	var failed error
	switch {
	case err == nil:
		a, failed = w.netOfTriangle(s.Answers[0].Triangle, ms)
		same = &a
	case errors.As(err, &none) && len(pointsOf(ms)) == 3:
		a, failed = net.Adjust(net.Net{Measured: ms, Tools: w.toolsFor(ms)})
		if failed == nil && !Agrees(a) {
			return s, nil, err
		}
	default:
		return s, nil, err
	}
	if failed != nil {
		return s, nil, err
	}
	wide := slices.Clone(ms)
	for i, r := range a.Results {
		wide[i].Value.Tolerance = new(numbers.Rat).SetFloat64(leeway * Figure(r.Measurement.Kind, r.Sigma))
	}
	t, failed := triangle.Solve(wide, base)
	if failed != nil || len(t.Answers) > 1 {
		return s, same, err
	}
	t.Measured = ms
	return t, same, nil
}

// exact says whether a triangle has all its measurements as written.
func exact(a triangle.Answer) bool {
	return !slices.ContainsFunc(a.Residuals, func(r triangle.Residual) bool { return r != triangle.Residual{} })
}

// Sound refuses a piece in which a measurement is all but certain to hold a slip:
// adjusted with it every corner would lie wrong. Solve shows it all the same.
func (w Work) Sound() error {
	for _, p := range w.Pieces {
		a, ok := p.Checked()
		if ok && a.Disputed {
			return errorOf(w.Job.Pieces[p.Index], &triangle.NoTriangle{
				What: "no placement of the points agrees with all that was measured, and two come about as near: with " + w.Placement(a.Mine) + "; with " + w.Placement(a.Others[0]),
				Hint: "read the measurements again, or measure one more line", Advice: unit.Advice{Code: unit.AllButCertain},
			})
		}
		if !ok || len(a.Suspects) == 0 {
			continue
		}
		s := a.Suspects[0]
		if math.Abs(s.W) < net.CriticalOf(len(a.Results)) {
			continue
		}
		m := a.Results[s.Index].Measurement
		give := fmt.Sprintf("%s=%s+-", m.Subject(), m.Value.Text)
		if m.Kind == triangle.Angle {
			give += fmt.Sprintf("%.0fdeg", math.Ceil(math.Abs((s.Reads.Angle - s.Others.Angle).Degrees())))
		} else {
			off := math.Abs(float64(s.Reads.Length - s.Others.Length))
			if w.Figures.Unit >= unit.IN {
				give += fmt.Sprintf("%.0f/16in", math.Ceil(off*16/unit.Inch.MM()))
			} else {
				give += fmt.Sprintf("%.0fmm", math.Ceil(off))
			}
		}
		return errorOf(w.Job.Pieces[p.Index], &triangle.NoTriangle{Advice: unit.Advice{Code: unit.AllButCertain}, What: string(w.Words().Nets().Suspect(a, s, w.Figures)), Hint: "mend it or leave it out; to go on with it as it is, say how little it can be trusted: " + give})
	}
	return nil
}
