package compare

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/passage"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Asked is a layout that was to be set out, and what was measured of it afterwards.
type Asked struct {
	Pegs    []Stake
	Outline []geom.Name // tells which angle is meant by A=90deg; may be empty
	Found   []triangle.Measurement
	Tools   tape.Tools // what was set out and measured back with
	// Permitted is the K of a permitted deviation ±K√L of each length; 0: the range follows from the tools.
	Permitted unit.Length
	// Ranges are those that a setting-out sheet printed already: they win.
	Ranges []Range
	// Pulled are the lines that were themselves pulled to set out: what one reads is
	// held to that pull and the reading, not to what both its pegs cost.
	Pulled [][2]geom.Name
	// Fixed are pegs that are known to stand right, such as the corner of a wall:
	// they are never blamed. Two of them hold the whole.
	Fixed []geom.Name
	// Grain is what the ends of the other ranges are moved outward to, so that a reading is judged by the
	// figures that are printed; what is permitted is moved inward to Fine instead. 0: they stay.
	Grain, Fine adjust.Figure
	// Standard and Conditions are of the tape that it was measured back with; nil:
	// it reads as it should. Found is as read, and is told as read.
	Standard   tape.Standard
	Conditions *tape.Conditions
	// Open says which lines between pegs may be measured at all.
	Open passage.Passage
}

// Stake is a peg, where it was to stand.
type Stake struct {
	Name geom.Name
	At   geom.Point
	// Spread is how surely it was set out. Zero: as a peg is that two pulls square to each other place, each
	// as long as from the farther end of the longest edge (without an outline: of the longest length there
	// is). With Permitted it is as wide as that allows (2σ of a length is what is permitted).
	Spread adjust.Covariance
}

// Range is what a length from one peg to another is accepted within.
type Range struct {
	From, To        geom.Name
	Least, Greatest unit.Length
}

// Compared is one thing found beside what was wanted. Lengths are as the tape reads them.
type Compared struct {
	Measurement     triangle.Measurement
	Wanted, Found   adjust.Figure
	Off             adjust.Figure // found less wanted
	Least, Greatest adjust.Figure // accepted from and to
	Inside          bool
	Sigma           adjust.Figure // of the reading
	// Rough says that the way it is written leaves more open than is accepted, so
	// that it lies inside or outside by chance; Open is how much, to each side.
	Rough bool
	Open  adjust.Figure
}

// Standing is where a peg stands, as far as what was found tells.
type Standing struct {
	Name       geom.Name
	Wanted, At geom.Point // in the axes of Asked.Pegs, shifted and turned to fit best
	Covariance adjust.Covariance
	Found      int // how many readings go to it
}

// Moved is a peg that stands wrong and the move that mends it.
type Moved struct {
	Name       geom.Name
	Wanted, At geom.Point        // where it should stand and where it stands
	Covariance adjust.Covariance // of At
	Off        unit.Length
	Figure95   unit.Length // of Off and of the move: 95 of 100 lie nearer than that
	// Known is 2, or 1 where what was found tells of one direction alone.
	Known int
	// The move is told from another peg that stands right: so far towards it (less than 0: away), and so far
	// to the left (less than 0: right) as seen from there. The two σ are of these.
	From                   geom.Name
	Toward, Left           unit.Length
	TowardSigma, LeftSigma unit.Length
	// Then are the readings that go to it, into Readings: they should read what was wanted afterwards. Those
	// that go as well to a peg that is mended later are among that one's.
	Then []int
}

// Cause is what an Explanation comes from.
type Cause uint8

const (
	// Alone are one, two or three pegs that stand wrong, or readings that are misread.
	Alone            Cause = iota
	TapeZero               // all lengths are too long, or too short, alike
	TapeScale              // the same in proportion to them
	Shifted                // all pegs but those that are fixed, as a whole
	Turned                 // the same, about a fixed one
	ShiftedAndTurned       // both
	ShiftedOrTurned        // one of the three: nothing tells which, and its moves serve all
	Racked                 // four pegs: the sides are right, the diagonals are not
)

// String is the cause as software reads it.
func (c Cause) String() string {
	return [...]string{"alone", "tape zero", "tape scale", "shifted", "turned", "shifted and turned", "shifted or turned", "racked"}[min(c, Racked)]
}

// OfTape says whether the tape is the cause.
func (c Cause) OfTape() bool { return c == TapeZero || c == TapeScale }

// OfWhole says whether all pegs that are not fixed stand wrong as a whole.
func (c Cause) OfWhole() bool { return c >= Shifted && c <= ShiftedOrTurned }

// Explanation is what would make the rest agree.
type Explanation struct {
	Cause Cause
	// Pegs stand wrong, and are moved in this order. Of a whole these are all that are
	// not fixed, of a racked frame the two that are not held.
	Pegs    []Moved
	Reading []int // into Readings: misread
	// By is how much, ByFigure95 its 95 % figure: of TapeZero mm that are read too
	// long, of TapeScale parts of the length, of Racked and of Turned radians to the left.
	By, ByFigure95 float64
	About          geom.Name   // of Turned: the peg
	Held           []geom.Name // of Racked: the side that stays
	// Outside are readings that lie outside their ranges still when all that is mended:
	// they do not agree with it. A reading that is misread is not among them.
	Outside []int
	Others  adjust.Figure // what the others make the first such reading
	Sigma   adjust.Figure // σ of that
	Left    float64       // the sum that is left
	Freedom int           // of that sum
	Agree   bool          // what is left is what the tools allow
	Well    bool          // and no more than it should be: else it does not explain all
	Places  []geom.Point  // of all pegs then, in the order of Standing
}

