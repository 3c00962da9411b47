package report

import (
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/compare"
	"trammel/geom/unit"
	"trammel/plot/check"
)

// CheckReport is what trammel check found, for other software: lengths in mm,
// angles in degrees, full double precision. Fields may be added.
type CheckReport struct {
	Version int          `json:"version"`
	Job     string       `json:"job"`
	Unit    string       `json:"unit"` // that figures are written in
	Date    string       `json:"date,omitempty"`
	Passed  bool         `json:"passed"` // each reading of each piece lies within its range
	Checks  []PieceCheck `json:"checks"`
	Silent  []string     `json:"silent"` // pieces that nothing was measured back of
	Sheet   *SheetReport `json:"sheet,omitempty"`
	Pages   []PageReport `json:"pages"`
}

// PieceCheck is what was found of one piece.
type PieceCheck struct {
	Piece    string          `json:"piece"`
	Passed   bool            `json:"passed"`
	Readings []readingReport `json:"readings"`
	Pegs     []standReport   `json:"pegs"`
	Setout   *SetoutReport   `json:"setout,omitempty"` // how it was to be set out; none of a piece that has no sheet
	// Explanations of the disagreement, the likeliest first: more than one only
	// where nothing measured tells them apart. Empty where all is inside, or where
	// nothing explains it.
	Explanations []explanationReport `json:"explanations"`
	Nearest      *explanationReport  `json:"nearest,omitempty"` // where nothing does: what would explain the most
	Tell         *tellReport         `json:"tell,omitempty"`    // the length that would tell explanations apart
	Unseen       []string            `json:"unseen"`            // pegs that nothing was measured of
	Fixed        bool                `json:"fixed"`             // what was measured holds the shape
	Next         string              `json:"next,omitempty"`    // else the length to measure as well
	Sum          float64             `json:"sum"`               // of squares, in σ
	Freedom      int                 `json:"freedom"`
	Verdict      string              `json:"verdict"`
	Advice       []string            `json:"advice"`
	Basis        string              `json:"basis"` // how the ranges are reckoned
}

type readingReport struct {
	Token      string  `json:"token"`
	Where      string  `json:"where,omitempty"`
	Kind       string  `json:"kind"` // distance, angle or height
	Wanted     float64 `json:"wanted"`
	Found      float64 `json:"found"`
	Off        float64 `json:"off"` // found less wanted
	AcceptFrom float64 `json:"accept_from"`
	AcceptTo   float64 `json:"accept_to"`
	Inside     bool    `json:"inside"`
	Sigma      float64 `json:"sigma"`           // of the reading
	Rough      bool    `json:"rough,omitempty"` // written too roughly to be judged
}

// standReport is one peg: where it should stand and where it does by the best fit,
// in the piece's own coordinates.
type standReport struct {
	Name     string     `json:"name"`
	Wanted   [2]float64 `json:"wanted"`
	Stands   [2]float64 `json:"stands"`
	Figure95 float64    `json:"figure_95"`
	Readings int        `json:"readings"`
}

type explanationReport struct {
	// Cause is alone (pegs and readings one by one), tape zero, tape scale, shifted,
	// turned, shifted and turned, shifted or turned, racked.
	Cause string `json:"cause"`
	// By is how much: of tape zero in mm, of tape scale parts of the length, of turned
	// and racked in degrees to the left; By95 its 95 % figure.
	By      float64       `json:"by,omitempty"`
	By95    float64       `json:"by_95,omitempty"`
	Outside []string      `json:"outside"` // tokens that lie outside still when all is mended
	Pegs    []movedReport `json:"pegs"`
	Misread []string      `json:"misread"` // tokens
	Left    float64       `json:"left"`    // the sum of squares that is left
	Freedom int           `json:"freedom"`
	Agree   bool          `json:"agree"`
}

