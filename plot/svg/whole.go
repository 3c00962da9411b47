package svg

import (
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
			if _, ok := op.(draw.Text); ok || slices.Contains(d.Hide, op.Layer()) {
				continue
			}
			for _, part := range beside(strokes(op), cuts) {
				s.op(part)
			}
		}
	})
	s.group("cut", func() {
		for _, c := range cuts {
			s.contour(c)
		}
	})
	s.text("</svg>\n")
	if s.err != nil {
		return s.err
	}
	_, err = w.Write(s.b)
	return err
}

// contour is strokes that begin where the one before ended; the last ends where
// the first began. Each is a draw.Line or a draw.Arc.
type contour []draw.Op

// contour writes one closed path.
func (s *page) contour(c contour) {
	s.text(`<path d="`)
	start, _ := ends(c[0])
	s.to('M', start)
	for i, op := range c {
		switch o := op.(type) {
		case draw.Line:
			if i < len(c)-1 { // Z draws the last
				s.to('L', o.To)
			}
		case draw.Arc:
			last := o.At(1)
			if i == len(c)-1 {
				last = start // the very point
			}
			s.arcTo(o.Arc, last)
		}
	}
	s.text("Z")
	s.pen(draw.Pen{Width: hairline})
}

// ends of a stroke.
func ends(op draw.Op) (from, to geom.Point) {
	switch o := op.(type) {
	case draw.Line:
		return o.From, o.To
	case draw.Arc:
		return o.At(0), o.At(1)
	}
	panic(fmt.Sprintf("svg: %T is no stroke", op))
}

// turned is the stroke the other way round.
func turned(op draw.Op) draw.Op {
	switch o := op.(type) {
	case draw.Line:
		o.From, o.To = o.To, o.From
		return o
	case draw.Arc:
		o.Start, o.Sweep = o.Start+o.Sweep, -o.Sweep
		return o
	}
	panic(fmt.Sprintf("svg: %T is no stroke", op))
}

// same is how far apart ends may lie that belong together: far above rounding,
// far below what a machine can tell.
const same unit.Length = 1e-6

var errOpen = errors.New("svg: the outline is not closed")

