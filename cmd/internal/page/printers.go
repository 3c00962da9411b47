package page

import (
	"strings"
	"time"

	"trammel/cmd/internal/calibration"
	"trammel/geom/unit"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// learn keeps what was read on a calibration sheet: the page keeps the text.
func (q question) learn() (r Reply, _ []byte, err error) {
	o, err := calibrationOptions(q)
	if err != nil {
		return r, nil, err
	}
	o.Read = true
	set, err := built()
	if err != nil {
		return r, nil, err
	}
	c, err := calibration.Open(set, o)
	if err != nil {
		return r, nil, err
	}
	const at = "ask:/calibrate/found"
	read, err := calibration.ParseFound(q.Calibrate.Found)
	if err != nil {
		return r, nil, unit.Placed(err, at)
	}
	if o.Again && read.Edges != nil {
		return r, nil, &unit.Fault{Where: at, What: "edges are read on a first sheet only: a corrected one has no rulers at its edges", Hint: "leave edges out"}
	}
	if _, err := time.Parse(time.DateOnly, q.Calibrate.Date); err != nil {
		return r, nil, &unit.Fault{Where: "ask:/calibrate/date", What: unit.Quote(strict.Shorten(q.Calibrate.Date)) + " is not a date", Hint: "write year-month-day, such as 2031-04-30"}
	}
	learned, err := c.Learn(read, q.Calibrate.Date)
	if err != nil {
		return r, nil, unit.Placed(err, at)
	}
	r.Printer = &Printer{Name: learned.Printer, Text: string(learned.Text()), Says: learned.Summary()}
	r.Summary = r.Printer.Says
	return r, nil, nil
}

// options are what is asked of a calibration.
func calibrationOptions(q question) (o calibration.Options, err error) {
	c := q.Calibrate
	if c == nil || strings.TrimSpace(c.Printer) == "" {
		return o, &unit.Fault{Where: "ask:/calibrate/printer", What: "no printer is named", Hint: "give it a name of your own"}
	}
	said := func(key, text string) job.Setting {
		if text == "" {
			return job.Setting{}
		}
		return job.Setting{Text: text, Where: "ask:/calibrate/" + key}
	}
	o = calibration.Options{Printer: said("printer", c.Printer), Paper: said("paper", c.Paper), Margin: said("margin", c.Margin), Again: c.Again, Rule: said("rule", c.Rule), Reading: said("reading", c.Reading), Sheet: c.Sheet, Says: says}
	for _, s := range []job.Setting{o.Printer, o.Paper, o.Margin, o.Rule, o.Reading, {Text: c.Found, Where: "ask:/calibrate/found"}} {
		if f := unit.HiddenFault(s.Text); f != nil {
			return o, f.In(s.Where)
		}
	}
	o.Known, err = q.calibration(c.Printer)
	return o, err
}
