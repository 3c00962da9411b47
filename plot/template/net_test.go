package template

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// netPiece is a piece of corners A, B, C …, the first two its baseline, with inner
// points P1, P2 …; its sides and the distances named are measured.
func netPiece(t testing.TB, corners geom.Polygon, inner []geom.Point, also string) Piece {
	t.Helper()
	var names []geom.Name
	at := map[geom.Name]geom.Point{}
	for i, p := range corners {
		n := geom.Name(rune('A' + i))
		names, at[n] = append(names, n), p
	}
	o := geom.OutlineOf(names, corners)
	var spots []construct.Spot
	for i, p := range inner {
		n := geom.Name(fmt.Sprintf("P%d", i+1))
		spots, at[n] = append(spots, construct.Spot{Name: n, At: p}), p
	}
	tokens := strings.Fields(also)
	for i := range names {
		tokens = append(tokens, o.Side(i))
	}
	var measured []triangle.Measurement
	for _, pair := range tokens {
		m, err := triangle.ParseMeasurement(pair+"=1", unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		measured = append(measured, m)
	}
	c := construct.ConstructNet(o, spots, [2]geom.Name{names[0], names[1]}, measured)
	return Piece{Job: "Boathouse refit", Name: "Hatch", Construction: c, Measured: measured}
}

// hollow is a board round a post, with a station in it.
func hollow(t testing.TB, k unit.Length) Piece {
	at := func(x, y unit.Length) geom.Point { return geom.Point{X: x * k, Y: y * k} }
	return netPiece(t, geom.Polygon{at(0, 0), at(640, 0), at(655, 240), at(420, 255), at(410, 430), at(-12, 418)}, []geom.Point{at(200, 200)}, "AC AD AE BD BF DF AP1 BP1")
}

// randomPolygon is a star about a middle, hollow as often as not.
func randomPolygon(rnd *rand.Rand) (corners geom.Polygon, inner []geom.Point) {
	n := 4 + rnd.IntN(6)
	size := 60 * math.Pow(15, rnd.Float64())
	for i := range n {
		a := unit.Turn * unit.Angle((float64(i)+0.6*rnd.Float64())/float64(n))
		corners = append(corners, geom.Point{}.Toward(a, unit.Length(size*(0.35+0.65*rnd.Float64()))))
	}
	m := geom.Placement{Turn: -corners.Edge(0).Direction()}
	m.Shift = geom.Point{}.Minus(m.Apply(corners[0]))
	return m.Polygon(corners), []geom.Point{m.Apply(geom.Point{}.Toward(1, unit.Length(size/10)))}[:rnd.IntN(2)]
}

func TestLabelsOfNetsTouchNothing(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	missing, labels := 0, 0
	for n := range netsWithLabels {
		corners, inner := randomPolygon(rnd)
		p := netPiece(t, corners, inner, "AC BD")
		on, cover := []paging.Sheet{a4, a5}[n%2], paging.Cover(n/2%2)
		plan := netLaid(t, p, on, cover)
		d, missed, err := drawn(p, plan, font, full())
		if err != nil {
			t.Fatal(err)
		}
		if err := fault(d, plan.Windows(), font); err != nil {
			t.Errorf("net %d on %s (%d pages): %v", n, on.Name, len(plan.Cells), err)
		}
		missing += len(missed)
		for _, op := range d {
			if _, ok := op.(draw.Text); ok {
				labels++
			}
		}
	}
	// Arcs whose crossing no page shows, in a corner closed in by others.
	if missing > labels/100 {
		t.Errorf("%d labels of %d found no room", missing, labels)
	}
	t.Logf("%d labels of %d found no room", missing, labels)
}

func netLaid(t testing.TB, p Piece, on paging.Sheet, c paging.Cover) paging.Plan {
	t.Helper()
	plan, err := paging.Lay(p.Outline.Points, on, c, nil, paging.Effort{})
	if err != nil {
		t.Fatal(err)
	}
	return Settle(plan)
}

// Every corner and every inner point has its letter, beside it and not beside
// another, and each side its length; angles are those inside, the hollow one too.
func TestNetIsLettered(t *testing.T) {
	p := hollow(t, 1)
	plan := netLaid(t, p, a4, paging.Full)
	d, missed, err := drawn(p, plan, font, full())
	if err != nil || missed != nil {
		t.Fatalf("%q, %v", missed, err)
	}
	words := map[string]int{}
	for _, op := range d {
		if o, ok := op.(draw.Text); ok {
			words[o.Words]++
		}
	}
	// Sides by Pythagoras; the angle at D is 360° less atan2(175, −10) + atan2(15, 235).
	for _, w := range []string{"A", "B", "C", "D", "E", "F", "P1", "AB 640", "BC 240.5", "CD 235.5", "DE 175.3", "EF 422.2", "FA 418.2", "(263.1°)"} {
		if words[w] != 1 {
			t.Errorf("%q stands %d times in %v", w, words[w], words)
		}
	}
}

// The steps of a net in words: which of two crossings, and the outline in a row.
func TestNetInWords(t *testing.T) {
	got := strings.Join(Steps(hollow(t, 1), full()), "\n")
	const want = `Knife AB, 640, off the straight edge.
Set the trammel, or a batten on a pin, to 697.6. From A scribe an arc above AB.
Set the compasses to 240.5. From B cross the first arc. Two crossings: C is the one above AB. Prick C.
Set the trammel to 491.4. From A scribe an arc above AB.
Set the trammel to 336.8. From B cross the first arc. Two crossings: D is the one above AB. Prick D.
Set the trammel to 594.1. From A scribe an arc.
Set the compasses to 175.3. From D cross the first arc. Two crossings: E is the one farther from B. Prick E.
Set the trammel to 422.2. From E scribe an arc.
Set the trammel to 418.2. From A cross the first arc. Two crossings: F is the one farther from B. Prick F.
Set the compasses to 282.8. From A scribe an arc above AB.
Set the trammel to 483.3. From B cross the first arc. Two crossings: P1 is the one above AB. Prick P1.
Knife B to C, then D, E, F and A.
Rule on BF: it should read 774.5.
Rule on DF: it should read 461.7.
Rule on CD: it should read 235.5.`
	if got != want {
		t.Errorf("%s", got)
	}
}
