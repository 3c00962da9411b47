// Package panel shows how a triangle is constructed by hand: each step a picture with its
// sentence. What is new is drawn heavy, what stands narrow, and the instrument lies where the
// hand holds it. Picture and sentence come from one step.
//
// A picture is a drawing of its own, in mm of the paper from its lower left corner, so that a
// sheet, a projector and a page on a screen show the same.
//
// Files, from the top floor to the ground: models.go, panel.go, special.go, moves.go, tools.go,
// protractor.go, letters.go, stage.go.
package panel

import (
	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/words"
)

// Size of pictures: of a step, and of one with a protractor, which needs more to be read; and
// how high letters are.
type Size struct {
	Wide, High  unit.Length
	Broad, Tall unit.Length
	Letters     unit.Length
}

// Hand is for a sheet of A4, Screen for a projector with one step a page.
var (
	Hand   = Size{Wide: 90, High: 41, Broad: 186, Tall: 64, Letters: draw.FigureHeight}
	Screen = Size{Wide: 296, High: 104, Broad: 296, Tall: 104, Letters: 6.2}
)

// Panel is one step.
type Panel struct {
	Number     int
	Say        string // what the hand does
	Why        string // a word why, below it; empty: none
	Broad      bool   // it is of the larger size
	FullSize   bool   // lengths are those on the paper
	Wide, High unit.Length
	Ops        draw.Drawing
}

// Of is every step of a piece, in the words of a language.
func Of(h words.ByHand, l words.Language, size Size, r draw.Ruler) []Panel {
	return staged(movesOf(h, l), l, size, r)
}

// staged sets every move on its stage: the same place for all that are alike, so that who
// turns the leaves sees the lines grow.
func staged(all []move, l words.Language, size Size, r draw.Ruler) (panels []Panel) {
	plain := fitted(all, size, r, false)
	broad := fitted(all, size, r, true)
	for i, m := range all {
		s := plain
		if m.broad {
			s = broad
		}
		s.show(all[:i], m)
		p := Panel{Number: i + 1, Say: m.say, Why: m.why, Broad: m.broad, FullSize: m.broad && s.scale == 1, Wide: s.wide, High: s.high}
		p.Ops = draw.Tagged(s.ops, &draw.Tag{Role: draw.AsFigure, Alt: words.In(l).Models().Alt(i + 1)})
		panels = append(panels, p)
	}
	return panels
}

// fitted is the stage on which all moves have room, instruments too.
func fitted(all []move, size Size, r draw.Ruler, broad bool) stage {
	s := stage{wide: size.Wide, high: size.High, letters: size.Letters, r: r, scale: 1, rough: true}
	if broad {
		s.wide, s.high = size.Broad, size.Tall
	}
	if !broad {
		s.scale = 0.75 * float64(size.Letters/draw.FigureHeight)
	}
	if o := extent(all); o.Width() > 0 {
		s.scale = min(s.scale, float64(s.wide/o.Width()), float64(s.high/max(o.Height(), 1)))
	}
	within := func(m move) bool { return m.broad == broad }
	const tries = 40
	for range tries {
		s.shift = geom.Vector{}
		box, any := geom.Rect{}, false
		for i, m := range all {
			if !within(m) {
				continue
			}
			t := s
			t.show(all[:i], m)
			for _, op := range t.ops {
				if b := op.Bounds(r); any {
					box = box.Join(b)
				} else {
					box, any = b, true
				}
			}
		}
		if !any {
			break
		}
		s.shift = geom.Vector{X: float64(s.wide-box.Width())/2 - float64(box.Min.X), Y: float64(s.high-box.Height())/2 - float64(box.Min.Y)}
		if box.Width() <= s.wide && box.Height() <= s.high {
			break
		}
		s.scale *= 0.93
	}
	s.rough = false
	return s
}

// extent of what is drawn in all, in mm of the piece.
func extent(all []move) (box geom.Rect) {
	var c geom.Contour
	for _, m := range all {
		c = append(c, m.lines...)
	}
	if len(c) == 0 {
		return box
	}
	return c.Bounds()
}

// piece of a construction in a class: its figures are mm, and every degree has its mark.
func piece(c construct.Construction, given map[geom.Name]unit.Reading) words.ByHand {
	return words.ByHand{Construction: c, Given: given, Protractor: unit.Degree, Shape: noShape, Reach: 120}
}