// parted is the contours to cut, the smallest first, and everything else. What is
// cut is on the outline's layer and drawn without dashes.
func parted(ops []draw.Op) (cuts []contour, rest []draw.Op, err error) {
	var loose []draw.Op
	for _, op := range ops {
		if !isCut(op) {
			rest = append(rest, op)
			continue
		}
		for _, k := range strokes(op) {
			if from, to := ends(k); from.Distance(to) > same || isWhole(k) {
				loose = append(loose, k)
			}
		}
	}
	for len(loose) > 0 {
		c := contour{loose[0]}
		loose = loose[1:]
		start, at := ends(c[0])
		for !isWhole(c[0]) && at.Distance(start) > same {
			i := slices.IndexFunc(loose, func(k draw.Op) bool {
				from, to := ends(k)
				return !isWhole(k) && (from.Distance(at) <= same || to.Distance(at) <= same)
			})
			if i < 0 {
				return nil, nil, errOpen
			}
			k := loose[i]
			if from, _ := ends(k); from.Distance(at) > same {
				k = turned(k)
			}
			loose = slices.Delete(slices.Clone(loose), i, i+1)
			c = append(c, k)
			_, at = ends(k)
		}
		if !slices.ContainsFunc(cuts, func(d contour) bool { return slices.Equal(c, d) }) { // never twice along the same line
			cuts = append(cuts, c)
		}
	}
	slices.SortStableFunc(cuts, func(a, b contour) int {
		x, y := a.size(), b.size()
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return cuts, rest, nil
}

// size is that of the rectangle round the contour: what lies in another is smaller.
func (c contour) size() float64 {
	b := c[0].Bounds(nil)
	for _, op := range c[1:] {
		b = b.Join(op.Bounds(nil))
	}
	return b.Width().MM() * b.Height().MM()
}

// isCut says whether an operation is cut.
func isCut(op draw.Op) bool {
	if op.Layer() != draw.Outline {
		return false
	}
	switch o := op.(type) {
	case draw.Line:
		return o.Pen.Dash == draw.Continuous
	case draw.Arc:
		return o.Pen.Dash == draw.Continuous
	case draw.Polyline:
		return o.Pen.Dash == draw.Continuous && !o.Solid
	case draw.Path:
		return o.Pen.Dash == draw.Continuous
	}
	return false
}

func isWhole(op draw.Op) bool {
	a, ok := op.(draw.Arc)
	return ok && draw.Whole(a.Arc)
}

// strokes are the straight lines and arcs of an operation, hairlines without
// dashes: each dash is one of them. A solid shape is its edge.
func strokes(op draw.Op) (all []draw.Op) {
	thin := draw.Pen{Width: hairline}
	line := func(l geom.Line, pen draw.Pen, on draw.Layer) {
		for _, d := range dashes(l.Length(), pen) {
			part := draw.Line{Line: l, Pen: thin, On: on}
			if d != whole {
				part.From, part.To = l.At(d.from), l.At(d.to)
			}
			all = append(all, part)
		}
	}
	switch o := op.(type) {
	case draw.Line:
		line(o.Line, o.Pen, o.On)
	case draw.Arc:
		for _, d := range dashes(o.Radius*unit.Length(math.Abs(float64(o.Sweep))), o.Pen) {
			part := draw.Arc{Arc: o.Arc, Pen: thin, On: o.On}
			if d != whole {
				part.Start, part.Sweep = o.Start+unit.Angle(d.from)*o.Sweep, unit.Angle(d.to-d.from)*o.Sweep
			}
			all = append(all, part)
		}
	case draw.Polyline:
		edges := len(o.Points) - 1
		if o.Closed || o.Solid {
			edges++
		}
		pen := o.Pen
		for i := range edges {
			l := geom.Line{From: o.Points[i], To: o.Points[(i+1)%len(o.Points)]}
			line(l, pen, o.On)
			pen.Phase += l.Length()
		}
	case draw.Path:
		for _, part := range o.Parts() {
			all = append(all, strokes(part)...)
		}
	}
	return all
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
func beside(ops []draw.Op, cuts []contour) []draw.Op {
	var all []draw.Op
	for _, op := range ops {
		l, ok := op.(draw.Line)
		if !ok {
			all = append(all, op)
			continue
		}
		open := []share{whole}
		for _, c := range cuts {
			for _, k := range c {
				if edge, ok := k.(draw.Line); ok {
					open = less(open, along(l.Line, edge.Line))
				}
			}
		}
		for _, s := range open {
			part := l
			part.From, part.To = l.At(s.from), l.At(s.to)
			if s == whole {
				part.Line = l.Line
			}
			if part.Length() > near {
				all = append(all, part)
			}
		}
	}
	return all
}

// near is how close to a cut a mark is on it.
const near unit.Length = 0.01

// along is which share of l runs along an edge; none where from is not before to.
func along(l, edge geom.Line) share {
	u := l.To.Minus(l.From)
	n := float64(u.X)*float64(u.X) + float64(u.Y)*float64(u.Y)
	if n == 0 {
		return share{}
	}
	t := func(p geom.Point) float64 {
		v := p.Minus(l.From)
		return (float64(u.X)*float64(v.X) + float64(u.Y)*float64(v.Y)) / n
	}
	a, b := t(edge.From), t(edge.To)
	s := share{max(0, min(a, b)), min(1, max(a, b))}
	if s.from >= s.to {
		return share{}
	}
	for _, at := range [2]float64{s.from, s.to} {
		p := l.At(at)
		v := edge.To.Minus(edge.From)
		w := p.Minus(edge.From)
		if off := math.Abs(float64(v.X)*float64(w.Y)-float64(v.Y)*float64(w.X)) / edge.Length().MM(); off > near.MM() {
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
