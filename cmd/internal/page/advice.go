package page

import (
	"strings"

	"trammel/geom/unit"
)

// wrong is what is wrong, for a table.
type wrong struct {
	unit.Subject
	unit.Code
}

// remedies are what to do on a page, where the fault itself does not say it: {hint} is
// what it says, {; hint} the same behind a semicolon, {names} its names, {first} and {last} of them, {figure} its figure.
var remedies = map[wrong]string{
	{unit.Unsaid, unit.NotOneUnit}:     "write {first} or {last}; or say what bare numbers count: {figure}",
	{unit.Unsaid, unit.NotOneUnitEach}: "write the unit of each, such as {first} or {last}; or say what bare numbers count: {figure}",
	{unit.Unsaid, unit.ManyInOne}:      "give each by itself",
	{unit.Unsaid, unit.NoEdge}:         "say which points are the edge, walking round counter-clockwise: {names}",
	{unit.Unsaid, unit.NoEdgeShape}:    "say which points are the edge, walking round: {names}",
	{unit.Outline, unit.ManyPieces}:    "say it of the piece that is meant",
	{unit.Outline, unit.Inward}:        "leave the edge out; for the mirror image ask for a pair",
	{unit.SideOf, unit.ManyPieces}:     "say it of the piece that is meant",
	{unit.SideOf, unit.Superfluous}:    "leave it out; where two triangles fit, tap one; for the mirror image ask for a pair",
	{unit.SideOf, unit.WaysFit}:        "tap the one that is yours",
	{unit.SideOf, unit.WaysFitLine}:    "tap the one that is yours, or measure {figure}",
	{unit.Pick, unit.NoSuchTwo}:        "leave the choice out",
	{unit.Pick, unit.Superfluous}:      "tap the one that is yours",
	{unit.Pick, unit.TwoFit}:           "tap the one that is yours, or make both",
	{unit.Way, unit.TooFlat}:           "set it off square instead",
	{unit.Way, unit.TooFlatBase}:       "{hint}; or set it off square",
	{unit.Unsaid, unit.Unlisted}:       "choose one from the list{; hint}",
	{unit.Pegs, unit.TooFlat}:          "set the pegs off by 3-4-5 instead",
	{unit.Pegs, unit.TooFlatBase}:      "{hint}; or an offset by 3-4-5",
	{unit.Levels, unit.ManyPieces}:     "say it of the piece that is meant",
	{unit.Site, unit.OneFall}:          "each line falls in its own way: say how high each peg stands",
	{unit.Found, unit.Nothing}:         "measure what was set out and write down what the tape reads",
	{unit.Found, unit.ManyPieces}:      "say which piece it is of: {names}",
	{unit.Found, unit.Stretched}:       "print the sheet again at 100 %, actual size; and see that {figure} is the paper of the sheet",
	{unit.Found, unit.Unlike}:          "measure {figure} again; if it stays, the printer or the paper has changed: begin afresh with a first sheet",
	{unit.Cover, unit.TooManyPages}:    "use larger paper, the edges alone, or peg it out",
	{unit.Paper, unit.OffRoll}:         "choose A4 or A3",
	{unit.Paper, unit.TooSmall}:        "use larger paper",
	{unit.Paper, unit.Unlike}:          "leave the paper as it was, or begin afresh with a first sheet",
	{unit.Lying, unit.OffRoll}:         "leave the paper upright: the piece is turned as it takes least of the roll",
	{unit.Margin, unit.Unprinted}:      "move them in: {figure}, or leave it out",
	{unit.Again, unit.Nothing}:         "make a first sheet, measure it and type what you found",
	{unit.Reread, unit.NotNext}:        "a corrected sheet counts only until something newer is known: print it anew",
}

// hinted is the hint of a fault in the words of a page.
func hinted(s unit.Subject, a unit.Advice, hint string) string {
	h, known := remedies[wrong{s, a.Code}]
	if !known {
		return hint
	}
	first, last := "", ""
	if n := len(a.Names); n > 0 {
		first, last = a.Names[0], a.Names[n-1]
	}
	more := ""
	if hint != "" {
		more = "; " + hint
	}
	return strings.NewReplacer("{hint}", hint, "{; hint}", more, "{figure}", a.Figure, "{names}", strings.Join(a.Names, ", "), "{first}", first, "{last}", last).Replace(h)
}
