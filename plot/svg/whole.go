package svg

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
)

// hairline is the width of every stroke for a machine that cuts: many take what is
// thinner than 0.025 mm for a cut and what is wider for an area to burn off.
const hairline unit.Length = 0.01

// cutHint stands in the file for whoever opens it.
const cutHint = "True size: one unit is one millimetre. The group cut holds closed paths alone, holes first; marks and words are for the eye."

// WriteWhole writes a piece for a machine that cuts: in the group "cut" what is
// on the outline's layer, one closed path a contour, the outer ones last so that
// nothing is loose before its holes are cut; before it, in the groups "words" and
// "marks", the rest. Strokes are hairlines, dashes are strokes of their own, and
// no mark runs along a cut. Layers that the document hides are left out.
//
// Marks lie within 0.001 mm of their place. A character that the lettering lacks
// is a *unit.Fault; errors of w are returned as they are.
func WriteWhole(w io.Writer, p draw.Page, d draw.Document) error {
	if !sized(p) {
		return fmt.Errorf("svg: a piece of %g × %g mm", p.Width, p.Height)
	}
	cuts, rest, err := parted(p.Ops)
	if err != nil {
		return err
	}
	s := page{height: p.Height, font: lettering.Go()}
	s.head(p, d, cutHint)
	s.group("words", func() {
		for _, op := range rest {
			if o, ok := op.(draw.Text); ok && !slices.Contains(d.Hide, o.On) {
				s.words(o)
			}
		}
	})
	s.group("marks", func() {
		for _, op := range rest {
			if !slices.Contains(d.Hide, op.Layer()) {
				for _, part := range beside(strokes(op), cuts) {
					s.path(draw.Path{Segments: []geom.Segment{part}, Closed: isWhole(part), Pen: draw.Pen{Width: hairline}}, false)
				}
			}
		}
	})
	s.group("cut", func() {
		for _, c := range cuts {
			s.path(draw.Path{Segments: c, Closed: true, Pen: draw.Pen{Width: hairline}}, false)
		}
	})
	s.text("</svg>\n")
	if s.err != nil {
		return s.err
	}
	_, err = w.Write(s.b)
	return err
}

// same is how far apart ends may lie that belong together: far above rounding,
// far below what a machine can tell.
const same unit.Length = 1e-6

var errOpen = errors.New("svg: the outline is not closed")

// parted is the contours to cut, the smallest first (what lies in another is smaller),
// and everything else. What is cut is on the outline's layer and drawn without dashes.
func parted(ops []draw.Op) (cuts []geom.Contour, rest []draw.Op, err error) {
	var loose []geom.Segment
	for _, op := range ops {
		line, drawn := draw.Stroked(op)
		if !drawn || draw.Solid(op) || line.Pen.Dash != draw.Continuous || op.Layer() != draw.Outline {
			rest = append(rest, op)
			continue
		}
		for _, k := range line.Segments {
			if k.At(0).Distance(k.At(1)) > same || isWhole(k) {
				loose = append(loose, k)
			}
		}
	}
	for len(loose) > 0 {
		c := geom.Contour{loose[0]}
		loose = loose[1:]
		start, at := c[0].At(0), c[0].At(1)
		for !isWhole(c[0]) && at.Distance(start) > same {
			i := slices.IndexFunc(loose, func(k geom.Segment) bool {
				return !isWhole(k) && (k.At(0).Distance(at) <= same || k.At(1).Distance(at) <= same)
			})
			if i < 0 {
				return nil, nil, errOpen
			}
			k := loose[i]
			if k.At(0).Distance(at) > same {
				k = part(k, share{1, 0})
			}
			loose = slices.Delete(slices.Clone(loose), i, i+1)
			c = append(c, k)
			at = k.At(1)
		}
		if !slices.ContainsFunc(cuts, func(d geom.Contour) bool { return slices.Equal(c, d) }) { // never twice along the same line
			cuts = append(cuts, c)
		}
	}
	size := func(c geom.Contour) float64 { b := c.Bounds(); return b.Width().MM() * b.Height().MM() }
	slices.SortStableFunc(cuts, func(a, b geom.Contour) int { return cmp.Compare(size(a), size(b)) })
	return cuts, rest, nil
}