// reads is what a length that is so long would read.
func (e Explanation) reads(l unit.Length) unit.Length {
	switch e.Cause {
	case TapeZero:
		return l + unit.Length(e.By)
	case TapeScale:
		return l * unit.Length(1+e.By)
	}
	return l
}

// Telling is a length not found as yet that would tell explanations apart.
type Telling struct {
	From, To geom.Name
	Reads    []unit.Length // by each of the explanations
	Alike    [][]int       // the explanations, in groups that it does not tell apart
}

// Comparison is what was found against what was wanted.
type Comparison struct {
	Readings  []Compared // in the order given
	Standings []Standing // in the order of the alphabet
	Passed    bool       // each reading lies inside its range
	Sum       float64    // of the squares, all pegs where they should stand but for what setting out costs
	Freedom   int
	// Explanations are what explains the disagreement, the likeliest first; more than one only where nothing tells them
	// apart. Empty where all is inside, where nothing explains it, and where it is too little to tell.
	Explanations []Explanation
	// Nearest is then what would explain the most, though the rest still disagrees.
	Nearest *Explanation
	Tell    *Telling // where there are two explanations and a length tells them apart
	// Unseen are pegs that nothing was found of.
	Unseen []geom.Name
	Held   []geom.Name // those that were said to be fixed, in the order of the alphabet
	// Fixed says whether what was found fixes the shape of the pegs that were seen;
	// where it does not, Next is the length to measure.
	Fixed bool
	Next  [2]geom.Name

	tape taped
}

// taped is a tape as it was used.
type taped struct {
	tape.Standard
	used *tape.Conditions
}

// reads is what the tape shows over a length.
func (t taped) reads(l unit.Length) unit.Length {
	if t.used == nil {
		return l
	}
	r, _, err := t.Reading(l, *t.used)
	if err != nil { // refused before, with the first length
		return l
	}
	return r
}

// ShouldRead is what the tape should read from one peg to another; 0 where one of them was not asked for.
func (c Comparison) ShouldRead(m, n geom.Name) unit.Length {
	var ends []geom.Point
	for _, s := range c.Standings {
		if s.Name == m || s.Name == n {
			ends = append(ends, s.Wanted)
		}
	}
	if len(ends) != 2 {
		return 0
	}
	return c.tape.reads(ends[0].Distance(ends[1]))
}

// Wrong are the pegs that stand wrong without a doubt.
func (c Comparison) Wrong() []Moved {
	if len(c.Explanations) != 1 || !c.Explanations[0].Well {
		return nil
	}
	return c.Explanations[0].Pegs
}

// Outside are the readings that lie outside their ranges, into Readings.
func (c Comparison) Outside() (out []int) {
	for i, r := range c.Readings {
		if !r.Inside {
			out = append(out, i)
		}
	}
	return out
}

// Reads is what the tape shows over a length.
func (c Comparison) Reads(l unit.Length) unit.Length { return c.tape.reads(l) }

// Together says whether pegs that stand wrong were measured between, and stand right to
// one another: so they would if all the others were shifted or turned as a whole.
func (c Comparison) Together(e Explanation) bool {
	right := 0
	for i, r := range c.Readings {
		m := r.Measurement
		in := func(n geom.Name) bool { return slices.ContainsFunc(e.Pegs, func(p Moved) bool { return p.Name == n }) }
		if m.Kind == triangle.Distance && in(m.At[0]) && in(m.At[1]) && r.Inside && !slices.Contains(e.Reading, i) {
			right++
		}
	}
	return right == len(e.Pegs)*(len(e.Pegs)-1)/2
}

// Alike says whether every length reads too long, or every one too short, as the tape that explains it would have it.
func (c Comparison) Alike(e Explanation) bool {
	for i, r := range c.Readings {
		if r.Measurement.Kind != triangle.Angle && (float64(r.Off.Length)*e.By <= 0 || slices.Contains(e.Outside, i)) {
			return false
		}
	}
	return true
}

// Side says whether two pegs of a racked frame are a side of it.
func (e Explanation) Side(p, q geom.Name) bool {
	round := []geom.Name{e.Held[0], e.Held[1], e.Pegs[0].Name, e.Pegs[1].Name}
	i, j := slices.Index(round, p), slices.Index(round, q)
	return i < 0 || j < 0 || (i+1)%4 == j || (j+1)%4 == i
}

// Farthest is the peg that is off most.
func (e Explanation) Farthest() (far Moved) {
	for _, m := range e.Pegs {
		if m.Off > far.Off*(1+1e-9) {
			far = m
		}
	}
	return far
}

// AlongAlone says whether the move may be told without what it is to the left or
// right: that is little, and no more than is known of it.
func (m Moved) AlongAlone() bool { return m.Known == 1 || slight(m.Left, m.Toward, m.LeftSigma) }

// AcrossAlone says the same of what it is towards the peg or away from it.
func (m Moved) AcrossAlone() bool { return slight(m.Toward, m.Left, m.TowardSigma) }

func slight(part, other, sigma unit.Length) bool {
	size := math.Abs(float64(part))
	return size < inLine*math.Abs(float64(other)) && size < tape.Expansion*float64(sigma)
}
