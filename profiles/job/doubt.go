package job

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/profiles"
	"trammel/profiles/strict"
)

// What a bare number counts is doubtful where neither the job nor a flag says it and
// lengths beside it name another unit: 12 among 12in. It is refused with its readings.

// unsaid is a length that names a unit where nobody said what bare numbers count.
type unsaid struct {
	token string    // as written: AB=12in
	bare  unit.Unit // counted by default
	units []unit.Unit
	file  bool // a job file may say the unit
}

// unsaidUnit finds the first such length; ok is false where no doubt can be.
func (w Merged) unsaidUnit(ms []triangle.Measurement) (u unsaid, ok bool) {
	if w.unitSaid {
		return u, false
	}
	u.bare, u.file = w.Bare, w.Job.Raw != nil
	for _, m := range ms {
		if m.Kind == triangle.Angle || m.Value.Bare || m.Value.Unit == w.Bare && !m.Value.Feet {
			continue
		}
		u.token, u.units = m.Text, []unit.Unit{w.Bare, m.Value.Unit}
		if m.Value.Feet {
			u.units = []unit.Unit{w.Bare, unit.IN, unit.FT}
		}
		slices.Sort(u.units)
		u.units = slices.Compact(u.units)
		return u, true
	}
	return u, false
}

// imperial says whether that unit is the inch or the foot. Beside a metre a bare
// number of a saw's width or of a mark is millimetres: a thousand times that is none.
func (u unsaid) imperial() bool { return u.units[len(u.units)-1] >= unit.IN }

// may says whether a bare length would be one in that unit as well: 3500 beside 6m
// are no metres.
func (u unsaid) may(m triangle.Measurement, k unit.Unit) bool {
	return m.Value.Length()/u.bare.Length()*k.Length() <= unit.Longest
}

// fault of a bare number: before is what stands before it when it is written again.
func (u unsaid) fault(before, number string) *unit.Fault {
	var all []string
	for _, k := range u.units {
		all = append(all, before+number+k.String())
	}
	last := len(all) - 1
	return &unit.Fault{What: "has no unit, and " + u.token + " has one",
		Advice: unit.Advice{Code: unit.NotOneUnit, Names: []string{strings.Join(all[:last], ", "), all[last]}, Figure: u.bare.String(), InFile: u.file}}
}

// ReadBack reads what was measured of a piece later, beside what was asked of it.
func (w Merged) ReadBack(tokens []Setting, asked []triangle.Measurement) ([]triangle.Measurement, error) {
	ms, err := readTokens(tokens, w.Bare)
	if err == nil {
		err = w.mixed(ms, asked)
	}
	return ms, err
}

// measured reads what was measured of a piece and refuses it where a bare number in
// the piece is doubtful.
func (w Merged) measured(p Piece) ([]triangle.Measurement, error) {
	ms, err := w.ReadBack(p.Measure, nil)
	if err == nil {
		err = w.mixedShape(p.Shape, ms)
	}
	return ms, err
}

// mixed refuses a bare length among lengths that name another unit.
func (w Merged) mixed(ms, beside []triangle.Measurement) error {
	u, ok := w.unsaidUnit(append(slices.Clone(ms), beside...))
	if !ok {
		return nil
	}
	for _, m := range ms {
		if m.Kind != triangle.Angle && m.Value.Bare && slices.ContainsFunc(u.units, func(k unit.Unit) bool { return k != u.bare && u.may(m, k) }) {
			u.units = slices.DeleteFunc(u.units, func(k unit.Unit) bool { return !u.may(m, k) })
			return unit.Placed(u.fault(m.Subject()+"=", m.Value.Text).In(m.Text), m.Where)
		}
	}
	return nil
}

// mixedShape is mixed of what is done to a piece beyond its outline. A token whose
// meaning depends on what a bare number counts holds one.
func (w Merged) mixedShape(s Shape, ms []triangle.Measurement) error {
	u, ok := w.unsaidUnit(ms)
	if !ok || !u.imperial() {
		return nil
	}
	for _, t := range slices.Concat(s.Edges, s.Corners, s.Holes) {
		one := []Setting{t}
		for _, s := range []Shape{{Edges: one}, {Corners: one}, {Holes: one}} {
			bare, err := s.Work(w.Bare)
			other, otherErr := s.Work(u.units[len(u.units)-1])
			if err == nil && otherErr == nil && !reflect.DeepEqual(bare, other) {
				f := u.fault("", "3")
				f.What, f.Code = "holds a number without a unit, and "+u.token+" has one", unit.NotOneUnitEach
				return unit.Placed(f.In(t.Text), t.Where)
			}
		}
	}
	return nil
}

