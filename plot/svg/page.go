package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/internal/decimal"
	"trammel/plot/lettering"
)

// page is the file as it grows; after a mark that cannot be written err is set.
type page struct {
	b      []byte
	height unit.Length
	warp   draw.Matrix // the zero value: none
	font   lettering.Font
	err    error
}

// pen ends a path that is stroked.
func (s *page) pen(p draw.Pen) {
	if p.Width < 0 {
		s.fail(fmt.Errorf("svg: a pen %g mm wide", p.Width))
	}
	s.text(`" stroke-width="`)
	s.num(p.Width.MM())
	for i, l := range p.Dash.Lengths(p.Width) {
		s.text([...]string{`" stroke-dasharray="`, " "}[min(i, 1)])
		s.num(l.MM())
	}
	if p.Dash != draw.Continuous && p.Phase != 0 {
		s.text(`" stroke-dashoffset="`)
		s.num(p.Phase.MM())
	}
	s.text("\"/>\n")
}

// to appends a command and a point.
func (s *page) to(command byte, p geom.Point) {
	if s.warp != (draw.Matrix{}) {
		p = s.warp.Apply(p)
	}
	s.b = append(s.b, command)
	s.num(p.X.MM())
	s.b = append(s.b, ' ')
	s.num((s.height - p.Y).MM())
}

func (s *page) num(v float64) {
	if !decimal.Finite(v) {
		s.fail(errStray)
		v = 0
	}
	s.b = decimal.Append(s.b, v, places)
}

func (s *page) text(t string) { s.b = append(s.b, t...) }

func (s *page) fail(err error) {
	if s.err == nil {
		s.err = err
	}
}

// escape makes text fit for XML, in an attribute too.
func escape(t string) string {
	var b bytes.Buffer
	xml.EscapeText(&b, []byte(t)) // into memory: no error
	return b.String()
}
