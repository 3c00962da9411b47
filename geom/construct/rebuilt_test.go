package construct

import (
	"math"
	"math/cmplx"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/triangle"
)

// rebuilt follows the steps by their figures alone, in coordinates of its own, and holds
// what comes out, and every place that a step names, against the triangle.
func rebuilt(t *testing.T, what string, c Construction, tri triangle.Triangle) {
	t.Helper()
	where := map[geom.Name]complex128{}
	for i, n := range tri.Names {
		where[n] = xy(tri.Points[i])
	}
	size := tri.Perimeter.MM()
	near := func(name string, p geom.Point, q complex128) {
		t.Helper()
		if cmplx.Abs(xy(p)-q) > 1e-9*size {
			t.Errorf("%s: %s lies at %v, want %v", what, name, p, q)
		}
	}
	at := map[geom.Name]complex128{} // of the hand: the base level, from 0
	var circles []circle
	var rays [][2]complex128
	var level float64
	var apex geom.Name
	for _, s := range c.Steps {
		switch s := s.(type) {
		case DrawBase:
			at[s.From], at[s.To] = 0, complex(s.Length.MM(), 0)
			near("base", s.Line.From, where[s.From])
			near("base", s.Line.To, where[s.To])
		case Swing:
			circles, apex = append(circles, circle{at[s.Centre], s.Radius.MM()}), s.To
			near("centre", s.About, where[s.Centre])
			near("crossing", s.Through, where[s.To])
		case HalfCircle:
			circles, apex = append(circles, circle{(at[s.Over[0]] + at[s.Over[1]]) / 2, cmplx.Abs(at[s.Over[1]]-at[s.Over[0]]) / 2}), s.To
			near("middle", s.Middle, (where[s.Over[0]]+where[s.Over[1]])/2)
			near("crossing", s.Through, where[s.To])
		case SetAngle:
			along := at[s.Along] - at[s.At]
			turn := s.Angle.Degrees() * math.Pi / 180
			if real(along) < 0 {
				turn = -turn
			}
			rays, apex = append(rays, [2]complex128{at[s.At], along / complex(cmplx.Abs(along), 0) * cmplx.Rect(1, turn)}), s.To
			near("arm", s.Ray.From, where[s.At])
			toward := (xy(s.Ray.To) - where[s.At]) / (where[s.To] - where[s.At])
			if math.Abs(imag(toward)) > 1e-9 || real(toward) < 1 {
				t.Errorf("%s: the arm from %s misses %s: %v", what, s.At, s.To, toward)
			}
		case MarkOff:
			near("mark", s.Line.To, where[s.To])
			last := rays[len(rays)-1]
			at[s.To] = last[0] + last[1]*complex(s.Length.MM(), 0)
		case Parallel:
			level, apex = s.Distance.MM(), s.To
			way := (xy(s.Line.To) - xy(s.Line.From)) / (where[s.Base[1]] - where[s.Base[0]])
			off := (where[s.To] - xy(s.Line.From)) / (xy(s.Line.To) - xy(s.Line.From))
			if math.Abs(imag(way)) > 1e-9 || math.Abs(imag(off)) > 1e-9 || real(off) < 0 || real(off) > 1 {
				t.Errorf("%s: the parallel misses %s", what, s.To)
			}
		case Erect:
			way := at[s.Toward] - at[s.From]
			at[s.To] = at[s.From] + way/complex(cmplx.Abs(way), 0)*complex(s.Along.MM(), 0) + complex(0, s.Height.MM())
			near("top", s.Top, where[s.To])
		case Join:
			near("join", s.Line.From, where[s.From])
			near("join", s.Line.To, where[s.To])
		}
	}
	// Two lines that cross at the apex; where they do twice, one of both.
	if _, marked := at[apex]; !marked && apex != "" {
		at[apex] = crossing(t, what, circles, rays, level, func(p complex128) float64 {
			off := 0.0
			for n, q := range at {
				off += math.Abs(cmplx.Abs(p-q) - cmplx.Abs(where[apex]-where[n]))
			}
			return off
		})
	}
	for _, m := range tri.Names {
		for _, n := range tri.Names {
			if got, want := cmplx.Abs(at[m]-at[n]), cmplx.Abs(where[m]-where[n]); !(math.Abs(got-want) <= 1e-9*size) {
				t.Errorf("%s: %s%s comes to %v, want %v", what, m, n, got, want)
			}
		}
	}
}

// crossing is the place over the baseline that lies on two lines and is the least off.
func crossing(t *testing.T, what string, circles []circle, rays [][2]complex128, level float64, off func(complex128) float64) (best complex128) {
	t.Helper()
	if level > 0 {
		rays = append(rays, [2]complex128{complex(-1e6, level), 1})
	}
	var found []complex128
	switch {
	case len(circles) == 2:
		between := circles[1].centre - circles[0].centre
		d, r, q := cmplx.Abs(between), circles[0].radius, circles[1].radius
		x := (d*d + r*r - q*q) / (2 * d)
		found = []complex128{circles[0].centre + between/complex(d, 0)*complex(x, math.Sqrt(r*r-x*x)), circles[0].centre + between/complex(d, 0)*complex(x, -math.Sqrt(r*r-x*x))}
	case len(circles) == 1 && len(rays) == 1:
		p := (circles[0].centre - rays[0][0]) / rays[0][1]
		h := math.Sqrt(max(0, circles[0].radius*circles[0].radius-imag(p)*imag(p)))
		found = []complex128{rays[0][0] + rays[0][1]*complex(real(p)-h, 0), rays[0][0] + rays[0][1]*complex(real(p)+h, 0)}
	case len(rays) == 2:
		p := (rays[1][0] - rays[0][0]) / rays[0][1]
		u := rays[1][1] / rays[0][1]
		found = []complex128{rays[0][0] + rays[0][1]*complex(real(p)-imag(p)*real(u)/imag(u), 0)}
	default:
		t.Fatalf("%s: %d circles and %d lines fix no place", what, len(circles), len(rays))
	}
	return slices.MinFunc(found, func(p, q complex128) int {
		if off(p) < off(q) {
			return -1
		}
		return 1
	})
}
