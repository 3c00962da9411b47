package plan

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Fit draws the plan as large as it can be on paper so wide and so high; ok is false where
// what its letters take leaves nothing for the pegs, or no few drawings found a size. It is
// drawn mostFits times at most, a plan of many strokes fewHeavy times.
func (p Plan) Fit(width, height unit.Length, r draw.Ruler) (d Drawn, ok bool) {
	p = p.turned()
	e, rounds, grow := p.Extent(), mostFits, 1.02
	if p.heavy() {
		rounds, grow = fewHeavy, 1.1
	}
	scale, failed := max(e.Width()/width, e.Height()/height, 0.01), unit.Length(0)
	for round := range rounds {
		if round > 0 && max(e.Width(), e.Height())/scale < nothingToSee {
			return d, false
		}
		d = p.lettered(float64(scale), r, d.size)
		wide, high := d.Bounds.Width(), d.Bounds.Height()
		if wide <= width && high <= height {
			return p.larger(d, geom.Point{X: width, Y: height}, float64(failed), r), true
		}
		if round > 3 {
			grow = 1.15
		}
		// The letters keep their size: what they take beside the pegs is left to them.
		next := scale * unit.Length(grow)
		for _, x := range []struct{ of, takes, room unit.Length }{{e.Width(), wide, width}, {e.Height(), high, height}} {
			more := x.takes - x.of/scale
			if p.heavy() && more > x.room*hopeless {
				return d, false // led that far out, names only go farther where pegs crowd more
			}
			if x.takes > x.room {
				next = max(next, x.of/max(x.room-more, x.room/8))
			}
		}
		scale, failed = next, scale
	}
	return d, false
}

// larger is a plan that fits, or a larger one that does as well: a label that finds no place
// is led far out, and the step from such a drawing is too long.
func (p Plan) larger(d Drawn, room geom.Point, failed float64, r draw.Ruler) Drawn {
	for i := 0; i < halvings && !p.heavy() && failed > 0 && d.Scale/failed > tooLong; i++ {
		scale := math.Sqrt(d.Scale * failed)
		if e := p.lettered(scale, r, max(0, d.size-1)); e.Bounds.Width() <= room.X && e.Bounds.Height() <= room.Y {
			d = e
		} else {
			failed = scale
		}
	}
	return d
}

// How often a plan is drawn to find how large it can be.
const (
	mostFits                 = 24
	fewHeavy                 = 4
	hopeless                 = 0.6 // of the room, taken beside the pegs
	nothingToSee unit.Length = 10  // of the work in a plan; its letters take more
	halvings                 = 2   // of a step between two scales
	tooLong                  = 1.1 // for it
)

// heavy is a plan of so many strokes and names that each drawing of it takes long.
func (p Plan) heavy() bool { return len(p.Pegs)+len(p.Sides)+len(p.Strokes) > heavyFrom }

const heavyFrom = 120

// Drawn is a plan at a scale, in mm, the baseline's left end at the origin.
type Drawn struct {
	Scale   float64 // so many times smaller than the ground
	Ops     draw.Drawing
	Bounds  geom.Rect
	crowds  []cluster          // where names stand in details; see Plan.Details
	inRun   map[geom.Name]bool // names that the running figures give
	letters unit.Length        // height of the corners' names
	size    int                // which of those that there are
	// Crammed: two rings lie on each other, or on a mark.
	Crammed bool
}

// Draw draws the plan 1:scale, with letters of one size for all corners. Labels never lie on each other, and every name is
// on the plan or left to a detail.
func (p Plan) Draw(scale float64, r draw.Ruler) Drawn { return p.lettered(scale, r, 0) }

// lettered is Draw with letters no larger than a size of those that there are: on a plan
// that is smaller, what had no room has less.
func (p Plan) lettered(scale float64, r draw.Ruler, size int) Drawn {
	p = p.turned()
	var v *view
	sizes := p.letters()
	if p.heavy() {
		size = len(sizes) - 1
	}
	for ; ; size++ {
		v = p.view(scale, r)
		v.letters = sizes[size]
		v.settleRunning()
		if drawWhole(v); !v.tight && !v.over || size == len(sizes)-1 {
			break
		}
	}
	return Drawn{size: size, Scale: scale, Ops: v.ops, Bounds: v.bounds, crowds: v.crowds, inRun: v.inRun, letters: v.letters, Crammed: v.crammed}
}

// whole draws the plan with the letters that it has.
func drawWhole(v *view) {
	if v.Details {
		v.crowds = v.crowded()
	}
	// A name that finds no place makes a detail of where it is, or a larger one.
	for round := 0; ; round++ {
		v.lastResort = !v.Details || round == 7
		v.all()
		if v.lastResort || len(v.unnamed) == 0 {
			return
		}
		var alone []geom.Name
		v.crowds, alone = v.gather(v.crowds, v.unnamed)
		for _, n := range alone {
			v.forced[n] = true
		}
	}
}

// Crowded says whether pegs crowd: details then follow, see DetailsOf.
func (d Drawn) Crowded() bool { return len(d.crowds) > 0 }

// view is a plan being drawn on paper: the plan, or a detail of it.
type view struct {
	picture
	linework
	crowds     []cluster          // their members' names stand in details
	member     map[geom.Name]bool // of any of them
	forced     map[geom.Name]bool // named by all means
	enlarged   float64
	dims       []runMark // the running dimensions that there is room for
	runSize    runSize
	flat       bool        // they are read as the tape lies
	letters    unit.Length // height of the corners' names
	tight      bool        // one of them had no room beside its corner
	crammed    bool        // two rings lie on each other
	lastResort bool        // names may be led over letters
	onlyWhole  bool        // no more is lettered once a name has no place
	unnamed    []geom.Name // pegs that have no place for their names
}

func (p Plan) view(scale float64, r draw.Ruler) *view {
	v := &view{
		picture:  picture{Plan: p, k: 1 / scale, at: map[geom.Name]geom.Point{}},
		linework: linework{scene: newScene(r)},
		forced:   map[geom.Name]bool{},
	}
	v.begin()
	v.shown = slices.Clone(p.Pegs)
	for i, peg := range v.shown {
		v.shown[i].At = peg.At.Times(v.k)
		if peg.Name != "" {
			v.at[peg.Name] = v.shown[i].At
		}
	}
	return v
}

// begin is an empty drawing.
func (v *view) begin() {
	v.linework = linework{scene: newScene(v.r), in: v.in, level: v.Plan.level, drawn: map[[4]int]bool{}}
	v.unnamed, v.tight, v.member = nil, false, map[geom.Name]bool{}
	for _, c := range v.crowds {
		for _, n := range c.names {
			v.member[n] = true
		}
	}
}

// all draws everything, anew.
func (v *view) all() {
	v.begin()
	v.work()
	angleArcs(v)
	drawRings(v)
	v.ellipses()
	v.ringCrowds()
	v.moves()
	v.running()
	v.nameCrowds()
	v.labels()
	v.north()
	v.notes()
}
