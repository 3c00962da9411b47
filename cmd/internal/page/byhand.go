package page

import (
	"trammel/plot/screen"
)

// pixels of a millimetre of a step's picture.
const pixels = 3

// steps are the construction of each piece by hand.
func (q question) steps() (r Reply, _ []byte, err error) {
	w, err := q.work()
	if err != nil {
		return r, nil, err
	}
	if err := w.HasOutline(); err != nil {
		return r, nil, err
	}
	for i, p := range w.Pieces {
		if p.Other || !q.wanted(p.Index) {
			continue
		}
		play := Play{Piece: p.Index, Title: p.Title(), Answer: p.Answer + 1, Steps: []Step{}, Bring: []string{}, Cautions: []string{}}
		shown, err := w.ByHand(i)
		if err != nil {
			return r, nil, err
		}
		for _, s := range shown {
			play.Steps = append(play.Steps, Step{Says: s.Says, Why: s.Why, Picture: screen.Picture{SVG: string(s.SVG), Width: s.Width.MM() * pixels, Height: s.Height.MM() * pixels}})
		}
		play.Base = screen.Hand(p.Construction, widthOf(q))
		r.Plays = append(r.Plays, play)
	}
	r.Warnings = w.Warnings()
	return r, nil, nil
}
