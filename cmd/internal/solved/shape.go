package solved

import (
	"fmt"
	"slices"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/profiles/job"
)

// asked says whether a job asks for anything beyond an outline.
func asked(s job.Shape) bool {
	return len(s.Edges)+len(s.Corners)+len(s.Holes) > 0 || s.Pair || s.Face != job.AnyFace || s.Grain != [2]geom.Name{}
}

// shaped does to the outlines of a piece what the job asks for, and adds the mirror
// image after each piece that is one of a pair. Where nobody said yet which of two
// triangles is meant there is nothing to work on.
func (w Work) shaped(of job.Piece, pieces []Piece) ([]Piece, error) {
	s := of.Shape
	if !asked(s) {
		return pieces, nil
	}
	work, err := s.Work(w.Bare)
	if err != nil {
		return nil, err
	}
	if len(pieces[0].Outline().Names) == 0 {
		return nil, errorOf(of, &unit.Fault{What: "edges, corners, holes, grain and hand are those of an outline, and none is named", Advice: unit.Advice{Code: unit.NoEdgeShape, Names: geom.Texts(round(*pieces[0].Net)), InFile: true}})
	}
	var all []Piece
	for _, p := range pieces {
		if err := grained(s, p.Outline()); err != nil {
			return nil, err
		}
		if !p.Picked {
			all = append(all, p)
			continue
		}
		hands := []Piece{p}
		if s.Pair {
			hands[0].Quantity = p.Quantity / 2
			other, err := p.turnedOver(w.hand(of))
			if err != nil {
				return nil, err
			}
			other.Quantity = hands[0].Quantity
			hands = append(hands, other)
		}
		for _, h := range hands {
			t := h.Outline()
			if h.Shape, err = shape.Make(t.Points, t.Names, work, w.Figures); err != nil {
				return nil, errorOf(of, err)
			}
			h.Grain, h.Face = s.Grain, s.Face
			if len(work.Corners) > 0 {
				sharp, err := shape.Make(t.Points, t.Names, shape.Work{Allowances: work.Allowances}, w.Figures)
				if err == nil {
					h.Sharp = sharp.Cover(coverSag)
				}
			}
			all = append(all, h)
		}
	}
	return all, nil
}

// grained says whether the grain runs along an edge that there is.
func grained(s job.Shape, o geom.Outline) error {
	if s.Grain == ([2]geom.Name{}) {
		return nil
	}
	var edges []string
	for i, n := range o.Names {
		next := o.Names[o.Next(i)]
		if s.Grain == [2]geom.Name{n, next} || s.Grain == [2]geom.Name{next, n} {
			return nil
		}
	}
	for _, i := range Around(o) {
		edges = append(edges, o.Side(i))
	}
	return &unit.Fault{
		Where: s.GrainAt, What: fmt.Sprintf("grain: %s is no edge of the piece", s.Grain[0]+s.Grain[1]),
		Hint: "the edges are " + geom.Listed(edges),
	}
}

// turnedOver is the other hand of a piece: its mirror image, every corner with its
// name, so that the baseline runs from B to A.
func (p Piece) turnedOver(hand construct.Hand) (Piece, error) {
	if p.Net != nil {
		o := p
		o.Other, o.Warnings, o.Construction = true, nil, p.mirrored()
		return o, nil
	}
	s := p.Solution
	a := s.Answers[p.Answer]
	t := &a.Triangle
	swap := func(x *[3]unit.Length) { x[0], x[1] = x[1], x[0] }
	t.Names[0], t.Names[1] = t.Names[1], t.Names[0]
	t.Angles[0], t.Angles[1] = t.Angles[1], t.Angles[0]
	swap(&t.Sides)
	swap(&t.Heights)
	t.Points[2].X = t.Points[1].X - t.Points[2].X
	a.Moves = nil // they hold the baseline's first corner, which is another
	s.Answers = slices.Clone(s.Answers)
	s.Answers[p.Answer] = a
	o := p
	o.Solution, o.Other, o.Warnings = s, true, nil
	var err error
	o.Construction, err = construct.Choose(s, p.Answer, hand)
	return o, err
}
