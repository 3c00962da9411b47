package unit

import (
	"math/big"
	"strings"
)

type number struct {
	value    *big.Rat
	step     *big.Rat // one of its last digit, or of its fraction: 0.1 for 2.4, 1/16 for 10 1/16
	whole    bool     // digits only: no decimals, no fraction
	fraction bool     // a fraction and nothing before it
	parts    bool     // it has a fraction
	hyphen   bool     // a hyphen joins its fraction to what stands before: 7-1/2
	why      string   // why it can be read in several ways, whatever it counts; empty: it cannot
	readings []string // what may be meant then

	mark, head, tail string // the decimal mark and the digits on both sides of it
}

// thousands says whether the mark may part thousands as well as decimals: one to
// three digits before it and exactly three behind it. Nothing is grouped behind a
// zero, nor behind four digits.
func (n number) thousands() bool {
	return n.mark != "" && len(n.tail) == 3 && len(n.head) >= 1 && len(n.head) <= 3 && n.head[0] != '0'
}

// half of the step: how far off the number may be when nothing else is said.
func (n number) half() *big.Rat { return new(big.Rat).Quo(n.step, big.NewRat(2, 1)) }

type scanner struct {
	text string
	at   int
}

func (s *scanner) done() bool   { return s.at >= len(s.text) }
func (s *scanner) rest() string { return s.text[s.at:] }

func (s *scanner) spaces() {
	s.at = len(s.text) - len(strings.TrimLeft(s.rest(), " "))
}

func (s *scanner) take(prefix string) bool {
	if strings.HasPrefix(s.rest(), prefix) {
		s.at += len(prefix)
		return true
	}
	return false
}

func (s *scanner) digits() string {
	from := s.at
	s.at = len(s.text) - len(strings.TrimLeft(s.rest(), "0123456789"))
	return s.text[from:s.at]
}

// word passes over a mark (' " ° % ‰ :) or over letters, and gives it in lower case.
func (s *scanner) word() string {
	for _, mark := range [...]string{"'", `"`, "°", "%", "‰", ":"} {
		if s.take(mark) {
			return mark
		}
	}
	from := s.at
	for !s.done() && (s.text[s.at] >= 0x80 || letter(s.text[s.at])) && !strings.HasPrefix(s.rest(), "°") {
		s.at++
	}
	return strings.ToLower(s.text[from:s.at])
}

func letter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// doubt is the fault of a number that can be read in several ways, with the unit
// that stands behind it; nil where there is one reading.
func (n number) doubt(unit string) *Fault {
	if n.why == "" {
		return nil
	}
	hint := "write " + strings.Join(n.readings, unit+", or ") + unit
	if n.mark != "" {
		hint += " with a decimal point"
	}
	return &Fault{What: n.why, Hint: hint}
}

// sure is number, with a fault where it can be read in several ways.
func (s *scanner) sure() (n number, ok bool, f *Fault) {
	n, ok, f = s.number()
	if f = or(f, n.doubt("")); f != nil {
		return n, false, f
	}
	return n, ok, nil
}

func or(f, g *Fault) *Fault {
	if f != nil {
		return f
	}
	return g
}

// number reads digits with a decimal point or comma, or a fraction, or a whole
// number and a fraction (10 1/2, 10-1/2). ok is false where there is none; a
// fault where there is one that cannot be meant.
func (s *scanner) number() (n number, ok bool, _ *Fault) {
	start := s.at
	head := s.grouped()
	if s.take("/") {
		return s.fraction(head, number{fraction: true, value: new(big.Rat)})
	}
	var mark, tail string
	for _, m := range [...]string{".", ","} {
		if s.take(m) {
			mark, tail = m, s.digits()
			break
		}
	}
	if head == "" && tail == "" || mark != "" && tail == "" {
		return n, false, nil
	}
	if mark != "" && !s.done() && (s.text[s.at] == '.' || s.text[s.at] == ',') {
		return n, false, s.twoMarks(start)
	}
	n = decimal(head, tail)
	n.mark, n.head, n.tail = mark, head, tail
	if mark != "" {
		if mark == "," && n.thousands() {
			n.why = Quote(s.text[start:s.at]) + " can be read in two ways: the comma may part thousands"
			n.readings = []string{head + tail, head + "." + tail}
		}
		return n, true, nil
	}
	n.whole = true
	// A fraction behind: blanks or a hyphen, then digits and a stroke.
	here := *s
	if n.hyphen = s.take("-"); !n.hyphen {
		s.spaces()
	}
	if top := s.digits(); s.at > here.at && top != "" && s.take("/") {
		return s.fraction(top, n)
	}
	*s, n.hyphen = here, false
	return n, true, nil
}

