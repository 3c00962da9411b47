package unit

// Subject is what a fault is about, of all that a person says: as a job says it, or else
// as one would.
type Subject string

const (
	Unsaid     Subject = ""           // the place of the fault says it
	Measured   Subject = "measured"   // a measurement, as it was written, or the points that it is of
	Written    Subject = "written"    // words that are drawn
	Job        Subject = "job"        // as a whole
	Piece      Subject = "piece"      // of a job
	Base       Subject = "base"       // line that a piece is made from
	Outline    Subject = "outline"    // corners of a piece in order
	SideOf     Subject = "side"       // side of a line that a point lies on
	Control    Subject = "control"    // known point of a net
	Start      Subject = "start"      // where points were before
	Pick       Subject = "pick"       // which of two triangles
	Way        Subject = "with"       // to construct
	Pegs       Subject = "pegs"       // how they are set out
	Levels     Subject = "levels"     // of the ground at the pegs
	Walls      Subject = "walls"      // that no tape goes through
	Blocked    Subject = "blocked"    // lines that something stands on
	Found      Subject = "found"      // what was measured back
	Fixed      Subject = "fixed"      // pegs that are known to stand right
	Site       Subject = "site"       // of the site, the tools and the day, by its key
	Scale      Subject = "unit"       // unit that a bare number counts
	Paper      Subject = "paper"      // size, or roll
	Margin     Subject = "margin"     // of the paper
	Cover      Subject = "pages"      // which pages of a template are made
	Lying      Subject = "landscape"  // paper on its side
	Page       Subject = "page"       // of a document
	Printer    Subject = "printer"    // and what is known of it
	Again      Subject = "again"      // a corrected sheet to calibrate with
	Reread     Subject = "sheet"      // number of the sheet to calibrate with
	Instrument Subject = "instrument" // that angles are measured with
	Rule       Subject = "rule"       // that a sheet is measured with
	Closeness  Subject = "reading"    // of it, how close
)

// named are the subjects that tell enough by which one of them it is, or by what is
// said: AB=600, "tape" of a site, "45x45" of paper.
var named = map[Subject]bool{Unsaid: true, Measured: true, Written: true, Found: true, Site: true, Paper: true, Cover: true, Page: true}

// Code is what is wrong, where somebody has to tell it from other faults of the same
// subject: to say which flag or key helps, or to go on in another way.
type Code string

const (
	Plain          Code = ""                       // the hint says all
	Folder         Code = "folder"                 // where a file is wanted
	SmallLetter    Code = "small letter"           // points have capital ones; the hint says which
	NotOneUnit     Code = "not one unit"           // a bare number among lengths that have a unit: Figure is the unit it counts, Names the ways to write it, the last by itself
	NotOneUnitEach Code = "not one unit, each"     // the same of several numbers in one word
	ManyInOne      Code = "many in one"            // several measurements where one is wanted
	ManyPieces     Code = "many pieces"            // one word for all, and each has its own; Names are theirs
	Superfluous    Code = "superfluous"            // it makes no sense where it stands
	NoSuchTwo      Code = "no such two"            // 2 is picked, and one triangle fits
	Wanting        Code = "wanting"                // more has to be measured; the hint says what
	AllButCertain  Code = "all but certain"        // that a measurement holds a slip
	TwoFit         Code = "two fit"                // two triangles fit
	WaysFit        Code = "ways fit"               // a net may lie in several ways: Names are sides that tell the first from the others
	WaysFitLine    Code = "ways fit, or a line"    // the same: Figure is a line that would tell as well
	NoEdge         Code = "no edge"                // nobody said which points are the edge: Names are all of them, walking round
	NoEdgeShape    Code = "no edge for a shape"    // the same, where something is to be done to the edge
	Inward         Code = "inward"                 // it goes round the wrong way
	TooFlat        Code = "too flat"               // arcs cross so flat that nobody can mark where
	TooFlatBase    Code = "too flat, another base" // the same, and the hint has a base that would do
	TooManyPages   Code = "too many pages"         // for anybody to put together
	OffRoll        Code = "off a roll"             // what is not printed off one, or does not lie otherwise on one
	TooSmall       Code = "too small"              // for what goes on it
	AtFullSize     Code = "at full size"           // too small to be pegged: the hint says to print it
	AsPegs         Code = "as pegs"                // too large to be drawn in one: the hint says to cut it in parts or to peg it
	Unlisted       Code = "unlisted"               // a name that nothing has: the hint may say more
	OneFall        Code = "one fall"               // for every direction
	Nothing        Code = "nothing"                // where something is wanted
	Stretched      Code = "stretched"              // more than a printer does: Figure is the paper
	Unlike         Code = "unlike"                 // what is known: Figure is what to measure again
	NotNext        Code = "not next"               // in the order of sheets
	Unprinted      Code = "unprinted"              // where the printer does not print: Figure is a margin that would do
)
