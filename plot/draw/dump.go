package draw

import (
	"fmt"
	"io"
)

// Dump writes a drawing as text, one operation a line, millimetres to 0.001 and
// degrees to 0.001, so that a test can compare it and a person can read it.
func Dump(w io.Writer, d Drawing) error {
	for _, op := range d {
		var err error
		switch o := op.(type) {
		case Line:
			_, err = fmt.Fprintf(w, "%s line %.3f,%.3f %.3f,%.3f %s\n", o.On, o.From.X, o.From.Y, o.To.X, o.To.Y, o.Pen)
		case Arc:
			_, err = fmt.Fprintf(w, "%s arc %.3f,%.3f r %.3f from %.3f° through %.3f° %s\n", o.On, o.Centre.X, o.Centre.Y, o.Radius, o.Start.Degrees(), o.Sweep.Degrees(), o.Pen)
		case Polyline:
			_, err = fmt.Fprintf(w, "%s polyline", o.On)
			for _, p := range o.Points {
				if err == nil {
					_, err = fmt.Fprintf(w, " %.3f,%.3f", p.X, p.Y)
				}
			}
			if err == nil {
				_, err = fmt.Fprintf(w, " closed=%t solid=%t %s\n", o.Closed, o.Solid, o.Pen)
			}
		case Path:
			_, err = fmt.Fprintf(w, "%s path closed=%t %s\n", o.On, o.Closed, o.Pen)
			if err == nil {
				err = Dump(w, o.Parts())
			}
		case Text:
			_, err = fmt.Fprintf(w, "%s text %.3f,%.3f h %.2f turn %.3f° align %d bold=%t %q\n", o.On, o.At.X, o.At.Y, o.Height, o.Turn.Degrees(), o.Align, o.Bold, o.Words)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (p Pen) String() string {
	s := fmt.Sprintf("%.2f %s", p.Width, [...]string{"continuous", "dashed", "long-dashed dotted", "long-dashed double-dotted"}[p.Dash])
	if p.Phase != 0 {
		s += fmt.Sprintf(" from %.3f", p.Phase)
	}
	return s
}
