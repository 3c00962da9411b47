package words_test

import (
	"cmp"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"unicode"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/compare"
	"trammel/geom/construct"
	"trammel/geom/net"
	"trammel/geom/pegging"
	"trammel/geom/shape"
	"trammel/geom/slip"
	"trammel/geom/tape"
	"trammel/geom/task"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
)

// languages that there are; a new one is added here and must say all of it.
var languages = map[string]func(words.Voice) words.Language{
	"English": func(v words.Voice) words.Language { return words.English{Voice: v} },
}

// example is something that a method is given to say.
type example struct {
	say   func(t *testing.T, l words.Language) []string
	label bool // a few words at a line, no sentence
}

func one(s string) []string { return []string{s} }

// ofTasks says something of a task of every kind and demand.
func ofTasks(say func(words.Tasks, task.Drawn) []string) func(*testing.T, words.Language) []string {
	return func(t *testing.T, l words.Language) (all []string) {
		for _, d := range tasksDrawn() {
			all = append(all, say(l.Tasks(), d)...)
		}
		return all
	}
}

// ofMarks says something of the marking of a task of every kind.
func ofMarks(say func(words.Marking, task.Drawn) []string) func(*testing.T, words.Language) []string {
	return func(t *testing.T, l words.Language) (all []string) {
		for _, d := range tasksDrawn() {
			all = append(all, say(l.Marking(), d)...)
		}
		return all
	}
}

// tasksDrawn is one of every kind and demand, the first of its grid at level 2.
var tasksDrawn = sync.OnceValue(func() (all []task.Drawn) {
	for _, k := range task.Kinds() {
		s := task.StockOf(k, task.Fives, task.School)
		for _, d := range task.Demands() {
			all = append(all, task.Drawn{Task: s.Kept[0], Level: task.Fives, Demand: d})
		}
	}
	return all
})

