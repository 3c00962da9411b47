package app

import (
	"strings"

	"trammel/cmd/internal/solved"
	"trammel/plot/template"
)

func (w Work) templatePiece(p solved.Piece) template.Piece {
	return template.Piece{
		Job: w.Title, Name: p.Title(), Quantity: p.Quantity,
		Construction: p.Construction, Measured: p.Solution.Measured,
		Shape: p.Shape, Grain: p.Grain, Face: p.Facing(), Hand: p.Hand(), Which: w.which(p), Shown: p.Covered(),
	}
}

// which of several ways the points of a net lie in; empty where one fits.
func (w Work) which(p solved.Piece) string {
	if p.Net == nil {
		return ""
	}
	return w.Says().Nets().Which(*p.Net)
}

// frontWords are what the page before those of a piece says beside it.
func (w Work) frontWords() template.Front {
	front := template.Front{Notes: w.notes()}
	if c := w.madeFor.calibration; c != nil {
		front.Uncertainty = c.Uncertainty
	}
	return front
}

// notes are what a title line says beside the names.
func (w Work) notes() []string {
	var notes []string
	if w.Job.Date != "" {
		notes = append(notes, w.Job.Date)
	}
	if p := w.printerName(); p != "" {
		notes = append(notes, "for printer "+p+": wrong on any other")
	}
	return notes
}

func (w Work) style() template.Style {
	t := w.Trade
	return template.Style{
		Language: w.Language, Figures: w.Figures, Lettering: t.Lettering, Reach: t.Compass, Saw: t.Saw, Protractor: t.Protractor,
		Arcs: t.Show["arcs"], Heights: t.Show["heights"], Angles: t.Show["angles"], Lengths: t.Show["lengths"], Steps: t.Show["steps"], Settings: t.Show["settings"],
	}
}

func label(l string) string {
	if l == "" {
		return "page"
	}
	return l
}

// fileName keeps of a name what every file system takes.
func fileName(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 60 {
			break
		}
	}
	if s := strings.Trim(b.String(), "-"); s != "" {
		return s
	}
	return "piece"
}
