package flooring

import (
	"trammel/geom"
	"trammel/geom/tiling"
)

// Report is a floor for other software: mm and degrees, in the piece's own coordinates.
// The grid is turned by Angle about (0,0); a shift is the lower left corner of tile
// (0,0) in the turned frame. Polygons do not repeat their first point.
type Report struct {
	Piece   int            `json:"piece"`
	Name    string         `json:"name"`
	Region  [][][2]float64 `json:"region"` // outer rings counter-clockwise, openings clockwise
	Parts   int            `json:"parts"`
	Area    float64        `json:"area_mm2"`
	Tile    [2]float64     `json:"tile"`
	Joint   float64        `json:"joint"`
	Kerf    float64        `json:"kerf"`
	Pattern string         `json:"pattern"`
	Offset  [2]int         `json:"offset"`
	Angle   float64        `json:"angle"`
	Along   string         `json:"along,omitempty"` // the wall
	Advised string         `json:"advised"`
	Tried   []triedReport  `json:"tried,omitempty"`
	Layouts []layoutReport `json:"layouts"`
}

type triedReport struct {
	Wall      string  `json:"wall"`
	Across    bool    `json:"across,omitempty"`
	Angle     float64 `json:"angle"`
	Cuts      int     `json:"cuts"`
	Quarter   int     `json:"under_quarter"`
	Narrowest float64 `json:"narrowest"`
}

type layoutReport struct {
	Name      string        `json:"name"`
	Shift     [2]float64    `json:"shift"`
	Whole     int           `json:"whole"`
	Cuts      int           `json:"cuts"`
	Half      int           `json:"under_half"`
	Quarter   int           `json:"under_quarter"`
	Narrowest float64       `json:"narrowest"`
	Dropped   int           `json:"dropped"`
	Kinds     int           `json:"kinds"`
	Bought    int           `json:"bought"`
	Least     int           `json:"bought_least"`
	Proven    bool          `json:"proven"`
	Boxes     int           `json:"boxes"`
	Bound     *boundReport  `json:"bound,omitempty"` // where it is not proven
	Areas     areasReport   `json:"areas_mm2"`
	Pieces    []pieceReport `json:"pieces"`
}

// boundReport is what no start betters.
type boundReport struct {
	Quarter int `json:"under_quarter"`
	Cuts    int `json:"cuts"`
}

type areasReport struct {
	Whole   float64 `json:"whole"`
	Cuts    float64 `json:"cuts"`
	Dropped float64 `json:"dropped"`
	Joints  float64 `json:"joints"`
}

type pieceReport struct {
	Tile      string         `json:"tile"`
	Row       int            `json:"row"`
	Column    int            `json:"column"`
	Standing  bool           `json:"standing,omitempty"` // the turned tile of a herringbone
	Kind      int            `json:"kind"`               // from 1
	OtherHand bool           `json:"other_hand,omitempty"`
	Width     float64        `json:"width"`
	Area      float64        `json:"area_mm2"`
	Polygon   [][2]float64   `json:"polygon"`
	Holes     [][][2]float64 `json:"holes,omitempty"`
}

// patterns by their words.
var patterns = map[tiling.Pattern]string{tiling.Straight: "straight", tiling.Brick: "brick", tiling.Herringbone: "herringbone"}

// Report of the floor.
func (f Floor) Report() Report {
	g := f.Plan.Grid
	r := Report{
		Piece: f.Piece.Index, Name: f.Piece.Title(), Region: rings(f.Plan.Region.Rings()), Parts: f.Plan.Region.Parts(), Area: float64(f.Plan.Region.Area()),
		Tile: [2]float64{g.Along.MM(), g.Across.MM()}, Joint: g.Joint.MM(), Kerf: g.Kerf.MM(), Pattern: patterns[g.Pattern], Offset: [2]int{0, 1},
		Angle: g.Angle.Degrees(), Layouts: []layoutReport{},
	}
	if g.Pattern == tiling.Brick {
		r.Offset = [2]int{g.Step, g.Of}
	}
	if f.Wall >= 0 {
		r.Along = f.Outline.Side(f.Wall)
	}
	if n, _ := f.Plan.Advised(); n < len(f.Plan.Choices) {
		r.Advised = string(f.Plan.Choices[n].Aim)
	}
	for _, t := range f.Tried {
		n, _ := t.Plan.Advised()
		m := t.Plan.Choices[n].Measures
		r.Tried = append(r.Tried, triedReport{t.Wall, t.Across, t.Plan.Grid.Angle.Degrees(), m.Cuts, m.Slivers, m.Narrowest})
	}
	for _, c := range f.Plan.Choices {
		r.Layouts = append(r.Layouts, f.layout(c))
	}
	return r
}

func (f Floor) layout(c tiling.Choice) layoutReport {
	r := layoutReport{
		Name: string(c.Aim), Shift: [2]float64{c.Shift.X.MM(), c.Shift.Y.MM()}, Whole: len(c.Whole), Cuts: len(c.Pieces), Half: c.UnderHalf,
		Quarter: c.Measures.Slivers, Narrowest: c.Measures.Narrowest, Dropped: c.Dropped, Kinds: len(c.Kinds), Bought: c.Bought, Least: c.Least,
		Proven: c.Proven, Boxes: c.Boxes, Pieces: []pieceReport{},
		Areas: areasReport{float64(c.Areas.Whole), float64(c.Areas.Cut), float64(c.Areas.Dropped), float64(c.Areas.Joints())},
	}
	if !c.Proven && !f.Given {
		r.Bound = &boundReport{c.SliversAtLeast, c.CutsAtLeast}
	}
	back := geom.Placement{Turn: f.Plan.Grid.Angle}
	numbers := c.Numbers()
	for i, p := range c.Pieces {
		outer, holes := p.Rings()
		q := pieceReport{Tile: numbers.Piece(i), Row: p.Row, Column: p.Column, Standing: p.Standing, Kind: p.Kind + 1, OtherHand: p.OtherHand(), Width: p.Width, Area: p.Area,
			Polygon: rings([]geom.Polygon{back.Polygon(outer)})[0]}
		for _, h := range holes {
			q.Holes = append(q.Holes, rings([]geom.Polygon{back.Polygon(h)})...)
		}
		r.Pieces = append(r.Pieces, q)
	}
	return r
}

func rings(all []geom.Polygon) [][][2]float64 {
	out := make([][][2]float64, len(all))
	for i, ring := range all {
		for _, p := range ring {
			out[i] = append(out[i], [2]float64{p.X.MM(), p.Y.MM()})
		}
	}
	return out
}
