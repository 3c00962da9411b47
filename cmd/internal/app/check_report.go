package app

import (
	"trammel/geom/adjust"
	"trammel/geom/compare"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/setout"
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

// PieceCheck is one piece.
type PieceCheck struct {
	Piece    string          `json:"piece"`
	Passed   bool            `json:"passed"`
	Readings []ReadingReport `json:"readings"`
	Pegs     []StandReport   `json:"pegs"`
	// Explanations of the disagreement, the likeliest first: more than one only
	// where nothing measured tells them apart. Empty where all is inside, or where
	// nothing explains it.
	Explanations []ExplanationReport `json:"explanations"`
	Nearest      *ExplanationReport  `json:"nearest,omitempty"` // where nothing does: what would explain the most
	Tell         *TellReport         `json:"tell,omitempty"`    // the length that would tell explanations apart
	Unseen       []string            `json:"unseen"`            // pegs that nothing was measured of
	Fixed        bool                `json:"fixed"`             // what was measured holds the shape
	Next         string              `json:"next,omitempty"`    // else the length to measure as well
	Sum          float64             `json:"sum"`               // of squares, in σ
	Freedom      int                 `json:"freedom"`
	Verdict      string              `json:"verdict"`
	Advice       []string            `json:"advice"`
}

// ReadingReport is one reading.
type ReadingReport struct {
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

// StandReport is one peg: where it should stand and where it does by the best fit,
// in the piece's own coordinates.
type StandReport struct {
	Name     string     `json:"name"`
	Wanted   [2]float64 `json:"wanted"`
	Stands   [2]float64 `json:"stands"`
	Figure95 float64    `json:"figure_95"`
	Readings int        `json:"readings"`
}

// ExplanationReport is what would make the rest agree.
type ExplanationReport struct {
	// Cause is alone (pegs and readings one by one), tape zero, tape scale, shifted,
	// turned, shifted and turned, shifted or turned, racked.
	Cause string `json:"cause"`
	// By is how much: of tape zero in mm, of tape scale parts of the length, of turned
	// and racked in degrees to the left; By95 its 95 % figure.
	By      float64       `json:"by,omitempty"`
	By95    float64       `json:"by_95,omitempty"`
	Outside []string      `json:"outside"` // tokens that lie outside still when all is mended
	Pegs    []MovedReport `json:"pegs"`
	Misread []string      `json:"misread"` // tokens
	Left    float64       `json:"left"`    // the sum of squares that is left
	Freedom int           `json:"freedom"`
	Agree   bool          `json:"agree"`
}

// MovedReport is a peg that stands wrong and the move that mends it: so far toward
// another peg and so far to the left, as seen from that.
type MovedReport struct {
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

// TellReport is a length and what it would read by each explanation.
type TellReport struct {
	Length string    `json:"length"`
	Reads  []float64 `json:"reads"`
}

// report with the pages that lay drew.
func (c *checkSheets) report() CheckReport {
	r := CheckReport{Version: 1, Job: c.work.Title, Unit: c.work.Figures.Unit.String(), Date: c.work.Job.Date, Passed: c.passed(),
		Checks: []PieceCheck{}, Silent: append([]string{}, c.silent...), Pages: []PageReport{}}
	for _, f := range c.all {
		r.Checks = append(r.Checks, pieceCheck(f))
	}
	paper, pages := c.laid()
	r.Sheet, r.Pages = paper, append(r.Pages, pages...)
	return r
}

func pieceCheck(f setout.Found) PieceCheck {
	c := f.Comparison
	r := PieceCheck{Piece: f.Piece, Passed: c.Passed, Readings: []ReadingReport{}, Pegs: []StandReport{}, Explanations: []ExplanationReport{}, Unseen: []string{},
		Fixed: c.Fixed, Sum: c.Sum, Freedom: c.Freedom, Verdict: f.Says().Verdict(c), Advice: append([]string{}, f.Says().Advice(c, f.Figures.Style)...)}
	for _, q := range c.Readings {
		plain := func(x adjust.Figure) float64 {
			if q.Measurement.Kind == triangle.Angle {
				return x.Angle.Degrees()
			}
			return x.Length.MM()
		}
		r.Readings = append(r.Readings, ReadingReport{Token: q.Measurement.Text, Where: q.Measurement.Where, Kind: kinds[q.Measurement.Kind],
			Wanted: plain(q.Wanted), Found: plain(q.Found), Off: plain(q.Off), AcceptFrom: plain(q.Least), AcceptTo: plain(q.Greatest), Inside: q.Inside, Sigma: plain(q.Sigma), Rough: q.Rough})
	}
	for _, s := range c.Standings {
		r.Pegs = append(r.Pegs, StandReport{string(s.Name), pair(s.Wanted), pair(s.At), s.Covariance.Figure95().MM(), s.Found})
	}
	for _, e := range c.Explanations {
		r.Explanations = append(r.Explanations, explanationReport(f, e))
	}
	if c.Nearest != nil {
		e := explanationReport(f, *c.Nearest)
		r.Nearest = &e
	}
	if t := c.Tell; t != nil {
		r.Tell = &TellReport{Length: string(t.From + t.To)}
		for _, l := range t.Reads {
			r.Tell.Reads = append(r.Tell.Reads, l.MM())
		}
	}
	for _, n := range c.Unseen {
		r.Unseen = append(r.Unseen, string(n))
	}
	r.Next = string(c.Next[0] + c.Next[1])
	return r
}

func explanationReport(f setout.Found, e compare.Explanation) ExplanationReport {
	r := ExplanationReport{Cause: e.Cause.String(), By: e.By, By95: e.ByFigure95, Outside: []string{}, Pegs: []MovedReport{}, Misread: []string{}, Left: e.Left, Freedom: e.Freedom, Agree: e.Agree}
	for _, m := range e.Pegs {
		r.Pegs = append(r.Pegs, MovedReport{Name: string(m.Name), Wanted: pair(m.Wanted), Stands: pair(m.At), Off: m.Off.MM(), Figure95: m.Figure95.MM(),
			From: string(m.From), Toward: m.Toward.MM(), TowardSigma: m.TowardSigma.MM(), Left: m.Left.MM(), LeftSigma: m.LeftSigma.MM(),
			Directions: m.Known, Words: f.Says().Move(m, f.Figures.Style)})
	}
	switch e.Cause {
	case compare.Turned, compare.ShiftedAndTurned, compare.ShiftedOrTurned, compare.Racked:
		r.By, r.By95 = unit.Angle(e.By).Degrees(), unit.Angle(e.ByFigure95).Degrees()
	case compare.Shifted: // each peg says it
		r.By, r.By95 = 0, 0
	}
	for _, i := range e.Outside {
		r.Outside = append(r.Outside, f.Comparison.Readings[i].Measurement.Text)
	}
	for _, i := range e.Reading {
		r.Misread = append(r.Misread, f.Comparison.Readings[i].Measurement.Text)
	}
	return r
}
