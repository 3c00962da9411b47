package profiles

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Calibration is what is known of a printer from sheets that it printed and
// somebody measured.
type Calibration struct {
	Printer       string
	Paper         string
	Width, Height unit.Length // of the paper as it was printed on
	Found         Misprint
	Uncertainty   float64       // what every length stays within once corrected, on 95 of 100 pages, of the length
	OfRule        float64       // what the rule may be wrong by has in that; 0 where nobody reckoned with it
	Edges         *Edges        // nil where nobody read them
	Sheets        []SheetRecord // in the order in which they were read
	From          string        // where it was read; empty for a new one
}

// Misprint is what a printer does to a page: how much too long lines across and
// along come out, of their length, and how much more than a right angle they make
// at the lower left corner.
type Misprint struct {
	Across, Along float64
	Skew          unit.Angle
}

// Edges is how much of each edge of the paper stays white.
type Edges struct{ Left, Top, Right, Bottom unit.Length }

// SheetRecord is one sheet that was measured.
type SheetRecord struct {
	Date           string      // on which it was read
	Width, Height  unit.Length // of its rectangle
	Corrected      Misprint    // what the sheet was corrected for: none on a first one
	Fine           bool        // read by the ticks at the corners
	Tool           RuleSaid    // what it was read with
	AB, AD, AC, BD unit.Length // as found
}

// RuleSaid is what somebody said of the rule and of the reading.
type RuleSaid struct {
	Rule    string // I, II or III, as stamped on it, or a length: what it is wrong by at most; empty where it was not said
	Reading string // a length: how closely it was read; empty where it was not said
}

// Limits of what is said of a rule and of reading.
const (
	mostWrong = 5 * unit.Millimetre
	mostNoise = 1 * unit.Millimetre
)

// ParseRule reads what is said of a rule: its class, or a length that it is wrong by at most.
func ParseRule(text string) (class string, wrong unit.Length, err error) {
	if c := strings.ToUpper(strings.TrimSpace(text)); slices.Contains(Classes(), c) {
		return c, 0, nil
	}
	if wrong, err = lengthBetween(text, 0, mostWrong); err != nil {
		return "", 0, &unit.Fault{What: fmt.Sprintf("%q says nothing of a rule", strict.Shorten(text)), Hint: "the class that is stamped on it, I, II or III; or what it is wrong by at most, such as 0.05mm"}
	}
	return "", wrong, nil
}

// ParseReading reads how closely lengths were read.
func ParseReading(text string) (unit.Length, error) { return lengthBetween(text, 0, mostNoise) }

// Limits of a calibration. Beyond them the page was not printed at its size, and no
// printer that works is so far out (judgement; office printers are within 0.5 %).
const (
	MostStretch = 0.03
	MostSkew    = 1 * unit.Degree
)

// MostSheets is how many sheets of a printer are kept.
const MostSheets = 6

// PrinterID is the name under which a printer's calibration is kept: small
// letters, a hyphen for a space. A *unit.Fault says that it cannot be a name.
func PrinterID(name string) (string, error) {
	i := id(name)
	if !profileName.MatchString(i) {
		return "", &unit.Fault{What: fmt.Sprintf("%q cannot be the name of a printer", strict.Shorten(name)), Hint: "begin with a letter; go on with letters, digits and hyphens, 40 at most"}
	}
	return i, nil
}

