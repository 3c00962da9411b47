// Package tiled reads what a job says of the tiles of a floor: sizes, patterns, gaps, openings.
// It looks up no wall and no point.
//
// Files, from the top floor to the ground: tiled.go, openings.go, lengths.go.
package tiled

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Word is a setting as it was written, with its place. Text is empty where nothing is said.
type Word struct{ Text, Where string }

// Words are what a piece says of its tiles.
type Words struct {
	Where                                                  string
	Size, Joint, Pattern, Along, Layout, Centre, Kerf, Box Word
	Gaps, Openings                                         []Word
}

// Floor is what Words say, as values. Walls and points are not looked up yet: At says
// where each word was written.
type Floor struct {
	Grid     tiling.Grid // without its angle
	Gap      unit.Length // of every wall that Gaps do not name
	Gaps     []WallGap
	Openings []Opening
	Wall     [2]geom.Name // that the rows run along; empty: the baseline, or Best
	WallTurn unit.Angle   // of the rows against the wall
	Best     bool         // every wall is tried
	Aims     []tiling.Aim // none: all
	Centre   [2]geom.Name // the wall that must look even; empty: the middle
	Box      int          // tiles in a box; 0: not said
	AlongAt  string
	CentreAt string
	SizeAt   string
	TilesAt  string
}

// WallGap is the gap along one wall.
type WallGap struct {
	Wall  [2]geom.Name
	Gap   unit.Length
	Where string
}

// Opening is a post or a shaft: a rectangle with its nearest corner Off the wall and
// Along it from a corner, a round one with its middle there, or a ring of points.
type Opening struct {
	Name        string
	Wall        [2]geom.Name
	From        geom.Name
	Off, Along  unit.Length
	Width, Deep unit.Length // along the wall and off it
	Diameter    unit.Length // 0: not round
	Ring        []geom.Name
	Gap         *unit.Length // nil: as along the walls
	Where       string
}

// Limits of what tiles may say.
const (
	leastTile unit.Length = 5
	mostTile  unit.Length = 5000
	mostGap   unit.Length = 1000
	mostBox               = 1000
)

// usualKerf is what a saw takes where nobody says it, mm, and usualJoint what lies between
// tiles: of a wet saw and a spacer (common practice, no source).
const usualKerf, usualJoint = 3, 3

// Floor reads the words, each bare number in the given unit. Its errors are *unit.Fault
// with file:line:column.
func (t Words) Floor(bare unit.Unit) (f Floor, err error) {
	f = Floor{AlongAt: t.Along.Where, CentreAt: t.Centre.Where, SizeAt: t.Size.Where, TilesAt: t.Where}
	f.Grid.Joint, f.Grid.Kerf = usualJoint, usualKerf
	steps := []struct {
		s    Word
		key  string
		read func(text string) error
	}{
		{t.Size, "size", func(s string) (err error) {
			f.Grid.Along, f.Grid.Across, err = sizes(s, bare, leastTile, mostTile)
			return err
		}},
		{t.Joint, "joint", lengthOf(&f.Grid.Joint, bare, mostTile)},
		{t.Kerf, "kerf", lengthOf(&f.Grid.Kerf, bare, mostTile)},
		{t.Pattern, "pattern", func(s string) error { return pattern(s, &f.Grid) }},
		{t.Along, "along", f.along},
		{t.Layout, "layout", f.layout},
		{t.Centre, "centre", wallName(&f.Centre)},
		{t.Box, "box", f.box},
	}
	for _, s := range steps {
		if s.s.Text == "" {
			continue
		}
		if err := s.read(s.s.Text); err != nil {
			return f, unit.Placed(about(s.key, err), s.s.Where)
		}
	}
	if err := f.fits(t); err != nil {
		return f, err
	}
	if err := f.gaps(t.Gaps, bare); err != nil {
		return f, err
	}
	for _, o := range t.Openings {
		one, err := opening(o.Text, bare)
		if err != nil {
			return f, unit.Placed(err, o.Where)
		}
		one.Where = o.Where
		f.Openings = append(f.Openings, one)
	}
	return f, nil
}

