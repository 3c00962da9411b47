package template

import (
	"strings"

	"trammel/geom"
	"trammel/geom/triangle"
)

// treated says whether a corner is cut or rounded.
func (p Piece) treated() bool {
	for _, v := range p.Shape.Corners {
		if v.Finished != nil {
			return true
		}
	}
	return false
}

// Measures says in a few words what the figures of a shaped piece measure and which
// line is which; nothing where there is but one line.
func (p Piece) Measures() string {
	switch spared, treated := p.shaped() && p.Shape.Spared(), p.treated(); {
	case spared && treated:
		return "cut the wide line: plain figures, to ticks and set-backs; finished: dash-dotted, to whole corners"
	case spared:
		return "cut the wide line: plain figures; finished: the dash-dotted edge"
	case treated:
		return "plain figures: to corners, ticks and set-backs; whole: to the whole corners"
	}
	return ""
}

// otherFigure is what the length of an edge is called beside that of the line that is
// cut: finished where the cut line lies elsewhere, whole where only corners are taken
// off; nothing where both are the same.
func (p Piece) otherFigure() string {
	switch {
	case !p.shaped():
		return ""
	case p.Shape.Spared():
		return "finished"
	case p.treated():
		return "whole"
	}
	return ""
}

// upTo says how far a side of the line that is cut goes.
func (p Piece) upTo() string {
	if p.treated() {
		return ", up to its corners, set-backs and ticks"
	}
	return ""
}

// edgeFigure is the length of side i on the line that is cut, as the paper shows it.
func (p Piece) edgeFigure(i int, s Style) string {
	d := p.side(i)
	if d.length <= 0 { // nothing straight is left
		d.length, d.measured = d.whole, true
	}
	return s.length(d.length, d.measured)
}

// besideFigure is what is said of side i besides: the length of its finished edge, where
// that is another, and its allowance.
func (p Piece) besideFigure(i int, s Style) string {
	var say []string
	o, d, side := p.Outline(), p.side(i), p.Shape.Sides[i]
	if max(d.length-d.whole, d.whole-d.length) > sameLength {
		say = append(say, p.otherFigure()+" "+s.length(d.whole, p.measured(triangle.Distance, o.Names[i], o.Names[o.Next(i)])))
	}
	if side.Allow != 0 {
		say = append(say, s.signed(side.Allow))
	}
	return strings.Join(say, ", ")
}

// marked is what is said of the piece as a whole: face, grain, hand.
func (p Piece) marked() string {
	var say []string
	for _, w := range []string{p.Hand, p.Face} {
		if w != "" {
			say = append(say, w)
		}
	}
	if p.Grain != ([2]geom.Name{}) {
		say = append(say, "grain along "+string(p.Grain[0]+p.Grain[1]))
	}
	return strings.Join(say, ", ")
}
