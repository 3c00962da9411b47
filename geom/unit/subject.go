package unit

import "fmt"

// Subject is what a fault is about, of all that a person says.
type Subject int

const (
	Unsaid     Subject = iota // the place of the fault says it
	Measured                  // a measurement, as it was written, or the points that it is of
	Written                   // words that are drawn
	Job                       // as a whole
	Piece                     // of a job
	Base                      // line that a piece is made from
	Outline                   // corners of a piece in order
	SideOf                    // side of a line that a point lies on
	Control                   // known point of a net
	Start                     // where points were before
	Pick                      // which of two triangles
	Way                       // to construct
	Pegs                      // how they are set out
	Levels                    // of the ground at the pegs
	Found                     // what was measured back
	Fixed                     // pegs that are known to stand right
	Site                      // of the site, the tools and the day, by its key
	Scale                     // unit that a bare number counts
	Paper                     // size, or roll
	Margin                    // of the paper
	Cover                     // which pages of a template are made
	Lying                     // paper on its side
	Page                      // of a document
	Printer                   // and what is known of it
	Again                     // a corrected sheet to calibrate with
	Reread                    // number of the sheet to calibrate with
	Instrument                // that angles are measured with
	Rule                      // that a sheet is measured with
	Closeness                 // of it, how close
	subjects
)

// subjectWords are how a job says it, or else how one would.
var subjectWords = [subjects]string{
	"unsaid", "measured", "written", "job", "piece", "base", "outline", "side", "control", "start", "pick", "with", "pegs", "levels", "found", "fixed",
	"site", "unit", "paper", "margin", "pages", "landscape", "page", "printer", "again", "sheet", "instrument", "rule", "reading",
}

// named are the subjects that tell enough by which one of them it is, or by what is
// said: AB=600, "tape" of a site, "45x45" of paper.
var named = map[Subject]bool{Unsaid: true, Measured: true, Written: true, Found: true, Site: true, Paper: true, Cover: true, Page: true}

// String is for those who look for a mistake in trammel.
func (s Subject) String() string {
	if s >= 0 && s < subjects {
		return subjectWords[s]
	}
	return fmt.Sprintf("subject %d", int(s))
}

// Code is what is wrong, where somebody has to tell it from other faults of the same
// subject: to say which flag or key helps, or to go on in another way.
type Code int

const (
	Plain          Code = iota // the hint says all
	Folder                     // where a file is wanted
	SmallLetter                // points have capital ones; the hint says which
	NotOneUnit                 // a bare number among lengths that have a unit: Figure is the unit it counts, Names the ways to write it, the last by itself
	NotOneUnitEach             // the same of several numbers in one word
	ManyInOne                  // several measurements where one is wanted
	ManyPieces                 // one word for all, and each has its own; Names are theirs
	Superfluous                // it makes no sense where it stands
	NoSuchTwo                  // 2 is picked, and one triangle fits
	TwoFit                     // two triangles fit
	WaysFit                    // a net may lie in several ways: Names are sides that tell the first from the others
	WaysFitLine                // the same: Figure is a line that would tell as well
	NoEdge                     // nobody said which points are the edge: Names are all of them, walking round
	NoEdgeShape                // the same, where something is to be done to the edge
	Inward                     // it goes round the wrong way
	TooFlat                    // arcs cross so flat that nobody can mark where
	TooFlatBase                // the same, and the hint has a base that would do
	TooManyPages               // for anybody to put together
	OffRoll                    // what is not printed off one, or does not lie otherwise on one
	TooSmall                   // for what goes on it
	OneFall                    // for every direction
	Nothing                    // where something is wanted
	Stretched                  // more than a printer does: Figure is the paper
	Unlike                     // what is known: Figure is what to measure again
	NotNext                    // in the order of sheets
	Unprinted                  // where the printer does not print: Figure is a margin that would do
	codes
)

var codeNames = [codes]string{
	"plain", "folder", "small letter", "not one unit", "not one unit, each", "many in one", "many pieces", "superfluous",
	"no such two", "two fit", "ways fit", "ways fit, or a line", "no edge", "no edge for a shape", "inward",
	"too flat", "too flat, another base", "too many pages", "off a roll", "too small", "one fall", "nothing",
	"stretched", "unlike", "not next", "unprinted",
}

// String is for those who look for a mistake in trammel.
func (c Code) String() string {
	if c >= 0 && c < codes {
		return codeNames[c]
	}
	return fmt.Sprintf("code %d", int(c))
}