// examples of every method of every subject.
var examples = map[string]example{
	"Tasks.Head": {label: true, say: func(_ *testing.T, l words.Language) []string { h := l.Tasks().Head(); return h[:] }},
	"Tasks.Pupil": {label: true, say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Tasks().Pupil(7, ""), l.Tasks().Pupil(7, "Ada")}
	}},
	"Tasks.Of": {label: true, say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Tasks().Of(3, 3, 8), l.Tasks().Of(3, 4, 8)}
	}},
	"Tasks.Wording":    {say: ofTasks(func(w words.Tasks, d task.Drawn) []string { return one(w.Wording(d)) })},
	"Tasks.Given":      {label: true, say: ofTasks(func(w words.Tasks, d task.Drawn) []string { return w.Given(d.Task) })},
	"Tasks.OnSketch":   {label: true, say: ofTasks(func(w words.Tasks, d task.Drawn) []string { return one(w.OnSketch(d.Kind.Given()[1], d.Given[1])) })},
	"Tasks.NotToScale": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Tasks().NotToScale()) }},
	"Tasks.Measure":    {say: ofTasks(func(w words.Tasks, d task.Drawn) []string { return one(w.Measure(d, d.Kind.Boxes())) })},
	"Tasks.Box": {label: true, say: ofTasks(func(w words.Tasks, d task.Drawn) []string {
		a, b := w.Box(d.Kind, d.Kind.Boxes()[0])
		return []string{a, b}
	})},
	"Tasks.HowMany":   {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Tasks().HowMany()) }},
	"Tasks.Steps":     {say: ofTasks(func(w words.Tasks, d task.Drawn) []string { return w.Steps(d.Task) })},
	"Tasks.SketchAlt": {say: func(_ *testing.T, l words.Language) []string { return one(l.Tasks().SketchAlt()) }},

	"Marking.Pupil":    {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().Pupil(7, "")) }},
	"Marking.KeyTitle": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().KeyTitle()) }},
	"Marking.KeyHeads": {label: true, say: func(_ *testing.T, l words.Language) []string {
		a, b, c, d := l.Marking().KeyHeads()
		return []string{a, b, c, d}
	}},
	"Marking.Asked": {label: true, say: ofMarks(func(w words.Marking, d task.Drawn) []string { return one(w.Asked(d.Kind, d.Kind.Boxes()[0])) })},
	"Marking.Range": {label: true, say: ofMarks(func(w words.Marking, d task.Drawn) []string { return one(w.Range(d.Measured(task.Maths)[0])) })},
	"Marking.Mistake": {label: true, say: ofMarks(func(w words.Marking, d task.Drawn) (all []string) {
		for _, m := range d.Mistakes() {
			all = append(all, w.Mistake(d.Kind, m.Mistake))
		}
		return all
	})},
	"Marking.Has": {label: true, say: ofMarks(func(w words.Marking, d task.Drawn) (all []string) {
		for _, m := range d.Mistakes() {
			all = append(all, w.Has(m, d.Measured(task.Maths)))
		}
		return all
	})},
	"Marking.Ranges": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Marking().Ranges(task.Maths), l.Marking().Ranges(task.Drawing)}
	}},
	"Marking.Marks":        {say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().Marks()) }},
	"Marking.Seed":         {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().Seed(7)) }},
	"Marking.OverlayTitle": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().OverlayTitle()) }},
	"Marking.OverlayUse":   {say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().OverlayUse()) }},
	"Marking.Ghost": {label: true, say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Marking().Ghost(task.Swapped), l.Marking().Ghost(task.WrongScale)}
	}},
	"Marking.PolarTitle": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().PolarTitle()) }},
	"Marking.PolarUse":   {say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().PolarUse()) }},
	"Marking.Place":      {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().Place(75, 40)) }},
	"Marking.FilmAlt":    {say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().FilmAlt()) }},
	"Models.Title": {label: true, say: func(_ *testing.T, l words.Language) (all []string) {
		for _, k := range task.Kinds() {
			all = append(all, l.Models().Title(k))
		}
		return all
	}},
	"Models.HalfCircle":  {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Models().HalfCircle()) }},
	"Models.Touching":    {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Models().Touching()) }},
	"Models.NoneOfThree": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Models().NoneOfThree()) }},
	"Models.Kite":        {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Models().Kite()) }},
	"Models.Mark":        {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Models().Mark()) }},
	"Models.FullSize":    {say: func(_ *testing.T, l words.Language) []string { return one(l.Models().FullSize()) }},
	"Models.CutsTwice":   {say: func(_ *testing.T, l words.Language) []string { return one(l.Models().CutsTwice("B", "60 mm", "A")) }},
	"Models.JoinBoth":    {say: func(_ *testing.T, l words.Language) []string { return one(l.Models().JoinBoth("B")) }},
	"Models.CheckBoth":   {say: func(_ *testing.T, l words.Language) []string { return one(l.Models().CheckBoth("A")) }},
	"Models.FallsShort": {say: func(_ *testing.T, l words.Language) []string {
		return one(l.Models().FallsShort("B", "50 mm", "14 mm"))
	}},
	"Models.FirstArc": {say: func(_ *testing.T, l words.Language) []string { return one(l.Models().FirstArc("A", "30 mm")) }},
	"Models.NoCrossing": {say: func(_ *testing.T, l words.Language) []string {
		return one(l.Models().NoCrossing("B", "40 mm", "20 mm"))
	}},
	"Models.TooShort": {say: func(_ *testing.T, l words.Language) []string { return one(l.Models().TooShort("100", "200", "400")) }},
	"Models.Alt":      {say: func(_ *testing.T, l words.Language) []string { return one(l.Models().Alt(2)) }},
	"Models.Why": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Models().Why("50°", "130°", true), l.Models().Why("120°", "60°", false)}
	}},
	"Marking.AnswerTitle": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Marking().AnswerTitle("Ada", 3)) }},
	"Marking.Comes":       {say: ofMarks(func(w words.Marking, d task.Drawn) []string { return one(w.Comes(d.Measured(task.Maths)[0])) })},
	"Checks.Verdict":      {say: func(t *testing.T, l words.Language) []string { return one(l.Checks().Verdict(wrongCorner(t))) }},
	"Checks.Advice":       {say: func(t *testing.T, l words.Language) []string { return l.Checks().Advice(wrongCorner(t), unit.Style{}) }},
	"Checks.Move": {say: func(t *testing.T, l words.Language) []string {
		return one(l.Checks().Move(compare.Moved{Name: "C", Known: 2, From: "A", Toward: 12, Left: 7}, unit.Style{}))
	}},
	"Nets.Findings": {say: func(t *testing.T, l words.Language) []string {
		return standing(l.Nets().Findings(slipped(t), unit.Style{}))
	}},
	"Nets.Doubts": {say: func(t *testing.T, l words.Language) []string {
		return standing(l.Nets().Doubts(net.Adjusted{Doubts: []net.Doubt{{Kind: net.MirrorImage}, {Kind: net.Unchecked, Lines: []string{"AB"}}}}))
	}},
	"Nets.Suspect": {say: func(t *testing.T, l words.Language) []string {
		a := slipped(t)
		return one(l.Nets().Suspect(a, a.Suspects[0], unit.Style{}).Sentence())
	}},
	"Nets.TooFine": {say: func(t *testing.T, l words.Language) []string {
		return standing(l.Nets().TooFine(slipped(t), unit.Style{}))
	}},
	"Nets.Found": {say: func(t *testing.T, l words.Language) []string {
		a := slipped(t)
		return one(l.Nets().Found(a, a.Placed[2]).Sentence())
	}},
	"Nets.Placement": {label: true, say: func(t *testing.T, l words.Language) []string {
		return one(l.Nets().Placement(net.Placement{Sides: []net.Side{{Point: "C"}}}))
	}},
	"Nets.Which": {say: func(t *testing.T, l words.Language) []string {
		p := net.Placement{Sides: []net.Side{{Point: "C", Of: [2]geom.Name{"B", "D"}}}}
		return one(l.Nets().Which(net.Adjusted{Mine: p, Others: []net.Placement{p}}))
	}},
	"Nets.Rectangle": {say: func(t *testing.T, l words.Language) []string {
		return one(l.Nets().Rectangle(net.Squareness{Corners: [4]geom.Name{"A", "B", "C", "D"}}, unit.Style{}).Sentence())
	}},
	"Steps.Shaping": {say: func(t *testing.T, l words.Language) []string {
		all := everyStep(t)
		return l.Steps().Shaping(all[len(all)-1])
	}},
	"Steps.Act": {say: func(t *testing.T, l words.Language) (all []string) {
		for _, h := range everyStep(t) {
			all = append(all, words.InWords(l.Steps(), h)...)
		}
		return all
	}},
	"Steps.Why": {say: func(t *testing.T, l words.Language) (all []string) {
		h := byHand(t, construct.AsMeasured, "AB=160 BC=100 CA=90")
		h.Reach = 120
		for r := construct.AllGiven; r <= construct.TooFlatly; r++ {
			for _, ruler := range []bool{true, false} {
				h.Construction.Why = construct.Why{Reason: r, Better: [2]geom.Name{"B", "C"}, Side: [2]geom.Name{"A", "B"}, Length: 160, ByRuler: ruler, Half: !ruler && r%2 == 0}
				all = append(all, l.Steps().Why(h))
			}
		}
		return all
	}},
	"Steps.Radius": {label: true, say: func(t *testing.T, l words.Language) []string {
		return one(l.Steps().Radius(words.ByHand{}, construct.Swing{Centre: "A", Radius: 450}))
	}},
	"Steps.OtherHeights": {label: true, say: func(t *testing.T, l words.Language) []string {
		h := byHand(t, construct.AsMeasured, "AB=600 BC=450 CA=450")
		h.Heights[0] = true
		return one(string(l.Steps().OtherHeights(h)))
	}},
	"Steps.Settings": {label: true, say: func(t *testing.T, l words.Language) []string {
		return slices.Concat(l.Steps().Settings(byHand(t, construct.AsMeasured, "AB=600 BC=450 CA=450"))...)
	}},
	"Steps.AboutSettings": {say: func(t *testing.T, l words.Language) []string {
		return l.Steps().AboutSettings(byHand(t, construct.AsMeasured, "AB=600 BC=450 CA=450"))
	}},
	"Pieces.Doubts": {say: func(t *testing.T, l words.Language) []string {
		s, err := triangle.Solve(measured(t, "AB=2000", "A=89deg", "B=90deg"), [2]geom.Name{})
		if err != nil {
			t.Fatal(err)
		}
		return standing(l.Pieces().Doubts(s, 0))
	}},
	"Pieces.Notes": {say: func(t *testing.T, l words.Language) []string {
		return notes(t, square, "", "12 at AB 9 from A 50", unit.Style{})
	}},
	"SetOut.Bring": {label: true, say: ofLayout(words.SetOut.Bring)},
	"SetOut.Steps": {say: ofLayout(words.SetOut.Steps)},
	"SetOut.Short": {say: ofLayout(func(s words.SetOut) (all []string) {
		for _, x := range s.Short() {
			all = append(all, x.Words)
		}
		return all
	})},
	"SetOut.Pulled": {label: true, say: ofLayout(func(s words.SetOut) (all []string) {
		for _, n := range s.Pulled() {
			all = append(all, strconv.Itoa(n))
		}
		return all
	})},
	"SetOut.Doubts":    {say: ofLayout(words.SetOut.Doubts)},
	"SetOut.Flat":      {label: true, say: ofLayout(words.SetOut.Flat)},
	"SetOut.Basis":     {say: ofLayout(words.SetOut.Basis)},
	"SetOut.Crossing":  {say: ofLayout(alone(words.SetOut.Crossing))},
	"SetOut.Taping":    {say: ofLayout(alone(words.SetOut.Taping))},
	"SetOut.HowSure":   {say: ofLayout(alone(words.SetOut.HowSure))},
	"SetOut.Within":    {say: ofLayout(alone(words.SetOut.Within))},
	"SetOut.Stand":     {say: ofLayout(alone(words.SetOut.Stand))},
	"SetOut.Outside":   {say: ofLayout(alone(words.SetOut.Outside))},
	"SetOut.Aside":     {say: ofLayout(words.SetOut.Aside)},
	"SetOut.SecondWay": {say: ofLayout(words.SetOut.SecondWay)},
	"SetOut.Do":        {label: true, say: ofEach(pulls, words.SetOut.Do)},
	"SetOut.Rank":      {say: ofLayout(alone(words.SetOut.Rank))},
	"SetOut.Why":       {say: ofLayout(alone(words.SetOut.Why))},
	"SetOut.Broken":    {label: true, say: ofEach(pulls, words.SetOut.Broken)},
	"SetOut.Source":    {label: true, say: ofEach(pulls, words.SetOut.Source)},
	"SetOut.Peg":       {label: true, say: ofEach(func(l pegging.Layout) []pegging.Mark { return l.Pegs }, words.SetOut.Peg)},
	"SetOut.Check":     {label: true, say: ofEach(func(l pegging.Layout) []pegging.Check { return l.Checks }, words.SetOut.Check)},
	"SetOut.Inside":    {label: true, say: ofEach(func(l pegging.Layout) []pegging.Sure { return l.Sure }, words.SetOut.Inside)},
	"SetOut.Way": {label: true, say: ofEach(func(pegging.Layout) []pegging.Method {
		return []pegging.Method{pegging.TwoArcs, pegging.OffsetSquare, pegging.AngleDistance, pegging.Mixed}
	}, words.SetOut.Way)},
	"Heads.Title": {label: true, say: ofHeads(func(h words.Heads) []string { return []string{h.Title(true), h.Title(false)} })},
	"Heads.Units": {say: ofHeads(func(h words.Heads) []string {
		return append(h.Units(true, unit.Style{}), h.Units(false, unit.Style{})...)
	})},
	"Heads.Sign": {label: true, say: ofHeads(func(h words.Heads) []string { return append(h.Sign(true), h.Sign(false)...) })},
	"Heads.Turn": {label: true, say: ofHeads(func(h words.Heads) []string {
		front, back := h.Turn(false)
		side, other := h.Turn(true)
		office, below := h.ForOffice()
		return []string{front, back, side, other, office, below}
	})},
	"Heads.ForOffice": {label: true, say: ofHeads(func(h words.Heads) []string { side, below := h.ForOffice(); return []string{side, below} })},
	"Heads.Heading": {label: true, say: ofHeads(func(h words.Heads) (all []string) {
		for _, p := range words.Parts() {
			all = append(all, h.Heading(p))
		}
		return all
	})},
	"Heads.Columns": {label: true, say: ofHeads(func(h words.Heads) (all []string) {
		for _, p := range words.Parts() {
			all = append(all, strings.Fields(strings.Join(h.Columns(p), " "))...)
		}
		return all
	})},
	"Heads.OnPhone": {label: true, say: ofHeads(func(h words.Heads) (all []string) {
		for _, p := range words.Parts() {
			heading, columns := h.OnPhone(p)
			all = append(all, heading, heading+": "+cmp.Or(columns, "-"))
		}
		return all
	})},
	"Heads.NoScale": {say: ofHeads(func(h words.Heads) []string { return one(h.NoScale()) })},
	"Heads.LeftOut": {say: ofHeads(func(h words.Heads) []string { return one(h.LeftOut()) })},
	"Heads.TooFar":  {say: ofHeads(func(h words.Heads) []string { return one(h.TooFar(2)) })},
	"Heads.Legend": {say: ofHeads(func(h words.Heads) []string {
		return append(h.Legend(words.Signs{OutsideAlone: true, Moves: true, FewNames: true}), h.Legend(words.Signs{})...)
	})},
	"Heads.Bring": {say: ofHeads(func(h words.Heads) []string { return one(h.Bring()) })},
	"Heads.Check": {label: true, say: ofHeads(func(h words.Heads) []string {
		reads, good, found := h.Check(pegging.Check{From: "A", To: "B", Reads: 3000})
		return []string{reads[:6], good, found}
	})},
	"Heads.Corrected": {label: true, say: ofHeads(func(h words.Heads) []string { return one(h.Corrected(pegging.Pull{Hold: "A", To: "B", Length: 3000})) })},
	"Heads.Way": {label: true, say: ofHeads(func(h words.Heads) []string {
		w := pegging.Way{Base: [2]geom.Name{"A", "B"}, Pegs: []pegging.Placed{{Name: "C"}}}
		return []string{h.Way(w, true), h.Way(w, false)}
	})},
	"Heads.String": {label: true, say: ofHeads(func(h words.Heads) []string {
		return one(h.String(pegging.String{Edge: [2]geom.Name{"A", "B"}, With: [2][2]geom.Name{{"D", "A"}, {"B", "C"}}}))
	})},
	"Calibration.Title": {label: true, say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Calibration().Title("Office", 1), l.Calibration().Title("Office", 2)}
	}},
	"Calibration.Facts": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Calibration().Facts("A4", 1), l.Calibration().Facts("A4", 2)}
	}},
	"Calibration.Measure": {say: func(_ *testing.T, l words.Language) []string {
		return slices.Concat(l.Calibration().Measure(500, 1), l.Calibration().Measure(500, 2))
	}},
	"Calibration.Edges": {say: func(_ *testing.T, l words.Language) []string { return one(l.Calibration().Edges()) }},
	"Calibration.Typed": {say: func(_ *testing.T, l words.Language) []string { return one(l.Calibration().Typed()) }},
	"Aloud.Language":    {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Aloud().Language()) }},
	"Aloud.Sheet": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Aloud().Sheet("Brace plate", "B2", 12), l.Aloud().Sheet("", "A1", 1)}
	}},
	"Aloud.Map": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Aloud().Map("Brace plate", 12), l.Aloud().Map("", 1)}
	}},
	"Aloud.Join":         {say: func(_ *testing.T, l words.Language) []string { return one(l.Aloud().Join("1", "2")) }},
	"Aloud.Construction": {say: func(_ *testing.T, l words.Language) []string { return one(l.Aloud().Construction("Brace plate")) }},
	"Aloud.Bar":          {say: func(_ *testing.T, l words.Language) []string { return one(l.Aloud().Bar("100 mm")) }},
	"Aloud.Plan": {say: func(_ *testing.T, l words.Language) []string {
		return one(l.Aloud().Plan([]geom.Name{"A", "B", "C"}))
	}},
	"Aloud.Detail": {say: func(_ *testing.T, l words.Language) []string { return one(l.Aloud().Detail("i")) }},
	"Aloud.Checked": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Aloud().Checked(1), l.Aloud().Checked(4)}
	}},
	"Aloud.Found": {say: func(_ *testing.T, l words.Language) []string { return one(l.Aloud().Found()) }},
	"Aloud.Crosses": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Aloud().Crosses(1), l.Aloud().Crosses(2)}
	}},
	"Aloud.Lengths": {say: func(_ *testing.T, l words.Language) []string { return one(l.Aloud().Lengths()) }},
	"Aloud.Boxes": {say: func(_ *testing.T, l words.Language) []string {
		return one(l.Aloud().Boxes([]string{"left", "top"}))
	}},
	"Calibration.Headings": {label: true, say: func(_ *testing.T, l words.Language) []string {
		measure, edges, found := l.Calibration().Headings()
		return []string{measure, edges, found}
	}},
	"Calibration.Lengths": {label: true, say: func(_ *testing.T, l words.Language) (all []string) {
		for _, row := range l.Calibration().Lengths() {
			all = append(all, row[:]...)
		}
		return all
	}},
	"Calibration.Sides": {label: true, say: func(_ *testing.T, l words.Language) []string {
		sides := l.Calibration().Sides()
		return sides[:]
	}},
	"Pages.HowToPrint": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Pages().HowToPrint()) }},
	"Pages.ForPrinter": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Pages().ForPrinter("loft")) }},
	"Pages.Number": {label: true, say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Pages().Sheet("7", 12), l.Pages().Number(2, 0), l.Pages().Number(2, 5)}
	}},
	"Pages.Copy":       {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Pages().Copy(1, 3)) }},
	"Pages.MeasureBar": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Pages().MeasureBar("100 mm")) }},
	"Pages.Sheet":      {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Pages().Sheet("7", 12)) }},
	"Pages.LayHere":    {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Pages().LayHere("8")) }},
	"Pages.Cut":        {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Pages().Cut()) }},
	"Pages.Step": {label: true, say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Pages().Step(false), l.Pages().Step(true)}
	}},
	"Cautions.Template": {say: func(_ *testing.T, l words.Language) []string { return l.Cautions().Template() }},
	"Cautions.OnePage":  {say: func(_ *testing.T, l words.Language) []string { return one(l.Cautions().OnePage()) }},
	"Cautions.SetOut": {say: func(_ *testing.T, l words.Language) []string {
		return slices.Concat(l.Cautions().SetOut(true), l.Cautions().SetOut(false))
	}},
	"Cautions.Check": {say: func(_ *testing.T, l words.Language) []string {
		return slices.Concat(l.Cautions().Check(true), l.Cautions().Check(false))
	}},
	"Templates.Heading": {label: true, say: func(_ *testing.T, l words.Language) (all []string) {
		for p := words.BeforeCutting; p <= words.TakeCare; p++ {
			all = append(all, l.Templates().Heading(p))
		}
		return all
	}},
	"Templates.Facts": {label: true, say: func(t *testing.T, l words.Language) []string {
		h := byHand(t, construct.AsMeasured, "AB=600 BC=450 CA=450")
		return slices.Concat(l.Templates().Facts(h, words.Ordered{}), l.Templates().Facts(h, words.Ordered{Which: "C lies left of AB."}))
	}},
	"Templates.Mark": {label: true, say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Templates().Mark(words.Marked{Each: 2}), l.Templates().Mark(words.Marked{Each: 1, Pair: true})}
	}},
	"Templates.Sheets": {label: true, say: func(_ *testing.T, l words.Language) []string {
		return slices.Concat(l.Templates().Sheets(words.Ordered{Pages: 1, Paper: "A4"}),
			l.Templates().Sheets(words.Ordered{Pages: 4, Both: true, Paper: "A4", Hand: "left hand", Face: "face up", Grain: [2]geom.Name{"A", "B"}}))
	}},
	"Templates.InThisOrder": {say: func(_ *testing.T, l words.Language) []string {
		short := shape.Shape{Sides: []shape.Side{{Name: "AB", Allow: 3}, {Name: "BC", Allow: -1.5}, {Name: "CA", Allow: 3}}}
		return []string{l.Templates().InThisOrder(words.Joining{Sheets: 4}, true, words.ByHand{Shape: short}), l.Templates().InThisOrder(words.Joining{Sheets: 1}, false, words.ByHand{Shape: allowed}), l.Templates().InThisOrder(words.Joining{Sheets: 3, Lay: []words.Lay{{Sheet: "1"}, {Sheet: "2"}, {Sheet: "3", On: []string{"1", "2"}}}}, false, words.ByHand{}),
			l.Templates().InThisOrder(words.Joining{Sheets: 30, Lay: []words.Lay{{Sheet: "1"}, {Sheet: "2"}, {Sheet: "3", On: []string{"1", "2"}}}}, false, words.ByHand{})}
	}},
	"Templates.Continued": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Templates().Continued("Brace")) }},
	"Templates.Bar": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Templates().Bar(1, true), l.Templates().Bar(4, true), l.Templates().Bar(4, false)}
	}},
	"Templates.InParentheses": {say: func(_ *testing.T, l words.Language) []string { return one(l.Templates().InParentheses()) }},
	"Templates.PrintAgain":    {say: func(_ *testing.T, l words.Language) []string { return one(l.Templates().PrintAgain()) }},
	"Templates.CheckHeads":    {label: true, say: func(_ *testing.T, l words.Language) []string { return l.Templates().CheckHeads(allowed)[1:] }},
	"Templates.BarRow":        {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Templates().BarRow()) }},
	"Templates.Sides": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Templates().Sides(shape.Shape{}, 1), l.Templates().Sides(allowed, 4)}
	}},
	"Templates.Outside": {say: func(_ *testing.T, l words.Language) []string {
		return slices.Concat(l.Templates().Outside(1, true), l.Templates().Outside(4, false))
	}},
	"Templates.Measures": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Templates().Measures(allowed)) }},
	"Templates.Join": {say: func(_ *testing.T, l words.Language) (all []string) {
		for _, j := range []words.Joining{
			{Sheets: 2, Lay: []words.Lay{{Sheet: "1"}, {Sheet: "2", On: one("1")}}, Last: "2", Inches: true}, {Sheets: 9, Lay: []words.Lay{{Sheet: "1"}, {Sheet: "2"}, {Sheet: "3", On: []string{"1", "2"}}}, Last: "9", Down: true, Curved: true},
			{Sheets: 20, Lay: []words.Lay{{Sheet: "1"}, {Sheet: "2", On: one("1")}}, Last: "20", Across: true, Down: true, Outline: true},
		} {
			all = append(all, l.Templates().Join(j)...)
		}
		return all
	}},
	"Templates.SpanHeads": {label: true, say: func(_ *testing.T, l words.Language) []string { return l.Templates().SpanHeads() }},
	"Templates.Span": {label: true, say: func(_ *testing.T, l words.Language) (all []string) {
		for _, s := range []words.Span{{Row: [2]string{"1", "4"}}, {Row: [2]string{"1", "4"}, Sheets: 4}, {}} {
			s.From, s.To = [2]string{"1", "2"}, [2]string{"3", "4"}
			which, from, to := l.Templates().Span(s)
			all = append(all, which, from, to)
		}
		return all
	}},
	"Templates.Spans": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Templates().Spans(0, unit.Style{}), l.Templates().Spans(180, unit.Style{})}
	}},
	"Templates.Expected": {say: func(_ *testing.T, l words.Language) (all []string) {
		for n := range 3 {
			all = append(all, l.Templates().Expected(words.Expected{Side: "CA", Within: 0.6, Joins: n, Slip: 0.2, Printer: n == 2, Inches: n == 1}))
		}
		return all
	}},
	"Templates.Corner": {label: true, say: func(_ *testing.T, l words.Language) (all []string) {
		for _, v := range []shape.Vertex{{Do: shape.Cut, By: 20}, {Do: shape.Cut, By: 20, Allow: -1}, {Do: shape.Round, By: 20}, {Do: shape.Blunt, By: 20}, {Do: shape.Mitre}} {
			all = append(all, l.Templates().Corner(v, unit.Style{}))
		}
		return all
	}},
	"Templates.Allowance":    {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Templates().Allowance("3")) }},
	"Templates.CutLine":      {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Templates().CutLine()) }},
	"Templates.FinishedEdge": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Templates().FinishedEdge()) }},
	"Steps.AsFor": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Steps().AsFor(2, "Brace plate (1 of 2)"), l.Steps().AsFor(4, "Heel plate")}
	}},
	"Templates.Running": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Templates().Running("100", "C")) }},
	"Templates.Besides": {label: true, say: func(_ *testing.T, l words.Language) []string {
		return one(l.Templates().Besides(words.ByHand{Shape: allowed}, 600, true, 3))
	}},
	"Checks.Reading": {label: true, say: func(t *testing.T, l words.Language) []string {
		return []string{l.Checks().Reading(compare.Compared{}), l.Checks().Reading(compare.Compared{Inside: true}), l.Checks().Reading(compare.Compared{Inside: true, Rough: true})}
	}},
	"Checks.Basis": {say: func(t *testing.T, l words.Language) []string {
		f := tape.FiguresOf(unit.Style{}, tape.Instrument{})
		return []string{l.Checks().Basis(words.Ranges{Permitted: 2, Printed: true}, f, wrongCorner(t)), l.Checks().Basis(words.Ranges{Pulled: true, Corrected: true}, f, wrongCorner(t))}
	}},
	"Verdicts.Fits": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Verdicts().Fits(true), l.Verdicts().Fits(false)}
	}},
	"Verdicts.Doubt": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Verdicts().Doubt([]string{"BD"}), l.Verdicts().Doubt([]string{"BD", "AC"}), l.Verdicts().Doubt(nil)}
	}},
	"Verdicts.Several": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Verdicts().Several(2, false), l.Verdicts().Several(9, true)}
	}},
	"Verdicts.Missing": {say: func(_ *testing.T, l words.Language) []string { return one(l.Verdicts().Missing()) }},
	"Verdicts.None":    {say: func(_ *testing.T, l words.Language) []string { return one(l.Verdicts().None()) }},
	"Verdicts.Went":    {say: func(_ *testing.T, l words.Language) []string { return one(l.Verdicts().Went()) }},
	"Verdicts.Reading": {say: func(_ *testing.T, l words.Language) (all []string) {
		for _, r := range []words.Read{{Good: true}, {Off: "8 mm"}, {Off: "8 mm", Short: true}, {Off: "2°", Angle: true}, {Off: "1425 mm", Far: true, To: "D"},
			{Off: "100 mm", Far: true, Slips: []slip.Slip{{Kind: slip.Hooked, By: adjust.Figure{Length: 100}}}}, {Off: "1 m", Far: true, Slips: []slip.Slip{{By: adjust.Figure{Length: 1000}}}},
			{Off: "72°", Angle: true, Far: true, Slips: []slip.Slip{{Kind: slip.OtherScale}}}, {Off: "90 mm", Far: true, Slips: []slip.Slip{{Kind: slip.Swapped, Text: "4510"}}}} {
			all = append(all, l.Verdicts().Reading(r))
		}
		return all
	}},
	"Checks.Held": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Checks().Held(words.Ranges{Permitted: 2}), l.Checks().Held(words.Ranges{Pulled: true, Corrected: true})}
	}},
	"Checks.OnPlan": {label: true, say: func(t *testing.T, l words.Language) []string {
		return one(l.Checks().OnPlan(compare.Moved{Name: "C", Off: 14}, true, unit.Style{}))
	}},
}