// grouped reads the digits before a decimal mark, where a blank may part
// them in threes (12 345, as ISO 80000-1 §7.3.1 writes them; from memory).
func (s *scanner) grouped() string {
	head := s.digits()
	if len(head) < 1 || len(head) > 3 || head[0] == '0' {
		return head
	}
	for {
		here := s.at
		if !s.take(" ") {
			return head
		}
		three := s.digits()
		if len(three) != 3 || strings.HasPrefix(s.rest(), "/") {
			s.at = here
			return head
		}
		head += three
	}
}

// fraction reads what is below the stroke and adds top over it to n.
func (s *scanner) fraction(top string, n number) (number, bool, *Fault) {
	bottom := s.digits()
	if top == "" || bottom == "" {
		return n, false, nil
	}
	over, under := integer(top), integer(bottom)
	written := Quote(top + "/" + bottom)
	if under.Sign() == 0 {
		return n, false, &Fault{What: written + " divides by zero"}
	}
	if n.fraction && over.Cmp(under) > 0 {
		n.why = written + " has a top above its bottom: a blank may be missing"
		n.readings = topHeavy(top, bottom)
	}
	if !n.fraction && over.Cmp(under) >= 0 {
		return n, false, &Fault{What: written + " behind a whole number is not less than 1",
			Hint: "write a whole number and a proper fraction, such as 10 1/2"}
	}
	n.value.Add(n.value, new(big.Rat).SetFrac(over, under))
	n.step = new(big.Rat).SetFrac(big.NewInt(1), under)
	n.whole, n.parts = false, true
	return n, true, nil
}

// topHeavy are the readings of 93/4, in which a blank may be missing: 23 1/4, 9 3/4.
func topHeavy(top, bottom string) []string {
	under := integer(bottom)
	whole, left := new(big.Int).QuoRem(integer(top), under, new(big.Int))
	readings := []string{whole.String()}
	if left.Sign() > 0 {
		readings[0] += " " + left.String() + "/" + under.String()
	}
	for i := 1; i < len(top); i++ {
		if top[0] != '0' && top[i] != '0' && integer(top[i:]).Cmp(under) < 0 {
			readings = append(readings, top[:i]+" "+top[i:]+"/"+bottom)
		}
	}
	return readings
}

// twoMarks is the fault of 2.400,5 and 1.234.567.
func (s *scanner) twoMarks(start int) *Fault {
	text := s.text[start : len(s.text)-len(strings.TrimLeft(s.rest(), "0123456789.,"))]
	last := strings.LastIndexAny(text, ".,")
	head, tail := strings.NewReplacer(".", "", ",", "").Replace(text[:last]), text[last+1:]
	hint := "write one decimal mark and nothing between the thousands"
	// Of 1.234.567 the mark parts thousands, if anything.
	if strings.Count(text, text[last:last+1]) == 1 && head != "" && tail != "" {
		hint += ": " + head + "." + tail
	}
	return &Fault{What: Quote(text) + " has two decimal marks", Hint: hint}
}

// bareDoubt is the fault of a number without a unit that can be read in two ways
// where it counts the given one; nil where there is one reading. text is the
// number as it stands there.
func bareDoubt(n number, text string, bare Unit) *Fault {
	text = strings.TrimSpace(text)
	switch {
	case n.thousands() && bare <= CM:
		mark := map[string]string{".": "point", ",": "comma"}[n.mark]
		return &Fault{What: Quote(text) + " can be read in two ways: the " + mark + " may part thousands",
			Hint: "write " + n.head + n.tail + ", or " + shortest(n, bare)}
	case n.parts && n.why == "" && bare == MM:
		hint := "write " + text + "in for inches"
		if decimals, exact := n.value.FloatPrec(); exact {
			hint += ", or " + n.value.FloatString(decimals) + "mm"
		}
		return &Fault{What: Quote(text) + " is a fraction without a unit, where a bare number counts mm: inches are written so", Hint: hint}
	case n.parts && n.hyphen && bare == FT:
		whole, part, _ := strings.Cut(text, "-")
		return &Fault{What: Quote(text) + " can be read in two ways: the fraction may be of a foot or of an inch",
			Hint: "write " + whole + " " + part + ", or " + whole + "'-0 " + part + `"`}
	}
	return nil
}

// shortest is a decimal number as it is read in one way: without the zeros at its
// end, or with its unit.
func shortest(n number, bare Unit) string {
	if tail := strings.TrimRight(n.tail, "0"); len(tail) == 0 {
		return n.head
	} else if len(tail) < len(n.tail) {
		return n.head + "." + tail
	}
	return n.head + "." + n.tail + bare.String()
}

func decimal(head, tail string) number {
	ten := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(tail))), nil)
	return number{
		value: new(big.Rat).SetFrac(integer(head+tail), ten),
		step:  new(big.Rat).SetFrac(big.NewInt(1), ten),
	}
}

// integer reads decimal digits, of which there may be none.
func integer(digits string) *big.Int {
	n, _ := new(big.Int).SetString("0"+digits, 10)
	return n
}
