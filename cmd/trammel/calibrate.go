package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/calibration"
	"trammel/cmd/internal/config"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
	"trammel/profiles"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

const calibrateWords = `Calibrate makes a sheet to print on one printer and to measure with a steel rule,
and keeps what was found. From then on every page made with --printer NAME is
warped so that it comes out true on that printer, and on that one only.

READINGS are in the order of the sheet's boxes: the two sides, the diagonal from A
to C, the one from B to D, and where printing stops at the left, the top, the
right and the bottom. Corners do for names too: AB, AD, AC, BD. With neither -o nor
--found it says what is kept.

What is promised of corrected pages counts the step of reading, the reading itself
and the rule, which its class allows to be wrong: say with --found which class is
stamped on it. A rule without a stamp is taken for class II.

--again makes the sheet once more, corrected, to see that it comes out true. It has
ticks to read tenths by; what is found on it, typed with --again, is added to what
is known.`

func calibrateCommand(c console) *cobra.Command {
	return c.command(command{
		use:   "calibrate --printer NAME [-o OUT.pdf | --found READINGS]",
		short: "measure what a printer does to a page, and have its pages corrected",
		long:  calibrateWords,
		example: `  trammel calibrate --printer shed --paper A4 -o sheet.pdf
  trammel calibrate --printer shed --found width=189.25,height=276.75,diagonal=335,diagonal=335.5,edges=4,4,4,12 --rule II
  trammel calibrate --printer shed --again -o again.pdf`,
		flags: [][]option{{
			{"printer", "", "`name` of the printer, one of your own"},
			{"paper", "", "`paper` of the sheet; the larger, the truer"},
			{"margin", "", "`width` of what stays outside the crosses"},
			{"found", "", "`readings`: width=…,height=…,diagonal=…,diagonal=…[,edges=l,t,r,b]"},
			{"rule", "", "`class` of the steel rule, I, II or III, as stamped on it; or what it is wrong by at most, such as 0.05mm"},
			{"reading", "", "`closeness` you read to: two readings of three lie no further off (0.1mm unless you say)"},
			{"again", false, "a sheet corrected by what is known already"},
			{"sheet", 0, "`number` of the corrected sheet that was read, as it says itself"},
			{"json", false, "print what was found as JSON on standard output"},
			{"config", "", "profiles `file` over your own"},
		}},
		output: ".pdf",
		run:    (*request).calibrate,
	})
}

func (r *request) calibrate(args []string) error {
	if err := swallowed(r.flags); err != nil { // a value that was forgotten is found first
		return err
	}
	if err := noArguments(r.command, args); err != nil {
		return err
	}
	switch {
	case r.flags.Changed("output"):
		return r.make(func() (app.Order, error) {
			return r.calibration(calibration.Options{Again: r.on("again")}, "found", "json", "sheet", "rule", "reading")
		})
	case r.flags.Changed("found"):
		return r.found()
	}
	return knownRule(r)
}

// calibration reads the flags that a sheet and its readings share.
func (r *request) calibration(o calibration.Options, never ...string) (order app.Order, err error) {
	for _, name := range never {
		if r.flags.Changed(name) {
			return order, &unit.Fault{Where: "--" + name, What: "does not go with what else is asked for", Hint: "make the sheet with -o; measure it; type what you found with --found"}
		}
	}
	printer := r.text("printer")
	if strings.TrimSpace(printer) == "" {
		return order, &unit.Fault{Where: "--printer", What: "no printer is named", Hint: "give it a name of your own, such as --printer shed"}
	}
	settings := []*job.Setting{&o.Rule, &o.Reading, &o.Printer, &o.Paper, &o.Margin}
	for i, name := range []string{"rule", "reading", "printer", "paper", "margin"} {
		if *settings[i], err = r.said(name); err != nil {
			return order, err
		}
	}
	if order.Profiles, err = config.Profiles(r.text("config"), readFile); err != nil {
		return order, err
	}
	if o.Known, err = kept(printer); err != nil && o.Again {
		return order, err
	}
	o.Says = says
	order.Calibration = o
	return order, nil
}

