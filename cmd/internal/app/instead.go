package app

import (
	"fmt"
	"slices"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/cmd/internal/solved"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// manySheets is from how many sheets of one piece on it is worth to say what takes fewer.
const manySheets = 13

// instead says what would take fewer sheets of the piece that takes most, with the numbers
// that come out then; empty where nothing does.
func instead(t *layout) string {
	if len(t.laid) == 0 {
		return ""
	}
	most := slices.MaxFunc(t.laid, func(a, b laid) int { return len(a.plan.Cells) - len(b.plan.Cells) })
	n := len(most.plan.Cells)
	if n < manySheets {
		return ""
	}
	w := t.work
	w.tell = nil
	var say []string
	with := func(s stock, of unit.Subject, value string) {
		if p, err := s.layPiece(most.piece, w.effortFor(most.index, allSteps)); err == nil && len(p.Cells) < n {
			say = append(say, fmt.Sprintf("%d with %s", len(p.Cells), w.Says.Of(of, value, false)))
		}
	}
	if s := w.stock; s.Cover == paging.Full {
		s.Cover = paging.OutlineOnly
		with(s, unit.Cover, "outline")
	}
	if s := w.stock; !s.roll {
		s.roll, s.Cover = true, paging.Full
		s.Name, s.Width, s.Height = w.Roll.Name, w.Roll.Width, w.Roll.Height
		with(s, unit.Paper, s.Name)
	}
	line := strings.Join(say, ", ")
	if pages := setOutOn(w, most.piece); pages > 0 && pages < n {
		if line != "" {
			line += "; "
		}
		line += "a setting-out sheet takes " + lines.Plural(pages, "page")
	}
	if line == "" {
		return ""
	}
	return fmt.Sprintf("%s takes fewer sheets than %d otherwise: %s", most.piece.Title(), n, line)
}

// setOutOn is how many pages the setting-out sheet of a piece has; 0 where there is none.
func setOutOn(w Work, p solved.Piece) int {
	w.Pieces = []solved.Piece{p}
	s, err := w.setout()
	if err != nil || s.lay() != nil {
		return 0
	}
	return len(s.pages)
}