// mixedSettings is mixed of the words that count lengths beside the pieces: of the
// site, margin and overlap.
func (w Merged) mixedSettings(flags, o Overrides, ms []triangle.Measurement) error {
	// A flag's number beside --unit in, over a job that counts mm.
	if other := w.Figures.Unit; flags.Unit.Text != "" && other != w.Bare {
		for _, key := range siteLengths {
			if part := barePart(key, o.Site[key].Text); part != "" {
				f := &unit.Fault{What: unit.Quote(part) + " could be " + w.Bare.String() + ", as in the job, or " + other.String(), Hint: "write " + part + w.Bare.String() + " or " + part + other.String()}
				return unit.Placed(f, o.Site[key].Where)
			}
		}
	}
	u, ok := w.unsaidUnit(ms)
	if !ok || !u.imperial() {
		return nil
	}
	for _, key := range siteLengths {
		t, flag := o.Site[key]
		if !flag {
			t = w.Job.Site[key]
		}
		if part := barePart(key, t.Text); part != "" {
			f := u.fault("", part)
			f.What = unit.Quote(part) + " " + f.What
			if !flag {
				f.Subject, f.Of = unit.Site, key
			}
			return unit.Placed(f, t.Where)
		}
	}
	for _, t := range []Setting{flags.Margin, flags.Overlap} {
		for _, k := range u.units {
			if k == unit.MM || !bareLength(t.Text) {
				continue
			}
			if _, err := profiles.ParseMargin(t.Text + k.String()); err == nil {
				return unit.Placed(marginDoubt(t.Text, k), t.Where)
			}
		}
	}
	return nil
}

// siteLengths are the words of a site that are lengths in what bare numbers count.
var siteLengths = []string{"every", "boards", "origin", "span", "reading", "tape_says", "tape_is"}

// barePart is the first bare length of a site's word, empty where there is none.
func barePart(key, text string) string {
	parts := []string{text}
	if key == "origin" {
		parts = strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' })
	}
	for _, p := range parts {
		if p = strings.TrimSpace(p); bareLength(p) {
			return p
		}
	}
	return ""
}

// marginDoubt is the fault of a bare margin or overlap where bare numbers count, or
// may count, something else than mm.
func marginDoubt(text string, other unit.Unit) *unit.Fault {
	text = strings.TrimSpace(text)
	return &unit.Fault{What: unit.Quote(text) + " could be mm, as paper is measured, or " + other.String(), Hint: "write " + text + "mm or " + text + other.String()}
}

// margin reads a margin or an overlap, where it was said, for edges of the paper. A bare
// number counts mm; where bare numbers count something else it has two readings and is
// refused. Nothing is 0 of any unit.
func (w Merged) margin(t Setting, edges map[string]*unit.Length) error {
	if t.Text == "" {
		return nil
	}
	for _, u := range []unit.Unit{w.Bare, w.Figures.Unit} {
		if u != unit.MM && bareLength(t.Text) {
			return unit.Placed(marginDoubt(t.Text, u), t.Where)
		}
	}
	for key, to := range edges {
		if err := decide(to, profiles.ParseMargin, t); err != nil {
			return err
		}
		w.Printer.From[key] = t.Where
	}
	return nil
}

// bareLength says whether a text is a length without a unit, and more than nothing.
func bareLength(text string) bool {
	return unit.IsBare(text) && strings.Trim(text, "0., ") != ""
}

// ReadAs says how a measurement was read that may have been meant otherwise, and
// whether the lengths of a piece look like another unit's.
func (w Merged) ReadAs(ms []triangle.Measurement) []string {
	var all []string
	for _, m := range ms {
		if m.Value.Read != "" {
			all = append(all, m.Text+" is read as "+m.Value.Read)
		}
	}
	// A piece of metres is said in one or two digits; one of millimetres hardly ever.
	const small = 20 * unit.Millimetre
	example := ""
	for _, m := range ms {
		if m.Kind == triangle.Angle {
			continue
		}
		if w.Bare != unit.MM || !m.Value.Bare || m.Value.Length() >= small {
			return all
		}
		if example == "" {
			example = m.Subject() + "=" + m.Value.Text + "m"
		}
	}
	if example == "" {
		return all
	}
	return append(all, fmt.Sprintf("every length is under 20 mm: if metres were meant, write %s, or %s for all", example, w.Says.Of(unit.Scale, "m", w.Job.Raw != nil)))
}

func readTokens(tokens []Setting, bare unit.Unit) ([]triangle.Measurement, error) {
	ms := make([]triangle.Measurement, 0, len(tokens))
	for _, t := range tokens {
		if strings.Count(t.Text, "=") > 1 && strings.ContainsAny(t.Text, " ;") {
			return nil, &unit.Fault{
				Where: strings.TrimPrefix(t.Where+": "+strict.Shorten(t.Text), ": "), What: "holds more than one measurement",
				Advice: unit.Advice{Code: unit.ManyInOne},
			}
		}
		m, err := triangle.ParseMeasurement(t.Text, bare)
		if err != nil {
			return nil, unit.Placed(err, t.Where)
		}
		m.Where = t.Where
		ms = append(ms, m)
	}
	return ms, nil
}

// imperial says whether every length is written in feet or inches, and which of
// them figures are to be in: feet where any was.
func imperial(ms []triangle.Measurement) (unit.Unit, bool) {
	u, found := unit.IN, false
	for _, m := range ms {
		if m.Kind == triangle.Angle {
			continue
		}
		if m.Value.Unit < unit.IN {
			return 0, false
		}
		found = true
		if m.Value.Unit == unit.FT || strings.ContainsAny(m.Value.Text, "fF'′’") {
			u = unit.FT
		}
	}
	return u, found
}
