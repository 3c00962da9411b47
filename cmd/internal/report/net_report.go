package report

import (
	"slices"

	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/net"
	"trammel/geom/slip"
)

// netReport is what the adjustment of a piece found.
type netReport struct {
	Freedom   int                    `json:"freedom"` // measurements more than needed
	Sum       float64                `json:"sum"`     // of (residual/σ)²
	Sigma0    float64                `json:"sigma0"`  // √(sum/freedom): about 1 where the σ are right
	Limit     float64                `json:"limit_95"`
	Chance    float64                `json:"chance"` // that sum is as large as it is or larger
	Agrees    bool                   `json:"agrees"` // the global test passes and nothing is suspected
	Points    map[string]PointReport `json:"points"`
	Found     []foundReport          `json:"found"` // how each point was found before the adjustment, in this order
	Suspects  []suspectReport        `json:"suspects"`
	Rectangle *rectangleReport       `json:"rectangle,omitempty"`
	Findings  []string               `json:"findings"` // plain sentences
}

// PointReport is how sure a point is, the first end of the baseline and its direction
// held: σ along x and y, the standard ellipse, and the 95 % figure; mm and degrees.
type PointReport struct {
	SigmaX   float64 `json:"sigma_x"`
	SigmaY   float64 `json:"sigma_y"`
	Major    float64 `json:"major"`
	Minor    float64 `json:"minor"`
	Turn     float64 `json:"turn"`
	Figure95 float64 `json:"figure_95"`
}

type foundReport struct {
	Point string   `json:"point"`
	From  []string `json:"from"`
	By    []string `json:"by"`             // the tokens
	Side  string   `json:"side,omitempty"` // of the line between the first two of From
	Why   string   `json:"why,omitempty"`  // only, said, measurements, outline, alphabet, fits: nothing else does, or open: the net fits with the point elsewhere too
	Say   string   `json:"say"`
}

// suspectReport is a measurement that may hold a slip.
type suspectReport struct {
	Measured int          `json:"measured"` // its index
	Token    string       `json:"token"`
	W        float64      `json:"w"`
	Reads    float64      `json:"reads"`
	Others   float64      `json:"others"` // what the others make it
	Sigma    float64      `json:"sigma"`  // of that
	Agree    bool         `json:"agree"`  // the others do, without it
	Alike    bool         `json:"alike"`  // another one would explain as much
	Slips    []slipReport `json:"slips"`
	Say      string       `json:"say"`
}

// slipReport is a way to go wrong that would explain a suspect.
type slipReport struct {
	Kind string  `json:"kind"` // misread, hooked, swapped or other scale
	By   float64 `json:"by"`   // the reading less the true value
	True float64 `json:"true"`
}

type rectangleReport struct {
	Corners  []string `json:"corners"`
	Measured bool     `json:"measured"` // four sides and two diagonals are
	Square   bool     `json:"square"`
	Say      string   `json:"say"`
}

// adjustmentReport is a measurement among the others; mm or degrees.
type adjustmentReport struct {
	Adjusted   float64 `json:"adjusted"`
	Residual   float64 `json:"residual"` // adjusted less measured
	Sigma      float64 `json:"sigma"`    // of the measurement
	After      float64 `json:"sigma_adjusted"`
	Redundancy float64 `json:"redundancy"` // the share of a slip that shows
	W          float64 `json:"w"`          // standardised residual
	Noticed    float64 `json:"noticed"`    // the slip that would be found four times in five; 0: none would
}

var (
	whys  = map[net.Reason]string{net.OnlyPlace: "only", net.BySide: "said", net.ByMeasurement: "measurements", net.ByOutline: "outline", net.NothingElse: "fits", net.OneOfSeveral: "open", net.ByAlphabet: "alphabet"}
	slips = map[slip.Kind]string{slip.Misread: "misread", slip.Hooked: "hooked", slip.Swapped: "swapped", slip.OtherScale: "other scale"}
)

