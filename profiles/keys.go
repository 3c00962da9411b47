package profiles

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// key is one key of a profile and how its text is read into it.
type key[T any] struct {
	name string
	read func(to *T, text string) error
	of   func(*T) *unit.Length // of a length
}

// Limits of what a profile may say, in mm.
const (
	leastPaper unit.Length = 50
	mostPaper  unit.Length = 5080 // 14 400 units of PDF, the largest side that ISO 32000-1 annex C allows
	mostMargin unit.Length = 500
	// ISO 3098 begins at 1.8; figures under 2.5 are not read at a bench, and over 20
	// they leave no room.
	leastLettering, mostLettering unit.Length = 2.5, 20
	// Nobody reads a tape to less than a tenth of a millimetre, and who keeps no better
	// than 50 mm does not measure.
	leastReading, mostReading unit.Length = 0.1, 50
)

var (
	paperKeys = []key[Paper]{
		length("width", leastPaper, mostPaper, func(p *Paper) *unit.Length { return &p.Width }),
		length("height", leastPaper, mostPaper, func(p *Paper) *unit.Length { return &p.Height }),
	}
	printerKeys = []key[Printer]{
		length("left", 0, mostMargin, func(p *Printer) *unit.Length { return &p.Left }),
		length("top", 0, mostMargin, func(p *Printer) *unit.Length { return &p.Top }),
		length("right", 0, mostMargin, func(p *Printer) *unit.Length { return &p.Right }),
		length("bottom", 0, mostMargin, func(p *Printer) *unit.Length { return &p.Bottom }),
		length("overlap", 0, mostMargin, func(p *Printer) *unit.Length { return &p.Overlap }),
	}
	tradeKeys = []key[Trade]{
		{name: "unit", read: func(t *Trade, s string) (err error) {
			t.Unit, err = unit.ParseUnit(s)
			t.Figures.Unit = t.Unit
			return err
		}},
		{name: "fraction", read: func(t *Trade, s string) (err error) { t.Figures.Denominator, err = ParseFraction(s); return err }},
		{name: "angles", read: func(t *Trade, s string) (err error) { t.Figures.Minutes, err = ParseAngles(s); return err }},
		{name: "voice", read: func(t *Trade, s string) (err error) { t.Voice, err = ParseVoice(s); return err }},
		length("lettering", leastLettering, mostLettering, func(t *Trade) *unit.Length { return &t.Lettering }),
		{name: "show", read: func(t *Trade, s string) error {
			if t.Show == nil {
				t.Show = map[string]bool{}
			}
			t.Show[s] = true
			return oneOf(s, Shown())
		}},
		length("compass", 10, 100*unit.Metre, func(t *Trade) *unit.Length { return &t.Compass }),
		{name: "protractor", read: func(t *Trade, s string) (err error) { t.Protractor, err = angleBetween(s, 0.001, 45); return err }},
		// The stops of the mitre saws that are sold lie from 45° to 60°; a gauge of a
		// table saw reaches farther.
		{name: "saw", read: func(t *Trade, s string) (err error) { t.Saw, err = angleBetween(s, 15, 80); return err }},
		{name: "tape", read: func(t *Trade, s string) error { t.Tape = s; return oneOf(s, Classes()) }},
		{name: "hook", read: func(t *Trade, s string) error { t.Hook = s == "yes"; return oneOf(s, []string{"yes", "no"}) }},
		{name: "instrument", read: func(t *Trade, s string) error { t.Instrument = s; return oneOf(s, Instruments()) }},
		length("reading", leastReading, mostReading, func(t *Trade) *unit.Length { return &t.Reading }),
	}
)

// kind is a map of a file: the keys of each profile in it, and how the text of one is
// tried. Where a profile has no value, the lender's counts.
type kind struct {
	name, lender string
	keys         []string
	try          func(key, text string) error
}

var (
	papers   = kindOf("papers", "", paperKeys)
	printers = kindOf("printers", "office", printerKeys)
	trades   = kindOf("trades", "general", tradeKeys)
	kinds    = []kind{papers, printers, trades}
)

var defaultKeys = []string{"paper", "printer", "trade"}

func kindOf[T any](name, lender string, keys []key[T]) kind {
	k := kind{name: name, lender: lender}
	for _, key := range keys {
		k.keys = append(k.keys, key.name)
	}
	k.try = func(name, text string) error {
		var to T
		return keys[slices.Index(k.keys, name)].read(&to, text)
	}
	return k
}

