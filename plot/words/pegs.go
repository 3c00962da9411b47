package words

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Pegs tells of setting out.
type Pegs interface {
	// Why one way of setting out is less sure than the best: "swinging from AB crosses
	// at 12° at C: 3.4 times worse than an offset from BC".
	Why(best, other pegging.Way, feet bool) Remark
	// Corrections of a length, part by part: "temperature +28.1 and pull +5.9"; empty
	// where none shows.
	Corrections(c tape.Corrections, style unit.Style) string
}

// pegs in English.
type pegs struct{ voice Voice }

func (pegs) Why(best, other pegging.Way, feet bool) Remark {
	far := func(mm float64, digits int) string {
		if feet {
			return unit.Decimals(mm/unit.Foot.MM(), 0) + " ft"
		}
		return unit.Decimals(mm/1000, digits) + " m"
	}
	what := map[pegging.Method]string{pegging.TwoArcs: "swinging", pegging.OffsetSquare: "an offset", pegging.AngleDistance: "turning the angle"}
	name := func(w pegging.Way) string { return fmt.Sprintf("%s from %s%s", what[w.Method], w.Base[0], w.Base[1]) }
	p := other.Pegs[other.Worst]
	text := name(other)
	switch {
	case p.Crossing > 0:
		text += fmt.Sprintf(" crosses at %s° at %s", unit.Decimals(p.Crossing.Degrees(), 0), p.Name)
	case p.Square != (pegging.Square{}):
		text += fmt.Sprintf(" carries %s %s off a square of %s", p.Name, far(math.Abs(p.At.Y.MM()), 1), far(p.Square.Across.MM(), 2))
	default:
		text += fmt.Sprintf(" carries %s %s", p.Name, far(math.Hypot(p.At.X.MM(), p.At.Y.MM()), 1))
	}
	times := float64(other.Figure / best.Figure)
	if times < 1.05 {
		return Remark(text + ": as good as " + name(best))
	}
	return Remark(text + fmt.Sprintf(": %s times worse than %s", unit.Decimals(times, 1), name(best)))
}

func (pegs) Corrections(c tape.Corrections, style unit.Style) string {
	var all []string
	for _, x := range []struct {
		name string
		by   unit.Length
	}{{"calibration", c.Calibration}, {"temperature", c.Temperature}, {"pull", c.Pull}, {"sag", c.Sag}, {"slope", c.Slope}} {
		if text := style.Length(max(x.by, -x.by)); text != style.Length(0) {
			all = append(all, x.name+" "+tape.Signed(float64(x.by), text))
		}
	}
	return geom.Listed(all)
}
