package draw

import (
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

func at(x, y unit.Length) geom.Point { return geom.Point{X: x, Y: y} }

func TestDump(t *testing.T) {
	d := Drawing{
		Line{Line: geom.Line{From: at(0, 0), To: at(100, -0.25)}, Pen: Pen{Width: 0.25, Dash: LongDashDotted, Phase: 1.5}, On: Construction},
		Arc{Arc: geom.Arc{Centre: at(1, 2), Radius: 3, Start: unit.Turn / 4, Sweep: -unit.Turn / 2}, Pen: Narrow, On: Dimension},
		Polyline{Points: []geom.Point{at(0, 0), at(10, 0), at(0, 10)}, Closed: true, Pen: Wide},
		Polyline{Points: []geom.Point{at(0, 0), at(1, 0), at(0, 1)}, Solid: true, On: Joins},
		Path{Segments: []geom.Segment{geom.Line{From: at(0, 0), To: at(2, 0)}, geom.Arc{Centre: at(2, 1), Radius: 1, Start: -unit.Turn / 4, Sweep: unit.Turn / 2}}, Pen: Behind, On: Outline},
		Text{At: at(5, 6), Height: FigureHeight, Turn: unit.Turn / 8, Align: Middle, Bold: true, Words: `2400 "B"`, On: Notes},
	}
	const want = `construction line 0.000,0.000 100.000,-0.250 0.25 long-dashed dotted from 1.500
dimensions arc 1.000,2.000 r 3.000 from 90.000° through -180.000° 0.25 continuous
outline polyline 0.000,0.000 10.000,0.000 0.000,10.000 closed=true solid=false 0.70 continuous
joins polyline 0.000,0.000 1.000,0.000 0.000,1.000 closed=false solid=true 0.00 continuous
outline path closed=false 0.35 long-dashed double-dotted
outline line 0.000,0.000 2.000,0.000 0.35 long-dashed double-dotted
outline arc 2.000,1.000 r 1.000 from -90.000° through 180.000° 0.35 long-dashed double-dotted from 2.000
notes text 5.000,6.000 h 3.50 turn 45.000° align 1 bold=true "2400 \"B\""
`
	if got := Dump(d); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	if n := len(OpTypes()); n != 5 {
		t.Errorf("%d kinds of operation, and the drawing above has 5 of them", n)
	}
}
