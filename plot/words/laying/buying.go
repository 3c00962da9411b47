package laying

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
)

// Buy is what there is to buy.
type Buy struct {
	Whole, Cut, Bought, Least int
	Box                       int       // tiles in one; 0: not said
	Spare                     int       // per cent
	Area                      unit.Area // of one tile
	Feet                      bool      // it is said in square feet
}

// Total is what is bought with what is spare, whole boxes where they are known.
func (b Buy) Total() (tiles, boxes int) {
	tiles = b.Bought + (b.Bought*b.Spare+99)/100
	if b.Box > 0 {
		boxes = (tiles + b.Box - 1) / b.Box
		tiles = boxes * b.Box
	}
	return tiles, boxes
}

func (English) Sawing(l Laid) string {
	return fmt.Sprintf("Every piece lies in its tile as on the plan, or turned as told, and keeps its factory edges; pieces of one tile lie a saw cut of %s apart. A sawn edge never goes to a joint.", l.Figures.LengthUnit(l.Plan.Grid.Kerf))
}

func (English) Buying(b Buy) []string {
	tiles, boxes := b.Total()
	out := []string{fmt.Sprintf("%d whole tiles and %d for the cuts: %d. No cutting plan of this kind takes fewer than %d.", b.Whole, b.Cut, b.Bought, b.Least)}
	line := fmt.Sprintf("With %d %% spare: %d tiles", b.Spare, tiles)
	if boxes > 0 {
		line = fmt.Sprintf("With %d %% spare, in whole boxes of %d: %d boxes, %d tiles", b.Spare, b.Box, boxes, tiles)
	}
	size, of := float64(b.Area)*float64(tiles)/1e6, "m²"
	if b.Feet {
		size, of = size*1e6/(304.8*304.8), "sq ft"
	}
	return append(out, fmt.Sprintf("%s, %.1f %s of tile.", line, size, of),
		"The spare share is the trade's habit, no rule. Buy all from one batch and keep what is left for repairs.")
}

// Sizes from which rules of the trade's standards apply.
const (
	longTile  unit.Length = 15 * 25.4 // A108.02 4.3: offset no more than a third
	indoorBay unit.Length = 7600      // EJ171: 25 ft
	edgeRun   unit.Length = 2000      // BS 5385-3: a perimeter joint from here on
	britBay   unit.Length = 10000
)

func (English) Limits(l Laid) []string {
	g := l.Plan.Grid
	out := []string{
		"Cuts of half a tile or more where the room allows, cut edges to the walls (ANSI A108.02, 4.3).",
		"The joint is at least three times what the tiles vary in size, and 1/16 in (1.6 mm) or more (ANSI A108.02, 4.3.8): measure ten tiles.",
	}
	if g.Pattern == tiling.Brick && max(g.Along, g.Across) > longTile {
		line := "Tiles over 15 in (381 mm) are offset by no more than a third, joint 1/8 in (3.2 mm) or more if rectified, 3/16 in (4.8 mm) if not (ANSI A108.02, 4.3.8)."
		if far := float64(g.Step) / float64(g.Of); min(far, 1-far) > 0.34 {
			line += " This floor is offset by more: ask the maker of the tile."
		}
		out = append(out, line)
	}
	if min(l.Long, l.Wide) > edgeRun {
		out = append(out, "Keep a movement joint round the perimeter (TCNA EJ171; BS 5385-3 for floors over 2 m).")
	}
	if max(l.Long, l.Wide) > indoorBay {
		part := "on a joint of this grid"
		if g.Pattern != tiling.Straight || g.Angle != 0 && l.Along == "" {
			part = "as its own piece each side, since no line of this pattern runs through"
		}
		out = append(out, fmt.Sprintf("This floor runs %s by %s: indoors TCNA EJ171 parts it every 20 to 25 ft (6.1 to 7.6 m) each way, BS 5385-3 into bays of 10 by 10 m. Part it %s.", l.Figures.Length(l.Long), l.Figures.LengthUnit(l.Wide), part))
		if all := partings(l); all != "" {
			out = append(out, "Joints near enough: "+all+".")
		}
	}
	return append(out,
		"In sun, wet or outside TCNA EJ171 parts it every 8 to 12 ft (2.4 to 3.7 m).",
		"Joints of the screed are carried through, never tiled over. Standards, the maker and local codes come first.")
}

// partings are the joints at which a floor is parted.
func partings(l Laid) string {
	var all []string
	for _, n := range l.PartCourses {
		all = append(all, fmt.Sprintf("the near edge of course %d", n))
	}
	for _, d := range l.PartAcross {
		side := "right"
		switch {
		case d == 0:
			all = append(all, "line 2 itself")
			continue
		case d < 0:
			side, d = "left", -d
		}
		all = append(all, fmt.Sprintf("%s to the %s of line 2", l.Figures.LengthUnit(d), side))
	}
	return geom.Listed(all)
}
