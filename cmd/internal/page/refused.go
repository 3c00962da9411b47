package page

import (
	"errors"
	"strconv"
	"strings"

	"trammel/cmd/internal/solved"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// fault is an error as the page is told it.
func (q question) fault(err error) *Fault {
	f := &Fault{Kind: Broken, What: err.Error()}
	where := ""
	var piece *solved.PieceError
	if errors.As(err, &piece) {
		where = piece.Where
	}
	var none *triangle.NoTriangle
	var bad *unit.Fault
	switch {
	case errors.As(err, &none):
		f.Kind, f.What, f.Hint, f.Of = kindOf(none.Code), none.What, hinted(none.Subject, none.Advice, none.Hint), string(none.Subject)
	case errors.As(err, &bad):
		where = bad.Where
		var rest string
		where, rest = splitPlace(q, where)
		f.Kind = Words
		if bad.Code == unit.Wanting {
			f.Kind = Missing
		}
		f.What, f.Hint, f.Of = unit.InLine(rest, bad.About(), bad.What), hinted(bad.Subject, bad.Advice, bad.Hint), string(bad.Subject)
	default:
		return f
	}
	if at, _ := splitPlace(q, where); at != "" {
		f.Where = pointerOf(q, at)
	}
	f.Piece = pieceOf(f.Where)
	if f.Where == "" {
		f.Where = keyOf(f.Of, f.Piece)
	}
	return f
}

// kindOf is the kind of fault that a code is of.
func kindOf(c unit.Code) string {
	switch c {
	case unit.TwoFit, unit.WaysFit, unit.WaysFitLine:
		return Many
	case unit.Wanting:
		return Missing
	case unit.AllButCertain:
		return Slip
	}
	return None
}

// split is a place in two: file:line:column or ask:/key, and what stands behind it.
func splitPlace(q question, where string) (at, rest string) {
	if strings.HasPrefix(where, "ask:") {
		at, rest, _ = strings.Cut(where, " ")
		at, more, _ := cutLast(at)
		return at, strings.TrimSpace(more + rest)
	}
	if where == q.jobFile() && q.Do != "open" { // of all of it
		return "", ""
	}
	name := q.jobFile() + ":"
	tail, ok := strings.CutPrefix(where, name)
	if !ok {
		return "", where
	}
	parts := strings.SplitN(tail, ":", 3)
	if len(parts) < 2 {
		return "", where
	}
	at = name + parts[0] + ":" + parts[1]
	if len(parts) == 3 {
		rest = strings.TrimSpace(parts[2])
	}
	return at, rest
}

// cutLast takes a colon from the end of a place in the ask.
func cutLast(at string) (place, rest string, ok bool) {
	place, ok = strings.CutSuffix(at, ":")
	return place, "", ok
}

// pointer is a place as the page knows it.
func pointerOf(q question, at string) string {
	if strings.HasPrefix(at, "ask:") {
		return strings.TrimPrefix(at, "ask:/job")
	}
	at = strings.TrimPrefix(at, q.jobFile()+":")
	if q.Do == "open" {
		return at
	}
	parts := strings.Split(at, ":")
	line, err1 := strconv.Atoi(parts[0])
	column, err2 := strconv.Atoi(parts[len(parts)-1])
	if err1 != nil || err2 != nil {
		return ""
	}
	return pointerAt(q.Job, line, column)
}

// pieceOf is the piece that a pointer leads into, nil for none.
func pieceOf(pointer string) *int {
	parts := strings.Split(pointer, "/")
	if len(parts) < 3 || parts[1] != "pieces" {
		return nil
	}
	n, err := strconv.Atoi(parts[2])
	if err != nil {
		return nil
	}
	return &n
}

// keyOf is where in a job the thing stands that a fault without a place is about.
func keyOf(of string, piece *int) string {
	s := unit.Subject(of)
	switch s {
	case unit.Paper, unit.Printer, unit.Scale:
		return "/" + of
	case unit.Cover, unit.Lying:
		return "/made_with/" + of
	case unit.Base, unit.Outline, unit.SideOf, unit.Pick, unit.Way, unit.Levels:
		if piece != nil {
			return "/pieces/" + strconv.Itoa(*piece) + "/" + of
		}
	}
	return ""
}
