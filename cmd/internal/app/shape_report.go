package app

import (
	"trammel/geom"
	"trammel/profiles/job"
)

// ShapeReport is what is done to a piece beyond its outline, in the piece's own
// coordinates.
type ShapeReport struct {
	Hand       string                   `json:"hand,omitempty"` // one or other, of a pair
	Face       string                   `json:"face,omitempty"` // up or down
	Grain      string                   `json:"grain,omitempty"`
	Allowances map[string]float64       `json:"allowances"` // outward, by edge
	Corners    map[string]CornerReport  `json:"corners"`
	Holes      []HoleReport             `json:"holes"`
	Finished   []SegmentReport          `json:"finished"` // once round, counter-clockwise
	Cut        []SegmentReport          `json:"cut"`
	Areas      AreasReport              `json:"areas_mm2"`
	Settings   map[string]SettingReport `json:"settings"`
}

// CornerReport is a corner that is cut, round or blunt.
type CornerReport struct {
	Do string  `json:"do"`
	By float64 `json:"by"`
}

// HoleReport is a round hole.
type HoleReport struct {
	Token    string     `json:"token"`
	Where    string     `json:"where,omitempty"`
	Centre   [2]float64 `json:"centre"`
	Diameter float64    `json:"diameter"`
}

// SegmentReport is a line, or an arc where it has a radius; its sweep is
// counter-clockwise.
type SegmentReport struct {
	From   [2]float64  `json:"from"`
	To     [2]float64  `json:"to"`
	Centre *[2]float64 `json:"centre,omitempty"`
	Radius float64     `json:"radius,omitempty"`
	Sweep  float64     `json:"sweep,omitempty"`
}

// AreasReport is as of shape.Areas.
type AreasReport struct {
	Finished float64 `json:"finished"`
	Cut      float64 `json:"cut"`
	Holes    float64 `json:"holes"`
	Net      float64 `json:"net"`
}

// SettingReport is how saw and square are set, in degrees and mm.
type SettingReport struct {
	Interior float64 `json:"interior"`
	ToEdge   float64 `json:"to_edge"`
	Saw      float64 `json:"saw"`
	Rise     float64 `json:"rise_in_100"`
}

func (p Piece) shapeReport() *ShapeReport {
	s := p.Shape
	if len(s.Sides) == 0 {
		return nil
	}
	a := s.Areas()
	r := &ShapeReport{
		Allowances: map[string]float64{}, Corners: map[string]CornerReport{}, Holes: []HoleReport{}, Settings: map[string]SettingReport{},
		Finished: segments(s.Finished), Cut: segments(s.Cut),
		Areas: AreasReport{float64(a.Finished), float64(a.Cut), float64(a.Holes), float64(a.Net)},
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
	}
	for _, v := range s.Corners {
		if do := [...]string{"", "cut", "round", "blunt"}[v.Do]; do != "" {
			r.Corners[string(v.Name)] = CornerReport{do, v.By.MM()}
		}
		c := v.Setting
		r.Settings[string(v.Name)] = SettingReport{c.Interior.Degrees(), c.ToEdge.Degrees(), c.Saw.Degrees(), c.Rise(100).MM()}
	}
	for _, b := range s.Bores {
		r.Holes = append(r.Holes, HoleReport{b.Hole.Text, b.Hole.Where, pair(b.Circle.Centre), b.Hole.Diameter.MM()})
	}
	return r
}

func segments(c geom.Contour) []SegmentReport {
	all := make([]SegmentReport, len(c))
	for i, s := range c {
		all[i] = SegmentReport{From: pair(s.At(0)), To: pair(s.At(1))}
		if a, ok := s.(geom.Arc); ok {
			centre := pair(a.Centre)
			all[i].Centre, all[i].Radius, all[i].Sweep = &centre, a.Radius.MM(), a.Sweep.Degrees()
		}
	}
	return all
}

func pair(p geom.Point) [2]float64 { return [2]float64{p.X.MM(), p.Y.MM()} }
