package byhand

import (
	"cmp"
	"fmt"
	"math"

	"trammel/geom/shape"
	"trammel/geom/unit"
)

// Settings of saw and square as a table: a row of heads, a row a corner, one more for the
// edge that a cut corner makes.
func Settings(h Piece) [][]string {
	run, mm := h.squareRun()
	heads := []string{"corner", "inside", "edge\nheld", "saw from a\nsquare cut", "along\nthe edge", "square\nup"}
	if mm {
		heads[4], heads[5] = "along the\nedge, mm", "square\nup, mm"
	}
	rows := [][]string{heads}
	for _, c := range h.settings() {
		along, up := c.Square(run)
		rows = append(rows, []string{corner(c), h.inside(c), held(c), h.saw(c), onSquare(along, mm), onSquare(up, mm)})
	}
	return rows
}

func (h Piece) settings() []shape.Setting {
	return shape.Settings(h.Construction.Outline, h.Shape.Corners)
}

// squareRun is the run that figures of the square are for, in the job's own system.
func (h Piece) squareRun() (run unit.Length, mm bool) {
	if h.Figures.Unit >= unit.IN {
		return 12 * unit.Inch, false
	}
	return 100, true
}

// onSquare is a reading of the square: to 0.1 mm, or 1/32 in as printed tables go (POCKET).
func onSquare(l unit.Length, mm bool) string {
	if mm {
		return unit.Style{}.Length(l)
	}
	return unit.Style{Unit: unit.IN, Denominator: 32}.Length(l)
}

func corner(c shape.Setting) string {
	switch c.Do {
	case shape.Cut:
		return string(c.Corner) + " cut"
	case shape.Mitre:
		return string(c.Corner) + " mitre"
	}
	return string(c.Corner)
}

func held(c shape.Setting) string {
	if c.Edge == "" {
		return "each"
	}
	return c.Edge
}

// inside is the piece's angle at the corner that is cut.
func (h Piece) inside(c shape.Setting) string {
	if given, ok := h.Given[c.Corner]; ok && c.Do != shape.Cut {
		return h.Figures.Given(given)
	}
	return h.fineAngle(c.Interior)
}

// fineAngle writes an angle to 0.1°, or to hundredths where it is even in these.
func (h Piece) fineAngle(a unit.Angle) string {
	hundredths := a.Degrees() * 100
	whole := math.Round(hundredths)
	if h.Figures.Minutes || math.Abs(hundredths-whole) > 1e-7 {
		return h.Figures.Angle(a)
	}
	return unit.Style{Decimals: 2}.Length(unit.Length(whole/100)) + "°"
}

// saw is what the scale reads, and which way the cut leans.
func (h Piece) saw(c shape.Setting) string {
	how, scale := c.How(cmp.Or(h.Saw, commonSaw))
	say := h.fineAngle(scale)
	switch {
	case how == shape.ToLine:
		say = "to the line,"
	case how == shape.AtBlock:
		say = "block " + say
	case !h.leans(c):
		return say
	}
	if c.Out {
		return say + " out"
	}
	return say + " in"
}

// leans says whether a scale shows that the cut leans at all.
func (h Piece) leans(c shape.Setting) bool { return h.fineAngle(c.Saw) != h.fineAngle(0) }

// commonSaw is where most stops are: common practice (FHB names 50, others 45 to 60).
const commonSaw = 45 * unit.Degree

// AboutSettings is how that table is used: what all rows need, and what those need that
// are not set at the fence.
func AboutSettings(h Piece) []string {
	var out, leansIn, leansOut, block, inward, far, mitre, cut bool
	for _, c := range h.settings() {
		how, _ := c.How(cmp.Or(h.Saw, commonSaw))
		leansIn = leansIn || h.leans(c) && !c.Out
		leansOut = leansOut || h.leans(c) && c.Out
		out = out || c.Out
		block = block || how == shape.AtBlock
		inward = inward || c.Inward
		far = far || how == shape.ToLine && !c.Inward
		mitre = mitre || c.Do == shape.Mitre
		cut = cut || c.Do == shape.Cut
	}
	say := []string{"Saw: the edge held lies at the fence."}
	if leansIn {
		say = append(say, "In: the cut leans back over that edge.")
	}
	if leansOut {
		say = append(say, "Out: the cut leans away from that edge.")
	}
	if leansIn || leansOut {
		say = append(say, "A scale with 90 at square: set 90 minus this figure.")
	}
	mark, side := "Square: so far along it from the corner", ", then up"
	if out {
		mark += " (out: carried on)"
	}
	if inward {
		side = ", then up, at an inward corner on the waste side"
	}
	say = append(say, mark+side+": finer than any scale.")
	hand := "100 mm"
	if h.Figures.Unit >= unit.IN {
		hand = "4 in"
	}
	if block {
		say = append(say, fmt.Sprintf("Block: beyond the saw's %s the edge held stands square to the fence, against a square block; clamp all, hands %s from the blade. Or cut to the line.", h.fineAngle(cmp.Or(h.Saw, commonSaw)), hand))
	}
	if far {
		say = append(say, fmt.Sprintf("To the line: a saw of %s does not reach it.", h.fineAngle(cmp.Or(h.Saw, commonSaw))))
	}
	if inward {
		say = append(say, "Inward: both cuts stop at the corner.")
	}
	if cut {
		say = append(say, "Cut: across the corner, from the set-back.")
	}
	if mitre {
		say = append(say, "Mitre: the joint of the parts that meet; of each its outer edge is held.")
	}
	return say
}
