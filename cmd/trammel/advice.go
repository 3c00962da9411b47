package main

import (
	"strconv"
	"strings"

	"trammel/geom/unit"
)

// valueFlags maps a fault's subject to the flag whose whole value it is. A subject that is
// missing has no flag, or the fault names it.
var valueFlags = map[unit.Subject]string{
	unit.Base: "base", unit.Outline: "outline", unit.SideOf: "side", unit.Pick: "pick", unit.Way: "with", unit.Levels: "levels", unit.Walls: "walls", unit.Blocked: "blocked",
	unit.Lying: "landscape", unit.Margin: "margin", unit.Again: "again", unit.Reread: "sheet",
}

// adviceFlags maps a subject to the flag that a remark tells the reader to use.
var adviceFlags = map[unit.Subject]string{
	unit.Scale: "--unit", unit.Printer: "--printer", unit.Paper: "--paper", unit.Cover: "--pages", unit.Margin: "--margin", unit.Again: "--again", unit.Reread: "--sheet",
	unit.Rule: "--rule", unit.Closeness: "--reading", unit.Found: "--found", unit.Instrument: "--instrument",
}

// says is how a person says something to trammel.
func says(of unit.Subject, value string, inFile bool) string {
	flag := strings.TrimSpace(adviceFlags[of] + " " + value)
	switch {
	case of == unit.Instrument: // a flag of some commands only
		return flag + ", or under site: " + unit.Says(nil).Of(of, value, true)
	case inFile:
		return unit.Says(nil).Of(of, value, true)
	}
	return flag
}

// fault is what is wrong, for a table.
type fault struct {
	unit.Subject
	unit.Code
}

// remedy is what to do: with a flag, or where the words stand in a job file, with a key
// of it; empty where the flag says it too. {hint} is what the fault says itself,
// {; hint} the same behind a semicolon where there is any, {names} and {list} its names with and without blanks between, {first}, {last},
// {quoted} (all in one) and {name} (the first, as a shell takes it), {figure} its figure.
type remedy struct{ flag, key string }

const inThePiece = "say it in the job, under the piece that is meant: "

