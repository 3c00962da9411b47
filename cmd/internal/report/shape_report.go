package report

import (
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/profiles/job"
)

// shapeReport is what is done to a piece beyond its outline, in the piece's own
// coordinates.
type shapeReport struct {
	Hand       string                  `json:"hand,omitempty"` // one or other, of a pair
	Face       string                  `json:"face,omitempty"` // up or down
	Grain      string                  `json:"grain,omitempty"`
	Allowances map[string]float64      `json:"allowances"` // outward, by edge
	Corners    map[string]CornerReport `json:"corners"`
	Holes      []holeReport            `json:"holes"`
	Finished   []segmentReport         `json:"finished"` // once round, counter-clockwise
	Cut        []segmentReport         `json:"cut"`
	Areas      areasReport             `json:"areas_mm2"`
	CutSides   map[string]float64      `json:"cut_sides"` // the straight part of each cut line, corner to corner where nothing is done to them
	Settings   []settingReport         `json:"settings"`
}

// CornerReport is a corner that is cut, round or blunt.
type CornerReport struct {
	Do string  `json:"do"`
	By float64 `json:"by"`
}

type holeReport struct {
	Token    string     `json:"token"`
	Where    string     `json:"where,omitempty"`
	Centre   [2]float64 `json:"centre"`
	Diameter float64    `json:"diameter"`
}

// segmentReport is a line, or an arc where it has a radius; its sweep is
// counter-clockwise.
type segmentReport struct {
	From   [2]float64  `json:"from"`
	To     [2]float64  `json:"to"`
	Centre *[2]float64 `json:"centre,omitempty"`
	Radius float64     `json:"radius,omitempty"`
	Sweep  float64     `json:"sweep,omitempty"`
}

// areasReport is as of shape.Areas.
type areasReport struct {
	Finished float64 `json:"finished"`
	Cut      float64 `json:"cut"`
	Holes    float64 `json:"holes"`
	Net      float64 `json:"net"`
}

// settingReport is how saw and square are set for one edge of a corner, in degrees and
// mm; see shape.Setting.
type settingReport struct {
	Corner   string  `json:"corner"`
	Of       string  `json:"of"` // corner, cut, mitre
	Interior float64 `json:"interior"`
	Edge     string  `json:"edge,omitempty"` // that is held; empty: each of both, of a mitre
	Line     float64 `json:"line"`           // between the edge held and the cut
	Saw      float64 `json:"saw"`            // from a square cut
	How      string  `json:"how"`            // fence, block, line
	Scale    float64 `json:"scale"`          // what the saw reads then
	Leans    string  `json:"leans"`          // in, out; square: neither
	Along    float64 `json:"along"`          // on a square of 100 mm, along the edge held
	Up       float64 `json:"up"`             // and square to it
}

func reportShape(w solved.Work, p solved.Piece) *shapeReport {
	s := p.Shape
	if len(s.Sides) == 0 {
		return nil
	}
	a := s.Areas()
	r := &shapeReport{
		Allowances: map[string]float64{}, Corners: map[string]CornerReport{}, Holes: []holeReport{}, CutSides: map[string]float64{},
		Finished: segments(s.Finished), Cut: segments(s.Cut),
		Areas: areasReport{float64(a.Finished), float64(a.Cut), float64(a.Holes), float64(a.Net)},
	}
	if p.Other {
		r.Hand = "other"
	}
	if p.Face != job.AnyFace {
		r.Face = p.Face.String()
	}
	r.Grain = string(p.Grain[0] + p.Grain[1])
	for _, side := range s.Sides {
		r.Allowances[side.Name] = side.Allow.MM()
		r.CutSides[side.Name] = side.Cut.Length().MM()
	}
	for _, v := range s.Corners {
		if do := [...]string{"", "cut", "round", "blunt", "mitre"}[v.Do]; do != "" {
			r.Corners[string(v.Name)] = CornerReport{do, v.By.MM()}
		}
	}
	for _, c := range shape.Settings(p.Outline(), s.Corners) {
		r.Settings = append(r.Settings, reportSetting(c, w.Trade.Saw))
	}
	for _, b := range s.Bores {
		r.Holes = append(r.Holes, holeReport{b.Hole.Text, b.Hole.Where, Pair(b.Circle.Centre), b.Hole.Diameter.MM()})
	}
	return r
}

func reportSetting(c shape.Setting, most unit.Angle) settingReport {
	how, scale := c.How(most)
	along, up := c.Square(100)
	r := settingReport{
		Corner: string(c.Corner), Of: "corner", Interior: c.Interior.Degrees(), Edge: c.Edge, Line: c.Line.Degrees(), Saw: c.Saw.Degrees(),
		How: [...]string{shape.AtFence: "fence", shape.AtBlock: "block", shape.ToLine: "line"}[how], Scale: scale.Degrees(), Leans: "in", Along: along.MM(), Up: up.MM(),
	}
	switch c.Do {
	case shape.Cut:
		r.Of = "cut"
	case shape.Mitre:
		r.Of = "mitre"
	}
	switch {
	case c.Saw < 1e-9:
		r.Leans = "square"
	case c.Out:
		r.Leans = "out"
	}
	return r
}

func segments(c geom.Contour) []segmentReport {
	all := make([]segmentReport, len(c))
	for i, s := range c {
		all[i] = segmentReport{From: Pair(s.At(0)), To: Pair(s.At(1))}
		if a, ok := s.(geom.Arc); ok {
			centre := Pair(a.Centre)
			all[i].Centre, all[i].Radius, all[i].Sweep = &centre, a.Radius.MM(), a.Sweep.Degrees()
		}
	}
	return all
}

func Pair(p geom.Point) [2]float64 { return [2]float64{p.X.MM(), p.Y.MM()} }