func isWhole(s geom.Segment) bool {
	a, ok := s.(geom.Arc)
	return ok && draw.Whole(a)
}

// strokes are the straight lines and arcs of an operation, each dash one of them.
func strokes(op draw.Op) (all []geom.Segment) {
	line, _ := draw.Stroked(op)
	pen := line.Pen
	if draw.Solid(op) {
		pen = draw.Pen{}
	}
	for _, s := range line.Segments {
		for _, d := range dashes(s.Length(), pen) {
			all = append(all, part(s, d))
		}
		pen.Phase += s.Length()
	}
	return all
}

// part of a segment; from 1 to 0 is the segment the other way round.
func part(s geom.Segment, d share) geom.Segment {
	switch s := s.(type) {
	case geom.Line:
		switch d {
		case share{1, 0}:
			return geom.Line{From: s.To, To: s.From}
		case whole:
			return s
		}
		return geom.Line{From: s.At(d.from), To: s.At(d.to)}
	case geom.Arc:
		if d != whole {
			s.Start, s.Sweep = s.Start+unit.Angle(d.from)*s.Sweep, unit.Angle(d.to-d.from)*s.Sweep
		}
		return s
	}
	panic(fmt.Sprintf("svg: no part of a %T", s))
}

// share is a part of a stroke, from 0 to 1.
type share struct{ from, to float64 }

var whole = share{0, 1}

// dashes are the parts of a stroke of the length that a pen marks.
func dashes(length unit.Length, pen draw.Pen) []share {
	pattern := pen.Dash.Lengths(pen.Width)
	period := unit.Length(0)
	for _, l := range pattern {
		period += l
	}
	const most = 1_000_000 // dashes of one stroke
	if period <= 0 || length <= 0 || length/period > most {
		return []share{whole}
	}
	var all []share
	at := -unit.Length(math.Mod(float64(pen.Phase), float64(period)))
	for i := 0; at < length; i++ {
		l := pattern[i%len(pattern)]
		if from, to := max(0, at), min(length, at+l); i%2 == 0 && from < to {
			all = append(all, share{float64(from / length), float64(to / length)})
		}
		at += l
	}
	return all
}

// beside takes out of straight strokes what runs along a cut: there the machine
// would go twice.
func beside(strokes []geom.Segment, cuts []geom.Contour) (all []geom.Segment) {
	for _, s := range strokes {
		l, ok := s.(geom.Line)
		if !ok {
			all = append(all, s)
			continue
		}
		open := []share{whole}
		for _, k := range slices.Concat(cuts...) {
			if edge, ok := k.(geom.Line); ok {
				open = less(open, along(l, edge))
			}
		}
		for _, d := range open {
			if left := part(l, d); left.Length() > near {
				all = append(all, left)
			}
		}
	}
	return all
}

// near is how close to a cut a mark is on it.
const near unit.Length = 0.01

// along is which share of l runs along an edge; none where from is not before to.
func along(l, edge geom.Line) share {
	from, u, v := geom.VectorOf(l.From), geom.VectorOf(l.To.Minus(l.From)), geom.VectorOf(edge.To.Minus(edge.From))
	n := u.Dot(u)
	if n == 0 {
		return share{}
	}
	a, b := u.Dot(geom.VectorOf(edge.From).Minus(from))/n, u.Dot(geom.VectorOf(edge.To).Minus(from))/n
	s := share{max(0, min(a, b)), min(1, max(a, b))}
	if s.from >= s.to {
		return share{}
	}
	for _, at := range [2]float64{s.from, s.to} {
		if math.Abs(v.Cross(geom.VectorOf(l.At(at).Minus(edge.From))))/v.Size() > near.MM() {
			return share{}
		}
	}
	return s
}

// less is the shares without one.
func less(open []share, out share) (left []share) {
	for _, s := range open {
		if out.from >= out.to || out.to <= s.from || out.from >= s.to {
			left = append(left, s)
			continue
		}
		if out.from > s.from {
			left = append(left, share{s.from, out.from})
		}
		if out.to < s.to {
			left = append(left, share{out.to, s.to})
		}
	}
	return left
}