// Text is the calibration as a file. Scales are rounded to 1e-9 and the skew to
// 1e-7°: the far corner of the longest page moves by 0.00001 mm.
func (c Calibration) Text() []byte {
	var b bytes.Buffer
	number := func(v float64, places int) string {
		if v = math.Round(v*math.Pow10(places)) / math.Pow10(places); v == 0 {
			v = 0 // never minus nothing
		}
		return strconv.Quote(strconv.FormatFloat(v, 'f', -1, 64))
	}
	misprint := func(m Misprint, gap string) string {
		return "across: " + number(m.Across, 9) + gap + "along: " + number(m.Along, 9) + gap + "skew: " + number(m.Skew.Degrees(), 7)
	}
	fmt.Fprintf(&b, "# Written by trammel calibrate; take the file away to forget the calibration.\n"+
		"# across and along: too long by so much of the length; skew: degrees over a right angle.\n"+
		"printer: %q\npaper: %q\nwidth: %s\nheight: %s\n%s\nuncertainty: %s\n",
		c.Printer, c.Paper, exact(c.Width), exact(c.Height), misprint(c.Found, "\n"), number(c.Uncertainty, 7))
	if c.OfRule > 0 {
		fmt.Fprintf(&b, "of the rule: %s\n", number(c.OfRule, 7))
	}
	if e := c.Edges; e != nil {
		fmt.Fprintf(&b, "edges: {left: %s, top: %s, right: %s, bottom: %s}\n", exact(e.Left), exact(e.Top), exact(e.Right), exact(e.Bottom))
	}
	b.WriteString("sheets: # as read, mm\n")
	for _, s := range c.Sheets {
		read := "eye"
		if s.Fine {
			read = "ticks"
		}
		fmt.Fprintf(&b, "  - {date: %q, width: %s, height: %s, corrected: {%s}, read: %s,\n     AB: %s, AD: %s, AC: %s, BD: %s%s}\n",
			s.Date, exact(s.Width), exact(s.Height), misprint(s.Corrected, ", "), read, exact(s.AB), exact(s.AD), exact(s.AC), exact(s.BD), s.Tool.text())
	}
	return b.Bytes()
}

// text of what was said, as the end of a sheet's entry.
func (r RuleSaid) text() string {
	say := ""
	for _, s := range [][2]string{{"rule", r.Rule}, {"reading", r.Reading}} {
		if s[1] != "" {
			say += fmt.Sprintf(", %s: %q", s[0], s[1])
		}
	}
	return say
}

// ReadCalibration reads such a file. The errors are *unit.Fault with file, line
// and column.
func ReadCalibration(file string, data []byte) (Calibration, error) {
	c := Calibration{From: file}
	root, err := strict.Parse(file, data)
	if err != nil {
		return c, err
	}
	r := calibrationReader{}
	fields := r.fields(root, "the calibration", "printer", "paper", "width", "height", "across", "along", "skew", "uncertainty", "of the rule", "edges", "sheets")
	c.Printer, c.Paper = r.text(fields, "printer"), r.text(fields, "paper")
	c.Width, c.Height = r.length(fields, "width", leastPaper, mostPaper), r.length(fields, "height", leastPaper, mostPaper)
	c.Found = r.misprint(fields)
	c.Uncertainty = r.number(fields, "uncertainty", 0, 1)
	if _, ok := fields["of the rule"]; ok {
		c.OfRule = r.number(fields, "of the rule", 0, 1)
	}
	if v, ok := fields["edges"]; ok {
		e := r.fields(v, "edges", "left", "top", "right", "bottom")
		edge := func(name string) unit.Length { return r.length(e, name, 0, mostMargin) }
		c.Edges = &Edges{edge("left"), edge("top"), edge("right"), edge("bottom")}
	}
	r.at = root
	c.Sheets = r.sheets(fields)
	if r.err == nil {
		_, err := PrinterID(c.Printer)
		r.fail(fields["printer"], err)
	}
	return c, r.err
}

func (r *calibrationReader) sheets(of map[string]strict.Value) (all []SheetRecord) {
	at, list := r.at, false
	var each []strict.Value
	if v, ok := of["sheets"]; ok {
		at = v
		each, list = v.Items()
	}
	if r.err == nil && (!list || len(each) == 0 || len(each) > MostSheets) {
		r.err = at.Fault(fmt.Sprintf("sheets is not a list of 1 to %d sheets", MostSheets), restart)
	}
	for _, v := range each {
		f := r.fields(v, "a sheet", "date", "width", "height", "corrected", "read", "AB", "AD", "AC", "BD", "rule", "reading")
		s := SheetRecord{Date: r.text(f, "date"), Width: r.length(f, "width", 1, mostPaper), Height: r.length(f, "height", 1, mostPaper)}
		switch read := r.text(f, "read"); {
		case read == "ticks":
			s.Fine = true
		case r.err == nil && read != "eye":
			r.err = f["read"].Fault(fmt.Sprintf("read: %q is not known", strict.Shorten(read)), "known: eye, ticks")
		}
		line := func(name string) unit.Length { return r.length(f, name, 1, 2*mostPaper) }
		s.AB, s.AD, s.AC, s.BD = line("AB"), line("AD"), line("AC"), line("BD")
		if v, ok := f["corrected"]; ok {
			s.Corrected = r.misprint(r.fields(v, "corrected", "across", "along", "skew"))
		}
		s.Tool.Rule = r.optional(f, "rule", func(t string) error { _, _, err := ParseRule(t); return err })
		s.Tool.Reading = r.optional(f, "reading", func(t string) error { _, err := ParseReading(t); return err })
		all = append(all, s)
	}
	return all
}

