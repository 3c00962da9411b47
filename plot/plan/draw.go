package plan

import (
	"slices"

	"trammel/geom"
	"trammel/plot/draw"
)

// Scales a plan is drawn at, after ISO 5455 (from memory), the largest first.
// 1:1000 is for small paper, where 100 m at 1:500 do not fit.
var Scales = []int{5, 10, 20, 50, 100, 200, 500, 1000}

// Drawn is a plan at a scale, in mm, the baseline's left end at the origin.
type Drawn struct {
	Scale  int
	Ops    draw.Drawing
	Bounds geom.Rect
	crowds []cluster          // where names stand in details; see Plan.Details
	inRun  map[geom.Name]bool // names that the running figures give
}

// Draw draws the plan 1:scale. Labels never lie on each other, and every name is
// on the plan or left to a detail.
func (p Plan) Draw(scale int, r draw.Ruler) Drawn {
	v := p.view(scale, r)
	v.settleRunning()
	if p.Details {
		v.crowds = v.crowded()
	}
	// A name that finds no place makes a detail of where it is, or a larger one.
	for round := 0; ; round++ {
		v.lastResort = !p.Details || round == 7
		v.all()
		if v.lastResort || len(v.unnamed) == 0 {
			break
		}
		var alone []geom.Name
		v.crowds, alone = v.gather(v.crowds, v.unnamed)
		for _, n := range alone {
			v.forced[n] = true
		}
	}
	return Drawn{Scale: scale, Ops: v.ops, Bounds: v.bounds, crowds: v.crowds, inRun: v.inRun}
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
	lastResort bool        // names may be led over letters
	onlyWhole  bool        // no more is lettered once a name has no place
	unnamed    []geom.Name // pegs that have no place for their names
}

func (p Plan) view(scale int, r draw.Ruler) *view {
	v := &view{
		picture:  picture{Plan: p, k: 1 / float64(scale), at: map[geom.Name]geom.Point{}},
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
	v.linework = linework{scene: newScene(v.r), in: v.in, drawn: map[[4]int]bool{}}
	v.unnamed, v.member = nil, map[geom.Name]bool{}
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
	v.ellipses()
	v.ringCrowds()
	v.moves()
	v.running()
	v.nameCrowds()
	v.labels()
	v.north()
	v.notes()
}