func reportNet(w solved.Work, a net.Adjusted) *netReport {
	info, cares := w.Findings(a)
	r := &netReport{
		Freedom: a.Freedom, Sum: a.Sum, Sigma0: a.Global.Sigma0, Limit: a.Global.Limit, Chance: a.Global.Chance, Agrees: solved.Agrees(a),
		Points: map[string]PointReport{}, Found: []foundReport{}, Suspects: []suspectReport{}, Findings: slices.Concat([]string{}, info, cares),
	}
	for _, n := range a.Names {
		r.Points[string(n)] = ReportPoint(a.Covariance(n))
	}
	for _, f := range a.Placed {
		q := foundReport{Point: string(f.Point), From: geom.Texts(f.From), By: []string{}, Say: string(w.Words().Nets().Found(a, f))}
		for _, i := range f.By {
			q.By = append(q.By, a.Results[i].Measurement.Text)
		}
		if len(f.From) > 1 {
			q.Why, q.Side = whys[f.Why], map[bool]string{true: "right", false: "left"}[f.Right]
		}
		r.Found = append(r.Found, q)
	}
	for _, s := range a.Suspects {
		m := a.Results[s.Index].Measurement
		q := suspectReport{
			Measured: s.Index, Token: m.Text, W: s.W, Reads: solved.Figure(m.Kind, s.Reads), Others: solved.Figure(m.Kind, s.Others), Sigma: solved.Figure(m.Kind, s.Sigma),
			Agree: s.Agree, Alike: s.Alike, Slips: []slipReport{}, Say: string(w.Words().Nets().Suspect(a, s, w.Figures)),
		}
		for _, x := range s.Slips {
			q.Slips = append(q.Slips, slipReport{slips[x.Kind], solved.Figure(m.Kind, x.By), solved.Figure(m.Kind, x.True)})
		}
		r.Suspects = append(r.Suspects, q)
	}
	if s, ok := solved.Rectangle(a); ok {
		r.Rectangle = &rectangleReport{geom.Texts(s.Corners[:]), s.Measured, s.Square, string(w.Words().Nets().Rectangle(s, w.Figures))}
	}
	return r
}

// ReportPoint tells how sure a point is.
func ReportPoint(c adjust.Covariance) PointReport {
	e := c.Ellipse()
	return PointReport{c.X().MM(), c.Y().MM(), e.Major.MM(), e.Minor.MM(), e.Turn.Degrees(), c.Figure95().MM()}
}

// adjustments puts beside each measurement what the adjustment made of it.
func adjustments(list []measuredReport, a net.Adjusted) {
	for i, r := range a.Results {
		k := r.Measurement.Kind
		list[i].Adjustment = &adjustmentReport{
			Adjusted: solved.Figure(k, r.Adjusted), Residual: solved.Figure(k, r.Residual), Sigma: solved.Figure(k, r.Sigma), After: solved.Figure(k, r.After),
			Redundancy: r.Redundancy, W: r.W, Noticed: solved.Figure(k, r.Noticed),
		}
	}
}

// net is what a net has: its sides and angles are those of the outline.
func (r *PieceReport) net(p solved.Piece) {
	a, o := *p.Net, p.Outline()
	r.Base, r.Answers, r.Side = geom.Joined(a.Base[:]), 1, solved.SideTexts(a.Mine)
	if p.Several != nil {
		r.Answers = len(p.Several.Answers)
	} else {
		for _, o := range a.Others {
			r.Others = append(r.Others, otherReport{solved.SideTexts(o), float64(o.Area)})
		}
	}
	for _, s := range p.Construction.Inner {
		r.Points[string(s.Name)] = Pair(s.At)
	}
	for i, n := range o.Names {
		r.Points[string(n)] = Pair(o.Points[i])
		r.Sides[o.Side(i)], r.Angles[string(n)] = o.Sides[i].MM(), o.Angles[i].Degrees()
	}
	if len(o.Names) > 0 {
		r.Area, r.Perimeter = float64(o.Area()), o.Perimeter().MM()
	}
}