// optional is a text that may not be there, tried.
func (r *calibrationReader) optional(of map[string]strict.Value, name string, try func(string) error) string {
	v, ok := of[name]
	if !ok {
		return ""
	}
	text := r.text(of, name)
	if r.err == nil {
		r.fail(v, try(text))
	}
	return text
}

const restart = "take the file away and calibrate again"

// calibrationReader reads values until the first that is wrong.
type calibrationReader struct {
	at  strict.Value // of the map whose keys are being read
	err error
}

func (r *calibrationReader) fields(v strict.Value, what string, known ...string) map[string]strict.Value {
	all := map[string]strict.Value{}
	if r.err != nil {
		return all
	}
	r.at = v
	list, err := v.Fields(what, known...)
	r.err = err
	for _, f := range list {
		all[f.Key] = f.Value
	}
	return all
}

// fail is the fault in an error, if there is one, at a value.
func (r *calibrationReader) fail(v strict.Value, err error) {
	if err != nil {
		bad := faultOf(err)
		r.err = v.Fault(bad.What, bad.Hint)
	}
}

func (r *calibrationReader) text(of map[string]strict.Value, name string) string {
	if r.err != nil {
		return ""
	}
	v, ok := of[name]
	if !ok {
		r.err = r.at.Fault("there is no "+name, restart)
		return ""
	}
	t, err := v.Text(name)
	r.err = err
	return t
}

func (r *calibrationReader) length(of map[string]strict.Value, name string, least, most unit.Length) unit.Length {
	t := r.text(of, name)
	if r.err != nil {
		return 0
	}
	l, err := lengthBetween(t, least, most)
	r.fail(of[name], err)
	return l
}

func (r *calibrationReader) number(of map[string]strict.Value, name string, least, most float64) float64 {
	t := r.text(of, name)
	if r.err != nil {
		return 0
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(t), 64)
	if err != nil || !(v >= least && v <= most) {
		r.err = of[name].Fault(fmt.Sprintf("%s: %q is not a number from %g to %g", name, strict.Shorten(t), least, most), restart)
	}
	return v
}

func (r *calibrationReader) misprint(of map[string]strict.Value) Misprint {
	return Misprint{
		r.number(of, "across", -MostStretch, MostStretch), r.number(of, "along", -MostStretch, MostStretch),
		unit.Angle(r.number(of, "skew", -MostSkew.Degrees(), MostSkew.Degrees())) * unit.Degree,
	}
}

// PrinterWith is Printer where the printer may be known from a calibration alone:
// then it takes from office what that does not say. Its margins are no narrower
// than the edges that were read.
func (s Set) PrinterWith(name string, c *Calibration) (Printer, error) {
	if c == nil {
		return s.Printer(name)
	}
	p, err := s.Printer(name)
	if !s.has("printers", name) {
		if p, err = s.Printer("office"); err == nil {
			p.Name = c.Printer
			for k, from := range p.From {
				p.From[k] = from + ", from office"
			}
		}
	}
	if err != nil || c.Edges == nil {
		return p, err
	}
	e := c.Edges
	for i, edge := range []unit.Length{e.Left, e.Top, e.Right, e.Bottom} {
		key, to := printerKeys[i].name, printerKeys[i].of(&p)
		// What somebody wrote for this printer counts where it can be printed.
		lent := strings.HasSuffix(p.From[key], ", from office") || p.From[key] == BuiltIn
		if lent || *to < edge {
			*to, p.From[key] = edge, c.From
		}
	}
	return p, nil
}