// fits refuses what of tile and joint does not go together.
func (f Floor) fits(t Words) error {
	short := min(f.Grid.Along, f.Grid.Across)
	switch {
	case f.Grid.Joint >= short:
		return &unit.Fault{Where: t.Joint.Where, What: "joint: it is as wide as the tile, or wider", Hint: "write the joint between two tiles, such as joint: 3"}
	case f.Grid.Kerf >= short:
		return &unit.Fault{Where: t.Kerf.Where, What: "kerf: it is as wide as the tile, or wider", Hint: "write what the saw takes, such as kerf: 3"}
	case f.Grid.Pattern == tiling.Herringbone && f.Grid.Along <= f.Grid.Across:
		return &unit.Fault{Where: t.Pattern.Where, What: "pattern: herringbone wants tiles that are longer than wide, the length first", Hint: "write such as size: 600x300, or another pattern"}
	}
	return nil
}

var brick = regexp.MustCompile(`^brick\s+([0-9]{1,3})/([0-9]{1,3})$`)

const patternHint = "write straight, brick 1/2, brick 1/3 or herringbone"

func pattern(text string, g *tiling.Grid) error {
	switch m := brick.FindStringSubmatch(text); {
	case text == "straight":
		g.Pattern = tiling.Straight
	case text == "herringbone":
		g.Pattern = tiling.Herringbone
	case m != nil:
		a, _ := strconv.Atoi(m[1])
		b, _ := strconv.Atoi(m[2])
		if a < 1 || a >= b {
			return &unit.Fault{What: fmt.Sprintf("%q moves each row by a whole tile or more, or by nothing", text), Hint: "each row lies a part of a tile further on: " + patternHint}
		}
		g.Pattern, g.Step, g.Of = tiling.Brick, a, b
	case text == "brick":
		return &unit.Fault{What: "brick wants the part of a tile by which each row is moved", Hint: patternHint}
	default:
		return &unit.Fault{What: fmt.Sprintf("%q is not a pattern", strict.Shorten(text)), Hint: patternHint}
	}
	return nil
}

// along reads a wall, an angle against the baseline, or best.
func (f *Floor) along(text string) error {
	switch {
	case text == "best":
		f.Best = true
		return nil
	case pair.MatchString(text):
		return wallName(&f.Wall)(text)
	case unit.IsAngle(text):
		a, err := unit.ParseTurn(text)
		f.WallTurn = a
		return err
	}
	if _, err := ends(text); strings.ToUpper(text) != text && pair.MatchString(strings.ToUpper(text)) {
		return err
	}
	return &unit.Fault{What: fmt.Sprintf("%q is neither a wall, an angle nor best", strict.Shorten(text)), Hint: "write such as along: AB, along: 45deg, or along: best"}
}

func wallName(to *[2]geom.Name) func(string) error {
	return func(text string) (err error) {
		*to, err = ends(text)
		return err
	}
}

func (f *Floor) layout(text string) error {
	a := tiling.Aim(text)
	if !slices.Contains(tiling.Aims, a) {
		return &unit.Fault{What: fmt.Sprintf("%q is not a layout", strict.Shorten(text)), Hint: "write balanced, widest or fewest, or take the line out: then all three are shown"}
	}
	f.Aims = []tiling.Aim{a}
	return nil
}

func (f *Floor) box(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > mostBox {
		return &unit.Fault{What: fmt.Sprintf("%q is not a number of tiles from 1 to %d", strict.Shorten(text), mostBox), Hint: "write how many tiles are in a box, such as box: 11"}
	}
	f.Box = n
	return nil
}

var oneGap = regexp.MustCompile(`^([A-Z][0-9]*[A-Z][0-9]*)\s+(\S.*)$`)

func (f *Floor) gaps(all []Word, bare unit.Unit) error {
	for _, s := range all {
		m := oneGap.FindStringSubmatch(s.Text)
		if m == nil {
			if len(all) > 1 {
				return &unit.Fault{Where: s.Where, What: fmt.Sprintf("gap: %q does not name a wall", strict.Shorten(s.Text)), Hint: "write each wall and its gap, such as gap: [AB 5, FA 12]; the others have none"}
			}
			if err := lengthOf(&f.Gap, bare, mostGap)(s.Text); err != nil {
				return unit.Placed(about("gap", err), s.Where)
			}
			continue
		}
		g := WallGap{Where: s.Where}
		var err error
		if g.Wall, err = ends(m[1]); err == nil {
			g.Gap, err = unit.ParseSetting(m[2], bare, 0, mostGap)
		}
		if err != nil {
			return unit.Placed(about("gap", err), s.Where)
		}
		f.Gaps = append(f.Gaps, g)
	}
	return nil
}
