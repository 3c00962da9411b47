package draw

import (
	"fmt"
	"strings"
)

// Dump is a drawing as text, one operation a line, millimetres to 0.001 and
// degrees to 0.001, so that a test can compare it and a person can read it.
func Dump(d Drawing) string {
	var b strings.Builder
	for _, op := range d {
		fmt.Fprint(&b, op.Layer())
		switch o := op.(type) {
		case Line:
			fmt.Fprintf(&b, " line %.3f,%.3f %.3f,%.3f %s\n", o.From.X, o.From.Y, o.To.X, o.To.Y, o.Pen)
		case Arc:
			fmt.Fprintf(&b, " arc %.3f,%.3f r %.3f from %.3f° through %.3f° %s\n", o.Centre.X, o.Centre.Y, o.Radius, o.Start.Degrees(), o.Sweep.Degrees(), o.Pen)
		case Polyline:
			b.WriteString(" polyline")
			for _, p := range o.Points {
				fmt.Fprintf(&b, " %.3f,%.3f", p.X, p.Y)
			}
			fmt.Fprintf(&b, " closed=%t solid=%t %s\n", o.Closed, o.Solid, o.Pen)
		case Path:
			fmt.Fprintf(&b, " path closed=%t %s\n%s", o.Closed, o.Pen, Dump(o.Parts()))
		case Text:
			fmt.Fprintf(&b, " text %.3f,%.3f h %.2f turn %.3f° align %d bold=%t %q\n", o.At.X, o.At.Y, o.Height, o.Turn.Degrees(), o.Align, o.Bold, o.Words)
		}
	}
	return b.String()
}

func (p Pen) String() string {
	s := fmt.Sprintf("%.2f %s", p.Width, [...]string{"continuous", "dashed", "long-dashed dotted", "long-dashed double-dotted", "loose"}[p.Dash])
	if p.Phase != 0 {
		s += fmt.Sprintf(" from %.3f", p.Phase)
	}
	return s
}
