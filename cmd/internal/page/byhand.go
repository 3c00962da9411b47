package page

import (
	"trammel/geom/unit"
	"trammel/plot/lettering"
	"trammel/plot/panel"
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
		shown := panel.Of(w.ByHand(i), w.Language, sizeOf(q), lettering.Go())
		for k, say := range w.Steps(i) {
			s := Step{Says: say}
			if k < len(shown) {
				s.Picture = screen.Paint(shown[k].Ops, shown[k].Wide, shown[k].High, lettering.Go())
			}
			play.Steps = append(play.Steps, s)
		}
		play.Base = screen.Hand(p.Construction, widthOf(q))
		r.Plays = append(r.Plays, play)
	}
	r.Warnings = w.Warnings()
	return r, nil, nil
}

// sizeOf is the size of a step's picture: as wide as there is room; on a phone it is shown
// smaller, so that a protractor finds room beside letters that can be read.
func sizeOf(q question) panel.Size {
	wide := unit.Length(widthOf(q)) / screen.PerMM
	if wide < 150 {
		return panel.Size{Wide: 110, High: 66, Broad: 150, Tall: 92, Letters: 4.2}
	}
	return panel.Size{Wide: wide, High: wide * 0.56, Broad: wide, Tall: wide * 0.66, Letters: min(wide/36, 5.5)}
}