// movedReport is a peg that stands wrong and the move that mends it: so far toward
// another peg and so far to the left, as seen from that.
type movedReport struct {
	Name        string     `json:"name"`
	Wanted      [2]float64 `json:"wanted"`
	Stands      [2]float64 `json:"stands"`
	Off         float64    `json:"off"`
	Figure95    float64    `json:"figure_95"`
	From        string     `json:"from"`
	Toward      float64    `json:"toward"`
	TowardSigma float64    `json:"toward_sigma"`
	Left        float64    `json:"left"`
	LeftSigma   float64    `json:"left_sigma"`
	Directions  int        `json:"directions"` // 2; 1 where only that to From is known
	Words       string     `json:"words"`
}

// tellReport is a length and what it would read by each explanation.
type tellReport struct {
	Length string    `json:"length"`
	Reads  []float64 `json:"reads"`
}

// ReportCheck is the check of one piece.
func ReportCheck(f check.Sheet) PieceCheck {
	c := f.Comparison
	r := PieceCheck{Piece: f.Piece, Passed: c.Passed, Readings: []readingReport{}, Pegs: []standReport{}, Explanations: []explanationReport{}, Unseen: geom.Texts(c.Unseen),
		Fixed: c.Fixed, Sum: c.Sum, Freedom: c.Freedom, Verdict: f.Says().Verdict(c), Advice: append([]string{}, f.Says().Advice(c, f.Figures.Style)...), Basis: f.Says().Basis(f.Ranges, f.Figures, c)}
	for _, q := range c.Readings {
		plain := func(x adjust.Figure) float64 { return solved.Figure(q.Measurement.Kind, x) }
		r.Readings = append(r.Readings, readingReport{Token: q.Measurement.Text, Where: q.Measurement.Where, Kind: Kinds[q.Measurement.Kind],
			Wanted: plain(q.Wanted), Found: plain(q.Found), Off: plain(q.Off), AcceptFrom: plain(q.Least), AcceptTo: plain(q.Greatest), Inside: q.Inside, Sigma: plain(q.Sigma), Rough: q.Rough})
	}
	for _, s := range c.Standings {
		r.Pegs = append(r.Pegs, standReport{string(s.Name), Pair(s.Wanted), Pair(s.At), s.Covariance.Figure95().MM(), s.Found})
	}
	for _, e := range c.Explanations {
		r.Explanations = append(r.Explanations, reportExplanation(f, e))
	}
	if c.Nearest != nil {
		e := reportExplanation(f, *c.Nearest)
		r.Nearest = &e
	}
	if t := c.Tell; t != nil {
		r.Tell = &tellReport{Length: string(t.From + t.To)}
		for _, l := range t.Reads {
			r.Tell.Reads = append(r.Tell.Reads, l.MM())
		}
	}
	r.Next = string(c.Next[0] + c.Next[1])
	return r
}

func reportExplanation(f check.Sheet, e compare.Explanation) explanationReport {
	tokens := func(of []int) []string {
		all := []string{}
		for _, i := range of {
			all = append(all, f.Comparison.Readings[i].Measurement.Text)
		}
		return all
	}
	r := explanationReport{Cause: e.Cause.String(), By: e.By, By95: e.ByFigure95, Outside: tokens(e.Outside), Pegs: []movedReport{}, Misread: tokens(e.Reading), Left: e.Left, Freedom: e.Freedom, Agree: e.Agree}
	for _, m := range e.Pegs {
		r.Pegs = append(r.Pegs, movedReport{Name: string(m.Name), Wanted: Pair(m.Wanted), Stands: Pair(m.At), Off: m.Off.MM(), Figure95: m.Figure95.MM(),
			From: string(m.From), Toward: m.Toward.MM(), TowardSigma: m.TowardSigma.MM(), Left: m.Left.MM(), LeftSigma: m.LeftSigma.MM(),
			Directions: m.Known, Words: f.Says().Move(m, f.Figures.Style)})
	}
	switch e.Cause {
	case compare.Turned, compare.ShiftedAndTurned, compare.ShiftedOrTurned, compare.Racked:
		r.By, r.By95 = unit.Angle(e.By).Degrees(), unit.Angle(e.ByFigure95).Degrees()
	case compare.Shifted: // each peg says it
		r.By, r.By95 = 0, 0
	}
	return r
}