// allowed is a shape that is cut elsewhere than it is finished.
var allowed = shape.Shape{Sides: []shape.Side{{Allow: 3}}}

func ofHeads(say func(words.Heads) []string) func(*testing.T, words.Language) []string {
	return func(t *testing.T, in words.Language) (all []string) {
		for _, l := range layouts(t) {
			all = append(all, say(in.Heads(l))...)
		}
		return all
	}
}

// slipped is a net with a slip in DB, and one more in the mind of who reads it.
func slipped(t *testing.T) net.Adjusted {
	return adjusted(t, net.Net{Outline: names("A B C D"), Measured: measured(t, strings.Fields(read(yardLines, map[string]string{"DB": "5363"})+" BAC=36.12345deg")...)})
}

func standing(all []words.Remark) (said []string) {
	for _, r := range all {
		said = append(said, r.Sentence())
	}
	return said
}

func wrongCorner(t *testing.T) compare.Comparison {
	c, err := compare.Compare(compare.Asked{Pegs: corner, Found: measured(t, "AB=4000", "BC=3009.024", "CA=5015")})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// subjects of a language, by name.
func subjects() map[string]reflect.Type {
	all := map[string]reflect.Type{}
	l := reflect.TypeFor[words.Language]()
	for i := range l.NumMethod() {
		all[l.Method(i).Name] = l.Method(i).Type.Out(0)
	}
	return all
}

// Every language says everything, in every voice: whole sentences with nothing left
// open. A method of a subject that has no example is missed.
func TestEveryLanguageIsWhole(t *testing.T) {
	seen := map[string]bool{}
	for name, s := range subjects() {
		if s.NumMethod() > 25 {
			t.Errorf("%s has %d methods", name, s.NumMethod())
		}
		for i := range s.NumMethod() {
			key := name + "." + s.Method(i).Name
			seen[key] = true
			x, ok := examples[key]
			if !ok {
				t.Errorf("nothing says an example of %s", key)
				continue
			}
			for language, in := range languages {
				for _, v := range words.Voices() {
					all := x.say(t, in(v))
					if len(all) == 0 {
						t.Errorf("%s, %s voice: %s says nothing", language, v, key)
					}
					for _, text := range all {
						if !said(text, x.label) {
							t.Errorf("%s, %s voice: %s says %q", language, v, key, text)
						}
					}
				}
			}
		}
	}
	for key := range examples {
		if !seen[key] {
			t.Errorf("%s is no subject and method", key)
		}
	}
}

// said says whether a text is whole: of a sentence that it begins and ends as one.
func said(text string, label bool) bool {
	whole := text != "" && strings.TrimSpace(text) == text && !strings.Contains(text, "%!") && !strings.Contains(text, "  ")
	if label || !whole {
		return whole
	}
	first := []rune(text)[0]
	text = strings.TrimSuffix(text, ")") // the last sentence may stand in brackets
	return (unicode.IsUpper(first) || unicode.IsDigit(first)) && (strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?"))
}

// A document that was given no language speaks English at the bench.
func TestWithoutALanguage(t *testing.T) {
	if l := words.In(nil); l != (words.English{Voice: words.Bench}) {
		t.Errorf("%v", l)
	}
	if l := words.In(words.English{Voice: words.Floor}); l != (words.English{Voice: words.Floor}) {
		t.Errorf("%v", l)
	}
	var names []string
	for _, v := range words.Voices() {
		names = append(names, v.String())
	}
	slices.Sort(names)
	if got := strings.Join(names, " "); got != "bench class floor ground" {
		t.Error(got)
	}
}