// readAll reads what was said of a profile into it.
func readAll[T any](to *T, keys []key[T], said []Item) error {
	for _, k := range keys {
		for _, i := range said {
			if i.Key != k.name {
				continue
			}
			for _, text := range i.words() {
				if err := k.read(to, text); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// words of a value: those of a list, or the text as it stands.
func (i Item) words() []string {
	if i.Key == "show" {
		return strings.Fields(i.Text)
	}
	return []string{i.Text}
}

func faultOf(err error) *unit.Fault {
	bad := &unit.Fault{What: err.Error()}
	errors.As(err, &bad)
	return bad
}

// length is a key of a length with both limits allowed. It has its unit: a bare number is
// one thing to who counts millimetres and another to who counts inches.
func length[T any](name string, least, most unit.Length, of func(*T) *unit.Length) key[T] {
	return key[T]{name, func(to *T, text string) (err error) {
		const any = 1e9 * unit.Metre
		mm, errMM := unit.ParseSetting(text, unit.MM, 0, any)
		in, errIN := unit.ParseSetting(text, unit.IN, 0, any)
		if errMM == nil && errIN == nil && mm != in {
			return &unit.Fault{What: strict.Shorten(text) + " stands without its unit", Hint: fmt.Sprintf("write it with its unit, such as %s mm", strict.Shorten(text))}
		}
		*of(to), err = lengthBetween(text, least, most)
		return err
	}, of}
}

func lengthBetween(text string, least, most unit.Length) (unit.Length, error) {
	return unit.ParseSetting(text, unit.MM, least, most)
}

func oneOf(text string, known []string) error {
	if slices.Contains(known, text) {
		return nil
	}
	return &unit.Fault{What: fmt.Sprintf("%q is not known", strict.Shorten(text)), Hint: strict.Suggest(text, known)}
}

// Shown are the words that show may hold.
func Shown() []string { return []string{"arcs", "heights", "angles", "lengths", "steps", "settings"} }

// Classes are the accuracy classes of tapes (OIML R 35).
func Classes() []string { return []string{"I", "II", "III"} }

// Instruments are what angles are set out with; square is a 3-4-5 triangle of
// tape and string.
func Instruments() []string { return []string{"none", "square", "protractor", "theodolite"} }

// Voices are the places that words are said for.
func Voices() []string { return []string{"class", "bench", "floor", "ground"} }

// ParseVoice reads the place that words are said for. A *unit.Fault has no place yet.
func ParseVoice(text string) (string, error) {
	if slices.Contains(Voices(), text) {
		return text, nil
	}
	return "", &unit.Fault{What: fmt.Sprintf("%q is not a voice", strict.Shorten(text)), Hint: "write class, bench, floor or ground: the place where the words are read"}
}

// ParseFraction reads the finest fraction of an inch that is written: 1/16 or 16.
// A *unit.Fault has no place yet.
func ParseFraction(text string) (denominator int, err error) {
	for _, d := range []int{8, 16, 32, 64} {
		if t := strings.TrimPrefix(strings.ReplaceAll(text, " ", ""), "1/"); t == fmt.Sprint(d) {
			return d, nil
		}
	}
	return 0, &unit.Fault{What: fmt.Sprintf("%q is not a fraction of an inch", strict.Shorten(text)), Hint: "write 1/8, 1/16, 1/32 or 1/64"}
}

// ParseAngles reads how angles are written: decimal or minutes.
func ParseAngles(text string) (minutes bool, err error) {
	if err := oneOf(text, []string{"decimal", "minutes"}); err != nil {
		return false, err
	}
	return text == "minutes", nil
}

func angleBetween(text string, least, most float64) (unit.Angle, error) {
	r, err := unit.ParseAngle(text)
	if err != nil {
		return 0, err
	}
	degrees, _ := r.Value.Float64()
	if degrees < least || degrees > most {
		return 0, &unit.Fault{What: fmt.Sprintf("%q is not from %g° to %g°", strict.Shorten(text), least, most)}
	}
	return unit.Angle(degrees) * unit.Degree, nil
}

// ParseMargin reads a margin or an overlap, mm where no unit stands; 0 is allowed.
func ParseMargin(text string) (unit.Length, error) {
	return lengthBetween(text, 0, mostMargin)
}
