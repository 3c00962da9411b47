package calibration

import (
	"fmt"
	"math"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/plot/calibrate"
	"trammel/profiles"
)

// Text says what is known of a printer.
func Text(c profiles.Calibration) []string {
	rows := lines.Table{{"across", calibrate.Stretch(c.Found.Across)}, {"along", calibrate.Stretch(c.Found.Along)}, {"corners", squareness(c)}}
	if c.Edges != nil {
		rows = append(rows, []string{"white edges", edgesText(*c.Edges)})
	}
	promise := fmt.Sprintf("every length within %.2f mm per metre, on 95 of 100 pages", 1000*c.Uncertainty)
	if c.OfRule == 0 {
		promise += ", if the rule is true"
	} else {
		promise += fmt.Sprintf(": %.2f of it reading, %.2f the rule", 1000*(c.Uncertainty-c.OfRule), 1000*c.OfRule)
	}
	var b strings.Builder
	append(rows, []string{"corrected", promise}).Write(&b, "l l")
	head := fmt.Sprintf("%s with %s, %s", c.Printer, c.Paper, lastRead(c))
	return append([]string{head, ""}, strings.Split(strings.TrimRight(b.String(), "\n"), "\n")...)
}

// lastRead is the day of the last reading, and of how many sheets it all is.
func lastRead(c profiles.Calibration) string {
	say := c.Sheets[len(c.Sheets)-1].Date
	if n := len(c.Sheets); n > 1 {
		say += fmt.Sprintf(", from %d sheets", n)
	}
	return say
}

func squareness(c profiles.Calibration) string {
	d := c.Found.Skew.Degrees()
	way := "more"
	if d < 0 {
		way = "less"
	}
	if math.Abs(d) < 0.005 {
		return "square"
	}
	return fmt.Sprintf("%.2f° %s than a right angle at A", math.Abs(d), way)
}

func edgesText(e profiles.Edges) string {
	return fmt.Sprintf("left %g, top %g, right %g, bottom %g mm", e.Left.MM(), e.Top.MM(), e.Right.MM(), e.Bottom.MM())
}

// Entry is a calibration among the profiles.
func Entry(c profiles.Calibration) profiles.Entry {
	e := profiles.Entry{Kind: "calibration", Name: c.Printer}
	add := func(key, text string) { e.Values = append(e.Values, profiles.Item{Key: key, Text: text, From: c.From}) }
	add("paper", c.Paper)
	add("date", lastRead(c))
	add("across", calibrate.Stretch(c.Found.Across))
	add("along", calibrate.Stretch(c.Found.Along))
	add("skew", squareness(c))
	if c.Edges != nil {
		add("edges", edgesText(*c.Edges))
	}
	add("corrected", fmt.Sprintf("within %.2f mm per metre", 1000*c.Uncertainty))
	return e
}

// Report is a calibration for other software: lengths in mm, the skew in
// degrees, stretches and the uncertainty in mm per metre.
type Report struct {
	Version     int                `json:"version"`
	Printer     string             `json:"printer"`
	Paper       string             `json:"paper"`
	Date        string             `json:"date"`
	Across      float64            `json:"across"` // too long
	Along       float64            `json:"along"`
	Skew        float64            `json:"skew"`        // more than a right angle at the lower left corner
	Uncertainty float64            `json:"uncertainty"` // what every length stays within once corrected, on 95 of 100 pages
	OfRule      float64            `json:"of_rule"`     // what of that the rule itself may be wrong by
	Closing     *float64           `json:"closing,omitempty"`
	Edges       map[string]float64 `json:"edges,omitempty"`
	Sheets      int                `json:"sheets"`
}

// ReportOf is what is known of a printer.
func ReportOf(c profiles.Calibration) Report {
	r := Report{
		Version: 1, Printer: c.Printer, Paper: c.Paper, Date: c.Sheets[len(c.Sheets)-1].Date,
		Across: 1000 * c.Found.Across, Along: 1000 * c.Found.Along, Skew: c.Found.Skew.Degrees(), Uncertainty: 1000 * c.Uncertainty, OfRule: 1000 * c.OfRule, Sheets: len(c.Sheets),
	}
	if e := c.Edges; e != nil {
		r.Edges = map[string]float64{"left": e.Left.MM(), "top": e.Top.MM(), "right": e.Right.MM(), "bottom": e.Bottom.MM()}
	}
	return r
}

// Report of what was learned.
func (l Learned) Report() Report {
	r := ReportOf(l.Calibration)
	c := l.readings.Closing().MM()
	r.Closing = &c
	return r
}
