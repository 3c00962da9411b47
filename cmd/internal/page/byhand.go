package page

import (
	"trammel/plot/screen"
)

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
		for _, say := range w.Steps(i) {
			play.Steps = append(play.Steps, Step{Says: say})
		}
		play.Base = screen.Hand(p.Construction, widthOf(q))
		r.Plays = append(r.Plays, play)
	}
	r.Warnings = w.Warnings()
	return r, nil, nil
}
