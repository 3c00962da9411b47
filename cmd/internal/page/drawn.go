package page

import (
	"trammel/cmd/internal/app"
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/screen"
)

// usualWidth of a sketch where the page does not say it: a phone's.
const usualWidth = 360

func widthOf(q question) float64 {
	if q.Width == 0 {
		return usualWidth
	}
	return min(max(float64(q.Width), float64(screen.Narrowest)), float64(screen.Widest))
}

// picture is a piece for the screen.
func pictureOf(q question, w app.Work, p solved.Piece, suspects []Suspect) any {
	var doubtful []string
	for _, s := range suspects {
		if s.Marked {
			doubtful = append(doubtful, s.Of)
		}
	}
	if len(p.Outline().Names) < 3 {
		return screen.Sketch(screen.Asked{Measured: p.Solution.Measured, Figures: w.Figures, Doubtful: doubtful}, widthOf(q))
	}
	s := screen.Piece{Construction: p.Construction, Measured: p.Solution.Measured, Figures: w.Figures, Doubtful: doubtful}
	if len(p.Shape.Sides) > 0 {
		s.Finished = p.Shape.Finished
	}
	return screen.Draw(s, widthOf(q))
}

// sketched is a rough shape of what is measured so far.
func sketched(q question, measured []triangle.Measurement, outline []geom.Name, figures unit.Style) any {
	return screen.Sketch(screen.Asked{Measured: measured, Outline: outline, Figures: figures}, widthOf(q))
}
