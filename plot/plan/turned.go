package plan

import (
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// turned is the plan with all that has a place turned about the baseline's left end by
// Plan.Turn. The baseline then is not level, so that there is no tape line below it: what
// would stand there is written behind the names of the marks.
func (p Plan) turned() Plan {
	if p.Turn == 0 {
		return p
	}
	by := geom.Placement{Turn: p.Turn}
	p.Pegs, p.Strokes, p.Moves = slices.Clone(p.Pegs), slices.Clone(p.Strokes), slices.Clone(p.Moves)
	for i := range p.Pegs {
		peg := &p.Pegs[i]
		peg.At = by.Apply(peg.At)
		peg.Ellipse.Turn += p.Turn
		if peg.Role != Corner && peg.Figure == "" {
			peg.Figure = peg.Running
		}
		peg.Running = ""
	}
	for i, s := range p.Strokes {
		p.Strokes[i].From, p.Strokes[i].To = by.Apply(s.From), by.Apply(s.To)
	}
	for i := range p.Moves {
		p.Moves[i].Way += p.Turn
	}
	p.North.Turn += p.Turn
	p.level, p.Turn = p.Turn, 0
	return p
}

// along is a place in a frame whose x axis is the baseline, across its other coordinate.
func (w *linework) along(at geom.Point) (along, across unit.Length) {
	at = geom.Placement{Turn: -w.level}.Apply(at)
	return at.X, at.Y
}

// place is where that is.
func (w *linework) place(along, across unit.Length) geom.Point {
	return geom.Placement{Turn: w.level}.Apply(geom.Point{X: along, Y: across})
}
