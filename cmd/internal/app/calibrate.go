package app

import (
	"fmt"
	"iter"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/calibrate"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/pdf"
	"trammel/profiles"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// CalibrateOptions is what is said of a calibration sheet.
type CalibrateOptions struct {
	Printer, Paper, Margin job.Setting
	Again                  bool                  // a sheet corrected by what is known already
	Read                   bool                  // the sheet is on paper already, and was measured
	Rule, Reading          job.Setting           // of what it was measured with
	Sheet                  int                   // which sheet was measured, as it says itself; 0: it is not said
	Known                  *profiles.Calibration // of that printer; nil for none
	Says                   unit.Says             // how it is said what to do
}

// Calibration is a calibration sheet, to be printed or already measured.
type Calibration struct {
	sheet calibrate.Sheet
	known *profiles.Calibration
	said  profiles.RuleSaid
}

// leastInset is how far the rectangle stays from the edges of the paper where
// nobody says how far the printer reaches: office printers leave 4 to 6 mm white.
const leastInset unit.Length = 10

// OpenCalibration decides what the sheet is. The errors are *unit.Fault.
func OpenCalibration(set profiles.Set, o CalibrateOptions) (Calibration, error) {
	name := strings.TrimSpace(o.Printer.Text)
	if _, err := profiles.PrinterID(name); err != nil {
		return Calibration{}, placed(err, o.Printer.Where)
	}
	c := Calibration{known: o.Known, sheet: calibrate.Sheet{Printer: name, Number: 1, Inset: leastInset, Says: o.Says}}
	paper := job.Default(set, "paper", o.Paper)
	if o.Again {
		if o.Known == nil {
			return c, &unit.Fault{Subject: unit.Again, What: fmt.Sprintf("there is no calibration of %q to correct by", strict.Shorten(name)), Advice: unit.Advice{Code: unit.Nothing}}
		}
		if o.Paper.Text == "" {
			paper = job.Setting{Text: o.Known.Paper, Where: o.Known.From}
		}
		c.sheet.Number, c.sheet.Corrected = len(o.Known.Sheets)+1, distortion(o.Known.Found)
	}
	if err := c.tool(o); err != nil {
		return c, err
	}
	if o.Sheet != 0 && o.Sheet != c.sheet.Number {
		return c, &unit.Fault{Subject: unit.Reread, What: fmt.Sprintf("sheet %d is not the next one to be read, which is sheet %d", o.Sheet, c.sheet.Number), Advice: unit.Advice{Code: unit.NotNext}}
	}
	p, err := set.Paper(paper.Text)
	if err != nil {
		return c, placed(err, paper.Where)
	}
	if p.Roll {
		return c, &unit.Fault{Where: paper.Where, What: "the sheet to calibrate with has two sides", Hint: "give the length to cut off the roll as well, such as 914x1200"}
	}
	if k := o.Known; o.Again && (k.Width != p.Width || k.Height != p.Height) {
		return c, &unit.Fault{Where: paper.Where, What: fmt.Sprintf("%s was calibrated with %s, not with %s", k.Printer, k.Paper, p.Name), Subject: unit.Paper, Advice: unit.Advice{Code: unit.Unlike}}
	}
	c.sheet.Paper, c.sheet.Width, c.sheet.Height = p.Name, p.Width, p.Height
	if err := c.inset(set, o); err != nil {
		return c, err
	}
	_, err = c.sheet.Pages(lettering.Go())
	return c, err
}

// inset decides how far from the edges of the paper the rectangle stays: as was
// said, or as what is known of the printer needs. What is not the usual has to be
// typed with the readings, so the sheet says it.
func (c *Calibration) inset(set profiles.Set, o CalibrateOptions) error {
	s := &c.sheet
	if o.Margin.Text != "" {
		m, err := profiles.ParseMargin(o.Margin.Text)
		if err != nil {
			return placed(err, o.Margin.Where)
		}
		s.Inset, s.Margin = m, strings.TrimSpace(o.Margin.Text)
	}
	if o.Read { // what is not the usual stands on the sheet, to be typed
		return nil
	}
	if q, err := set.Printer(s.Printer); err == nil && s.Margin == "" {
		s.Inset = max(s.Inset, q.Left, q.Top, q.Right, q.Bottom)
	}
	var need unit.Length
	if k := o.Known; k != nil && k.Edges != nil {
		e := *k.Edges
		if s.Number > 1 {
			l, t, r, b := calibrate.Spread(calibrate.Warp(s.Corrected, s.Width, s.Height), draw.Page{Width: s.Width, Height: s.Height}.Bounds().Grow(-s.Inset))
			e = profiles.Edges{Left: e.Left + l, Top: e.Top + t, Right: e.Right + r, Bottom: e.Bottom + b}
		}
		need = unit.Length(math.Ceil(max(e.Left, e.Top, e.Right, e.Bottom).MM())) + 1
	}
	switch {
	case need <= s.Inset:
	case s.Margin != "":
		return &unit.Fault{Where: o.Margin.Where, What: fmt.Sprintf("with %s the crosses would lie where %s does not print", strict.Shorten(s.Margin), s.Printer), Subject: unit.Margin, Advice: unit.Advice{Code: unit.Unprinted, Figure: fmt.Sprintf("%.0fmm", need.MM())}}
	default:
		s.Inset = need
	}
	if s.Margin == "" && s.Inset != leastInset {
		s.Margin = fmt.Sprintf("%gmm", s.Inset.MM())
	}
	return nil
}

// makeCalibration makes the sheet to be printed and measured.
func makeCalibration(o Order) (*Document, error) {
	c, err := OpenCalibration(o.Profiles, o.Calibration)
	if err != nil {
		return nil, err
	}
	return c.document()
}

func (c Calibration) document() (*Document, error) {
	pages, err := c.sheet.Pages(lettering.Go())
	if err != nil {
		return nil, err
	}
	return &Document{
		Summary: func() []string { return []string{c.summary()} },
		head:    draw.Document{Title: "Calibration of " + c.sheet.Printer, Subject: "calibration sheet", Language: "en"},
		pages:   func() iter.Seq[draw.Page] { return slices.Values(pages) },
	}, nil
}

// summary says in a line what was written.
func (c Calibration) summary() string {
	s := "calibration sheet for " + c.sheet.Printer + " on " + c.sheet.Paper
	if c.sheet.Number > 1 {
		s = "corrected " + s
	}
	return s + "; print at 100 %, actual size, and do what it says"
}

// Found is what somebody read on a sheet.
type Found struct {
	AB, AD, AC, BD unit.Length
	Edges          *profiles.Edges
}

const foundHint = "write width=190.25,height=277.5,diagonal=336,diagonal=336.25 in the order of the sheet's boxes, and edges=4,4,4,12 (left, top, right, bottom) if you read them"

// ParseFound reads what was found: the four lengths, mm where no unit stands, by the
// names width, height, diagonal (first AC, then BD) or by the corners, and edges.
// A *unit.Fault has no place yet.
func ParseFound(text string) (Found, error) {
	var f Found
	var edges []unit.Length
	seen := map[string]bool{}
	last := ""
	lengths := map[string]*unit.Length{"AB": &f.AB, "AD": &f.AD, "AC": &f.AC, "BD": &f.BD}
	if strings.TrimSpace(text) == "" {
		return f, &unit.Fault{What: "no readings are written", Hint: foundHint}
	}
	const most = 400
	if len(text) > most {
		return f, &unit.Fault{What: fmt.Sprintf("is longer than %d characters", most), Hint: foundHint}
	}
	for _, word := range strings.Split(text, ",") {
		word = strings.TrimSpace(word)
		name, value, named := strings.Cut(word, "=")
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		if !named && last == "edges" {
			name, value = last, word
		} else if !named {
			what := fmt.Sprintf("%q has no name", strict.Shorten(word))
			if word == "" {
				what = "a comma stands where a reading is missing"
			} else if last != "" && strings.Trim(word, "0123456789") == "" {
				what += ": a comma parts the readings, so write decimals after a point"
			}
			return f, &unit.Fault{What: what, Hint: foundHint}
		} else if name == "edges" && seen[name] {
			return f, &unit.Fault{What: "edges is given twice", Hint: foundHint}
		}
		last = name
		if name == "edges" {
			seen[name] = true
			e, err := unit.ParseSetting(value, unit.MM, 0, calibrate.MostEdge)
			if err != nil {
				return f, placed(err, "edges")
			}
			edges = append(edges, e)
			continue
		}
		key := map[string]string{"width": "AB", "height": "AD", "diagonal": "AC"}[name]
		if name == "diagonal" && seen["AC"] {
			key = "BD"
		}
		if key == "" {
			key = strings.ToUpper(name)
		}
		to, ok := lengths[key]
		if !ok {
			return f, &unit.Fault{What: fmt.Sprintf("%q is not on the sheet", strict.Shorten(name)), Hint: strict.Suggest(name, []string{"width", "height", "diagonal", "edges", "AB", "AD", "AC", "BD"})}
		}
		if seen[key] {
			return f, &unit.Fault{What: name + " is given once more than the sheet has it", Hint: foundHint}
		}
		seen[key] = true
		var err error
		if *to, err = unit.ParseSetting(value, unit.MM, unit.Shortest, 2*pdf.MaxSide); err != nil {
			return f, placed(err, name)
		}
	}
	for _, k := range []struct{ key, name string }{{"AB", "width (A to B)"}, {"AD", "height (A to D)"}, {"AC", "the first diagonal (A to C)"}, {"BD", "the second diagonal (B to D)"}} {
		if !seen[k.key] {
			return f, &unit.Fault{What: k.name + " is missing", Hint: foundHint}
		}
	}
	switch len(edges) {
	case 0:
	case 4:
		f.Edges = &profiles.Edges{Left: edges[0], Top: edges[1], Right: edges[2], Bottom: edges[3]}
	default:
		return f, &unit.Fault{What: fmt.Sprintf("edges has %s instead of 4", plural(len(edges), "number")), Hint: "left, top, right, bottom: edges=4,4,4,12"}
	}
	return f, nil
}

// Learn makes of what was found on the sheet a calibration to keep. The error is a
// *unit.Fault that has no place yet.
func (c Calibration) Learn(f Found, date string) (Learned, error) {
	s := c.sheet
	r := s.Blank()
	r.AB, r.AD, r.AC, r.BD = f.AB, f.AD, f.AC, f.BD
	r.Rule, r.Noise = tool(c.said)
	if r.Fine {
		for _, l := range []unit.Length{f.AB, f.AD, f.AC, f.BD} {
			if ten := l.MM() * 10; math.Abs(ten-math.Round(ten)) > 1e-6 {
				return Learned{}, &unit.Fault{What: fmt.Sprintf("%g is not in tenths, and a corrected sheet is read in tenths, by its ticks", l.MM()), Hint: "the tick that meets a millimetre mark of the rule is the tenths"}
			}
		}
	}
	if err := r.Check(s.Paper); err != nil {
		return Learned{}, err
	}
	made := profiles.Calibration{Printer: s.Printer, Paper: s.Paper, Width: s.Width, Height: s.Height, Edges: f.Edges}
	all := []calibrate.Readings{r}
	if s.Number > 1 {
		made.Sheets = c.known.Sheets
		if n := len(made.Sheets); n >= profiles.MostSheets {
			made.Sheets = made.Sheets[n-profiles.MostSheets+1:]
		}
		all = append(readings(made.Sheets), r)
	}
	if c.known != nil && f.Edges == nil {
		made.Edges = c.known.Edges
	}
	fit, err := calibrate.Solve(all)
	if err != nil {
		return Learned{}, err
	}
	if err := calibrate.Plausible(fit.Distortion, s.Paper); err != nil {
		return Learned{}, err
	}
	p := calibrate.Promised(fit, all)
	made.Found, made.Uncertainty, made.OfRule = profiles.Misprint(fit.Distortion), p.All(), p.Rule
	made.Sheets = append(made.Sheets[:len(made.Sheets):len(made.Sheets)], profiles.SheetRecord{
		Date: date, Width: r.Width, Height: r.Height, Corrected: profiles.Misprint(r.Corrected), Fine: r.Fine, AB: f.AB, AD: f.AD, AC: f.AC, BD: f.BD, Tool: c.said,
	})
	l := Learned{Calibration: made, readings: r, says: s.Says}
	if s.Number > 1 {
		if one, err := geom.FitDistortion(inPlace(r).Spans()); err == nil {
			l.came = &one
		}
	}
	return l, nil
}