var remedies = map[fault]remedy{
	{unit.Unsaid, unit.NotOneUnit}: {
		"write {first} or {last}; or say what bare numbers count, such as --unit {figure}",
		"write {first} or {last}; or say what bare numbers count, such as unit: {figure}",
	},
	{unit.Unsaid, unit.NotOneUnitEach}: {
		"write the unit of each, such as {first} or {last}; or say what bare numbers count, such as --unit {figure}",
		"write the unit of each, such as {first} or {last}; or say what bare numbers count, such as unit: {figure}",
	},
	{unit.Unsaid, unit.ManyInOne}: {"give each by itself: AB=600 BC=450 on the command line, [AB=600, BC=450] in a job file", ""},
	{unit.Unsaid, unit.NoEdge}: {
		"add --outline {list}, in the order of walking round counter-clockwise",
		"add outline: [{names}], in the order of walking round counter-clockwise",
	},
	{unit.Unsaid, unit.NoEdgeShape}: {"add outline: [{names}], in the order of walking round", ""},
	{unit.Outline, unit.ManyPieces}: {inThePiece + "outline:", ""},
	{unit.Outline, unit.Inward}:     {"leave the outline out; for the mirror image, handed: pair", ""},
	{unit.SideOf, unit.ManyPieces}:  {inThePiece + "side:", ""},
	{unit.SideOf, unit.Superfluous}: {"leave it out; where two triangles fit, say pick: 1 or pick: 2; for the mirror image, handed: pair", ""},
	{unit.SideOf, unit.WaysFit}:     {"say which one, as --side {quoted}", "say which one, as side: [{names}]"},
	{unit.SideOf, unit.WaysFitLine}: {"say which one, as --side {quoted}, or measure {figure}", "say which one, as side: [{names}], or measure {figure}"},
	{unit.Pick, unit.NoSuchTwo}:     {"leave --pick out", "leave pick out"},
	{unit.Pick, unit.Superfluous}:   {"say on which side a point lies: side: [D left of AC]", ""},
	{unit.Pick, unit.TwoFit}: {
		"pick one with --pick 1 or --pick 2, or make both with --pick both",
		"pick one with --pick 1 or --pick 2, or in the job: pick: 1, pick: 2 or pick: both",
	},
	{unit.Way, unit.TooFlat}:        {"set it off square instead: --with square", ""},
	{unit.Way, unit.TooFlatBase}:    {"{hint}; or set it off square: --with square", ""},
	{unit.Unsaid, unit.AtFullSize}:  {"{hint}: trammel template", ""},
	{unit.Unsaid, unit.AsPegs}:      {"{hint}: trammel setout", ""},
	{unit.Unsaid, unit.Unlisted}:    {"trammel profiles lists them{; hint}", ""},
	{unit.Pegs, unit.TooFlat}:       {"set the pegs off by 3-4-5 instead: --with square", ""},
	{unit.Pegs, unit.TooFlatBase}:   {"{hint}; or an offset by 3-4-5: --with square", ""},
	{unit.Levels, unit.ManyPieces}:  {inThePiece + "levels:", ""},
	{unit.Walls, unit.ManyPieces}:   {inThePiece + "walls:", ""},
	{unit.Blocked, unit.ManyPieces}: {inThePiece + "blocked:", ""},
	{unit.Site, unit.OneFall}:       {`each line falls in its own way: say how high the pegs stand, under the piece levels: [A 0, B 320], or --levels "A 0, B 320"`, ""},
	{unit.Found, unit.Nothing}:      {"--found AB=4510,BC=3005, or --found site.csv, or in the job, under the piece: found: [AB=4510, BC=3005]", ""},
	{unit.Found, unit.ManyPieces}:   {"--piece {name}, or give each its own found: in the job", ""},
	{unit.Found, unit.Stretched}:    {"print the sheet again at 100 %, actual size; and see that {figure} is the paper of the sheet, and --margin as the sheet has it", ""},
	{unit.Found, unit.Unlike}:       {"measure {figure} again; if it stays, the printer or the paper has changed: begin afresh with a sheet made without --again", ""},
	{unit.Cover, unit.TooManyPages}: {"use larger paper, --pages outline, or a setting-out sheet: trammel setout", ""},
	{unit.Paper, unit.OffRoll}:      {"--paper A4 or A3", ""},
	{unit.Paper, unit.TooSmall}:     {"use larger paper or a smaller --margin", ""},
	{unit.Paper, unit.Unlike}:       {"leave --paper out, or begin afresh without --again", ""},
	{unit.Lying, unit.OffRoll}:      {"leave --landscape out: the piece is turned as it takes least of the roll", ""},
	{unit.Margin, unit.Unprinted}:   {"move them in: --margin {figure}, or leave it out", ""},
	{unit.Again, unit.Nothing}:      {"make a first sheet without --again, measure it and type what you found", ""},
	{unit.Reread, unit.NotNext}:     {"a corrected sheet counts only until something newer is known: print it anew with --again", ""},
}

// hinted is the hint of a fault or of a triangle that there is not, with the flag or
// the key that helps.
func hinted(s unit.Subject, a unit.Advice, hint string) string {
	h, known := remedies[fault{s, a.Code}]
	if !known {
		return hint
	}
	text := h.flag
	if a.InFile && h.key != "" {
		text = h.key
	}
	first, last := "", ""
	if n := len(a.Names); n > 0 {
		first, last = a.Names[0], a.Names[n-1]
	}
	names := strings.Join(a.Names, ", ")
	more := ""
	if hint != "" {
		more = "; " + hint
	}
	return strings.NewReplacer("{hint}", hint, "{; hint}", more, "{figure}", a.Figure, "{names}", names, "{list}", strings.Join(a.Names, ","),
		"{quoted}", strconv.Quote(names), "{first}", first, "{last}", last, "{name}", inShell(first)).Replace(text)
}

// inShell is a name as a shell takes it.
func inShell(s string) string {
	if strings.ContainsAny(s, " \t'\"$&;()<>|*?#~!`\\") {
		return `"` + s + `"`
	}
	return s
}

// located is a fault in one line. A flag in whose value it lies says what it is about:
// "--base AB: there is no point", and "job.yaml:3:9: base AB: there is no point".
func located(f *unit.Fault) string {
	flag, of := valueFlags[f.Subject], f.Of
	if f.Subject == unit.Site {
		flag, of = f.Of, ""
	}
	switch {
	case flag == "", f.Where != "" && f.Where != "--"+flag:
		return f.Error()
	}
	return unit.InLine(strings.TrimSpace("--"+flag+" "+of), f.What)
}
