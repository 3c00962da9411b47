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

// instead says what would take fewer sheets of the piece that takes most, with the numbers
// that come out then; empty where nothing does.
func instead(t *layout) string {
	var with []string
	alone := ""
	for _, o := range t.otherwise() {
		if o.Of == "" {
			alone = o.Says(t.work.Says)
		} else {
			with = append(with, o.Says(t.work.Says))
		}
	}
	line := strings.Join(slices.DeleteFunc([]string{strings.Join(with, ", "), alone}, func(s string) bool { return s == "" }), "; ")
	if line == "" {
		return ""
	}
	most := largest(t)
	return fmt.Sprintf("%s takes fewer sheets than %d otherwise: %s", most.piece.Title(), len(most.plan.Cells), line)
}

// Otherwise is another way to make a piece that takes fewer sheets.
type Otherwise struct {
	Pages int
	Of    unit.Subject // what is said otherwise; empty: a setting-out sheet instead
	Value string
}

// manySheets is from how many sheets of one piece on it is worth to say what takes fewer.
const manySheets = 13

// largest is the piece that takes most sheets.
func largest(t *layout) laid {
	if len(t.laid) == 0 {
		return laid{}
	}
	return slices.MaxFunc(t.laid, func(a, b laid) int { return len(a.plan.Cells) - len(b.plan.Cells) })
}

// otherwise is what would take fewer sheets of that piece, looked for once.
func (t *layout) otherwise() (all []Otherwise) {
	most, w := largest(t), t.work
	n := len(most.plan.Cells)
	if n < manySheets {
		return nil
	}
	w.tell = nil
	with := func(s stock, of unit.Subject, value string) {
		if p, err := s.layPiece(most.piece, w.effortFor(most.index, allSteps)); err == nil && len(p.Cells) < n {
			all = append(all, Otherwise{len(p.Cells), of, value})
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
	if pages := setOutOn(w, most.piece); pages > 0 && pages < n {
		all = append(all, Otherwise{Pages: pages})
	}
	return all
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

// Says is that way in words.
func (o Otherwise) Says(s unit.Says) string {
	if o.Of == "" {
		return "a setting-out sheet takes " + lines.Plural(o.Pages, "page")
	}
	return fmt.Sprintf("%d with %s", o.Pages, s.Of(o.Of, o.Value, false))
}