// found learns from what was read on a sheet, and keeps it.
func (r *request) found() (err error) {
	o := calibration.Options{Again: r.on("again"), Read: true}
	if r.flags.Changed("sheet") && !o.Again {
		return &unit.Fault{Where: "--sheet", What: "goes with --again", Hint: "type what the foot of the sheet says"}
	}
	o.Sheet, _ = r.flags.GetInt("sheet")
	order, err := r.calibration(o)
	if err != nil {
		return err
	}
	c, err := calibration.Open(order.Profiles, order.Calibration)
	if err != nil {
		return err
	}
	read, err := calibration.ParseFound(r.text("found"))
	if err != nil {
		return unit.Placed(err, "--found")
	}
	if o.Again && read.Edges != nil {
		return &unit.Fault{Where: "--found", What: "edges are read on a first sheet only: a corrected one has no rulers at its edges", Hint: "leave edges out"}
	}
	learned, err := c.Learn(read, today())
	if err != nil {
		return unit.Placed(err, "--found")
	}
	path, err := keepAt(r.text("printer"))
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return err
	}
	if err := output.CheckFile(path); err != nil {
		return err
	}
	if err := r.keeper.File(path, func(w io.Writer) error { _, err := w.Write(learned.Text()); return err }); err != nil {
		return err
	}
	lines := learned.Summary()
	if learned.First() {
		id, _ := profiles.PrinterID(learned.Printer)
		lines = append(lines, "Next: trammel calibrate --printer "+id+" --again -o again.pdf, to see that it comes out true.")
	}
	return tell(r, learned.Report(), append(lines, "Kept in "+path))
}

// known says what is kept of a printer.
func knownRule(r *request) error {
	if r.on("again") {
		return &unit.Fault{Where: "--again", What: "goes with -o or with --found", Hint: "trammel calibrate --printer shed --again -o again.pdf"}
	}
	o, err := r.calibration(calibration.Options{}, "paper", "margin", "sheet", "rule", "reading")
	if err != nil {
		return err
	}
	if _, err := calibration.Open(o.Profiles, o.Calibration); err != nil {
		return err
	}
	c, err := kept(r.text("printer"))
	if err != nil {
		return err
	}
	if c == nil {
		name := strict.Shorten(r.text("printer"))
		return &unit.Fault{Where: "--printer", What: fmt.Sprintf("nothing is known of %q yet", name), Hint: "make a sheet: trammel calibrate --printer " + name + " -o sheet.pdf" + others()}
	}
	return tell(r, calibration.ReportOf(*c), append(calibration.Text(*c), "", "Kept in "+c.From))
}

// tell says it in lines, or as a report where that was asked for.
func tell(r *request, report any, lines []string) error {
	if r.on("json") {
		return writeJSON(r.out, report)
	}
	for _, l := range lines {
		fmt.Fprintln(r.out, oneLine(l))
	}
	return nil
}

// others names the printers that are calibrated, for a hint.
func others() string {
	names := calibrated()
	if len(names) == 0 || len(names) > 12 {
		return ""
	}
	return "; calibrated are " + strings.Join(names, ", ")
}

// calibrated are the names of the printers that are, in their order.
func calibrated() []string {
	path, err := keepAt("x")
	if err != nil {
		return nil
	}
	entries, _ := os.ReadDir(filepath.Dir(path))
	var names []string
	for _, e := range entries {
		if name, ok := strings.CutSuffix(e.Name(), ".yaml"); ok && !strings.HasPrefix(name, ".") {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// keepAt is where a printer's calibration lies: a file of its own in the user's
// folder, so that writing one touches no other.
func keepAt(printer string) (string, error) {
	id, err := profiles.PrinterID(printer)
	if err != nil {
		return "", unit.Placed(err, "--printer")
	}
	own := config.File()
	if own == "" {
		return "", errors.New("there is no folder for settings: neither XDG_CONFIG_HOME nor HOME is set")
	}
	return filepath.Join(filepath.Dir(own), "printers", id+".yaml"), nil
}

// kept is the calibration of a printer, nil where there is none. A name that no
// calibration can have has none.
func kept(printer string) (*profiles.Calibration, error) {
	path, err := keepAt(printer)
	if err != nil {
		return nil, nil
	}
	data, err := readFile(path)
	var f *unit.Fault
	switch {
	case errors.As(err, &f) && f.Code != unit.Folder:
		return nil, nil
	case err != nil:
		return nil, err
	}
	c, err := profiles.ReadCalibration(path, data)
	if err != nil {
		return nil, err
	}
	return &c, nil
}

// today is the day on which the readings are typed, or the one that
// SOURCE_DATE_EPOCH names.
func today() string {
	now := time.Now()
	if s, err := strconv.ParseInt(os.Getenv("SOURCE_DATE_EPOCH"), 10, 64); err == nil {
		now = time.Unix(s, 0).UTC()
	}
	return now.Format(time.DateOnly)
}
