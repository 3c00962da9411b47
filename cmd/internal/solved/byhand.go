package solved

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/profiles/job"
)

// hand is who constructs a piece, and with what: a baseline that the job names stays.
func (w Work) hand(p job.Piece) construct.Hand {
	return construct.Hand{By: p.With, OnBase: p.Base != [2]geom.Name{}, Reach: w.Trade.Compass, Protractor: w.Trade.Protractor}
}

// meeting tells of a crossing in words: "arcs swung from A and B cross at only 12.0° at C".
func meeting(f unit.Style, m construct.Meeting) string {
	a, b := m.By[0], m.By[1]
	word := func(l construct.Guide) string {
		switch l.Kind {
		case construct.OnArc:
			return "the arc swung from " + string(l.From)
		case construct.OnArm:
			return "the arm from " + string(l.From)
		case construct.OnHalfCircle:
			return "the half circle"
		}
		return "the parallel"
	}
	who := word(a) + " and " + word(b)
	switch {
	case a.Kind == construct.OnArc && b.Kind == construct.OnArc:
		who = fmt.Sprintf("arcs swung from %s and %s", a.From, b.From)
	case a.Kind == construct.OnArm && b.Kind == construct.OnArm:
		who = fmt.Sprintf("the arms from %s and %s", a.From, b.From)
	}
	angle := fmt.Sprintf("%.1f°", m.Angle.Degrees())
	if f.Minutes {
		angle = f.Angle(m.Angle)
	}
	return fmt.Sprintf("%s cross at only %s at %s", who, angle, m.At)
}

// crossings says what cannot be marked sharply in the construction of a piece.
func crossings(f unit.Style, p Piece) (all []string) {
	for _, m := range p.Construction.Meetings() {
		if m.Angle < geom.Flat {
			all = append(all, meeting(f, m)+": hard to mark exactly")
		}
	}
	return all
}

// Constructible refuses arcs or arms that somebody asked for and whose crossing nobody
// can mark, and says what would do.
func (w Work) Constructible() error {
	for _, p := range w.Pieces {
		m, flat := p.Construction.Flattest()
		if !flat || m.Angle >= geom.TooFlat || p.Net != nil {
			continue
		}
		f := &triangle.NoTriangle{What: meeting(w.Figures, m) + fmt.Sprintf(": under %.0f° nobody can mark where", geom.TooFlat.Degrees())}
		f.Subject, f.Code = unit.Way, unit.TooFlat
		t, best := p.Triangle(), geom.TooFlat
		for i, a := range t.Angles {
			sharp := min(a, unit.Turn/2-a)
			if n := [2]geom.Name{t.Names[(i+1)%3], t.Names[(i+2)%3]}; sharp > best && i != p.Construction.Apex() {
				best, f.Code = sharp, unit.TooFlatBase
				f.Hint = fmt.Sprintf("base %s would do, from which arcs cross at %.0f°", n[0]+n[1], sharp.Degrees())
			}
		}
		return errorOf(w.Job.Pieces[p.Index], f)
	}
	return nil
}
