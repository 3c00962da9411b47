package triangle

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

// Kind says what a measurement measures.
type Kind uint8

const (
	Distance Kind = iota // AB=2400: At[0] to At[1]
	Angle                // BAC=35deg: the angle at At[1] between At[0] and At[2]; A=35deg: At[1] alone
	Height               // C-AB=620: At[0] to the line At[1] At[2], square to it
)

// Measurement is one thing measured, as one token of text says it.
type Measurement struct {
	Kind  Kind
	At    [3]geom.Name
	Value unit.Reading
	Text  string // the whole token as written, for messages
	Where string // file:line:column where it came from a job file, else empty
}

const subjectHint = "a measurement is AB=2400, A=35deg, BAC=35deg or C-AB=620"

// ParseMeasurement reads one measurement: AB=2400 (a distance), A=35deg or
// BAC=35deg (an angle), C-AB=620 (a height), each with +- and a tolerance where
// there is one. A bare length counts the given unit, a bare angle degrees. The
// value is as unit.ParseLength and unit.ParseAngle give it. The error is a
// *unit.Fault.
func ParseMeasurement(token string, bare unit.Unit) (Measurement, error) {
	if f := unit.CheckText(token, "measurement"); f != nil {
		return Measurement{}, f
	}
	text := strings.TrimSpace(token)
	left, right, found := strings.Cut(text, "=")
	if !found {
		return Measurement{}, &unit.Fault{What: unit.Quote(text) + " is not a measurement: it has no =", Hint: subjectHint}
	}
	left, right = strings.TrimSpace(left), strings.TrimSpace(right)
	m, f := subject(left)
	if f != nil {
		if f.Hint == "" {
			f.Hint = subjectHint
		}
		return Measurement{}, f.In(oneLine(text))
	}
	m.Text = text
	var err error
	if m.Kind == Angle {
		m.Value, err = unit.ParseAngle(right)
	} else {
		m.Value, err = unit.ParseLength(right, bare)
	}
	if err != nil {
		return Measurement{}, wrongValue(err, m, right).In(oneLine(text))
	}
	return m, nil
}

// oneLine is the text itself, or quoted where it would break the line of a message.
func oneLine(text string) string {
	if strings.ContainsFunc(text, func(r rune) bool { return !strconv.IsPrint(r) }) {
		return unit.Quote(text)
	}
	return text
}

// wrongValue adds the hint that the left side may be what is wrong.
func wrongValue(err error, m Measurement, value string) *unit.Fault {
	var f *unit.Fault
	errors.As(err, &f)
	length, angle := unit.IsLength(value), unit.IsAngle(value)
	switch {
	case m.Kind == Angle && length && (!angle && !bareFraction(value) || f.Hint == ""):
		f.Hint = "one letter or three name an angle; a distance has two, such as AB=2400"
	case m.Kind != Angle && angle && !length:
		f.Hint = "an angle has one letter or three: A=35deg or BAC=35deg"
	}
	return f
}

// bareFraction says whether a value is a fraction without a unit: at an angle that is
// a slope badly written before it is a length.
func bareFraction(value string) bool {
	return strings.ContainsAny(value, "/½¼¾") && strings.Trim(value, "0123456789/½¼¾ ") == ""
}

// subject reads what stands left of the =.
func subject(left string) (Measurement, *unit.Fault) {
	if left == "" {
		return Measurement{}, &unit.Fault{What: "nothing stands before the ="}
	}
	wrong := func(what, hint string) (Measurement, *unit.Fault) {
		return Measurement{}, &unit.Fault{What: unit.Quote(left) + what, Hint: hint}
	}
	names, dash, ok := names(left)
	if !ok {
		if upper := strings.ToUpper(left); upper != left {
			if m, f := subject(upper); f == nil {
				return m, &unit.Fault{What: unit.Quote(left) + " has a small letter", Hint: "points have capital letters: write " + upper}
			}
		}
		return wrong(" names no points", "a point is a capital letter from A to Z, perhaps with a number behind it; "+subjectHint)
	}
	for i, n := range names {
		if slices.Contains(names[:i], n) {
			return wrong(" names "+string(n)+" twice", "")
		}
	}
	switch {
	case dash == 1 && len(names) == 3:
		return Measurement{Kind: Height, At: [3]geom.Name(names)}, nil
	case dash == 2 && len(names) == 3:
		return wrong(" is no height", fmt.Sprintf("write the corner before its base: %s-%s%s", names[2], names[0], names[1]))
	case dash == 1 && len(names) == 2:
		return wrong(" is neither a distance nor a height", fmt.Sprintf("a distance is written %s%s, a height C-AB", names[0], names[1]))
	case dash != 0:
		return wrong(" is no height", "a height goes from one corner to the line of two others: C-AB=620")
	case len(names) == 1:
		return Measurement{Kind: Angle, At: [3]geom.Name{1: names[0]}}, nil
	case len(names) == 2:
		return Measurement{Kind: Distance, At: [3]geom.Name{names[0], names[1]}}, nil
	case len(names) == 3:
		return Measurement{Kind: Angle, At: [3]geom.Name(names)}, nil
	}
	return wrong(fmt.Sprintf(" names %d points", len(names)), "a distance has two points, an angle one or three, a height three: C-AB")
}

// A point is a capital letter, perhaps with a number of up to three digits behind it.
var (
	pointForm  = regexp.MustCompile(`[A-Z](?:0|[1-9][0-9]{0,2})?`)
	pointsForm = regexp.MustCompile(`^(?:` + pointForm.String() + `)+$`)
	hyphens    = strings.NewReplacer("\u2010", "-", "\u2011", "-", "\u2013", "-", "\u2212", "-")
)

// names parts KL2-M into its points; dash is how many of them stand before the
// hyphen, 0 where there is none.
func names(text string) (points []geom.Name, dash int, ok bool) {
	parts := strings.SplitN(hyphens.Replace(text), "-", 3)
	if len(parts) > 2 {
		return nil, 0, false
	}
	for _, part := range parts {
		if !pointsForm.MatchString(part) {
			return nil, 0, false
		}
		dash = len(points)
		for _, n := range pointForm.FindAllString(part, -1) {
			points = append(points, geom.Name(n))
		}
	}
	return points, dash, true
}

// Subject is what is measured, as it is written left of the =: AB, A, BAC, C-AB.
func (m Measurement) Subject() string {
	if m.Kind == Height {
		return string(m.At[0] + "-" + m.At[1] + m.At[2])
	}
	return string(m.At[0] + m.At[1] + m.At[2])
}

// Points are the points named, one to three of them, in the order written.
func (m Measurement) Points() []geom.Name {
	return slices.DeleteFunc(slices.Clone(m.At[:]), func(n geom.Name) bool { return n == "" })
}

// Same says whether both measure the same thing: AB and BA, BAC and CAB, C-AB
// and C-BA. An angle named by its corner alone is the same as any other at that
// corner, since it may be written so only where there is no other.
func (m Measurement) Same(o Measurement) bool {
	if m.Kind != o.Kind {
		return false
	}
	a, b := m.At, o.At
	switch m.Kind {
	case Distance:
		return a == b || a[0] == b[1] && a[1] == b[0]
	case Height:
		return a == b || a[0] == b[0] && a[1] == b[2] && a[2] == b[1]
	}
	alone := a[0] == "" || b[0] == ""
	return a[1] == b[1] && (alone || a == b || a[0] == b[2] && a[2] == b[0])
}
