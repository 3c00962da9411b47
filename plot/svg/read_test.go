package svg_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// element is one path as it stands in the file, with the group that it is in.
type element struct {
	layer string
	attr  map[string]string
	curve []mark
	shut  bool
}

// mark is one command of a path, its places in mm from the bottom left corner.
type mark struct {
	command  byte
	from, to geom.Point
	control  geom.Point  // Q
	radius   unit.Length // A
	sweep    bool        // A: the flag
}

// file is what a reader of XML finds.
type file struct {
	attr        map[string]string
	title, desc string
	order       []string // of groups
	paths       []element
}

// read takes a file apart after SVG 2, chapter 9: only what trammel writes, and
// anything else ends the test.
func read(t *testing.T, data []byte) file {
	t.Helper()
	var f file
	d := xml.NewDecoder(bytes.NewReader(data))
	var height unit.Length
	layer, inside := "", ""
	for {
		token, err := d.Token()
		if err == io.EOF {
			return f
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.CharData:
			switch inside {
			case "title":
				f.title += string(e)
			case "desc":
				f.desc += string(e)
			}
		case xml.EndElement:
			inside = ""
			if e.Name.Local == "g" {
				layer = ""
			}
		case xml.StartElement:
			a := map[string]string{}
			for _, v := range e.Attr {
				a[v.Name.Local] = v.Value
			}
			inside = e.Name.Local
			switch inside {
			case "svg":
				f.attr = a
				height = length(t, strings.Fields(a["viewBox"])[3])
			case "title", "desc":
			case "g":
				layer = a["id"]
				f.order = append(f.order, layer)
			case "path":
				p := element{layer: layer, attr: a}
				p.curve, p.shut = path(t, a["d"], height)
				f.paths = append(f.paths, p)
			default:
				t.Fatalf("<%s> in the file", inside)
			}
		}
	}
}

func length(t *testing.T, s string) unit.Length {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || strings.ContainsAny(s, "eE+") || strings.HasSuffix(s, ".") || s == "-0" {
		t.Fatalf("number %q", s)
	}
	return unit.Length(v)
}

// path reads path data: numbers apart by spaces, commands in capitals.
func path(t *testing.T, d string, height unit.Length) (marks []mark, shut bool) {
	t.Helper()
	for _, c := range "MLAQZ" {
		d = strings.ReplaceAll(d, string(c), " "+string(c)+" ")
	}
	words := strings.Fields(d)
	var at, start geom.Point
	next := func() string {
		if len(words) == 0 {
			t.Fatalf("path data end in the middle: %s", d)
		}
		w := words[0]
		words = words[1:]
		return w
	}
	place := func() geom.Point {
		x, y := length(t, next()), length(t, next())
		return geom.Point{X: x, Y: height - y}
	}
	for len(words) > 0 {
		m := mark{command: next()[0], from: at}
		switch m.command {
		case 'M':
			m.to = place()
			start = m.to
		case 'L':
			m.to = place()
		case 'Q':
			m.control, m.to = place(), place()
		case 'A':
			rx, ry := length(t, next()), length(t, next())
			turn, large, sweep := next(), next(), next()
			if rx != ry || turn != "0" || large != "0" || sweep != "0" && sweep != "1" {
				t.Fatalf("arc %v %v %s %s %s", rx, ry, turn, large, sweep)
			}
			m.radius, m.sweep, m.to = rx, sweep == "1", place()
		case 'Z':
			m.to = start
			shut = true
		default:
			t.Fatalf("command %q", m.command)
		}
		marks = append(marks, m)
		at = m.to
	}
	return marks, shut
}

// circle finds the centre of an arc from its ends as SVG 2, B.2.4 does, for equal
// radii and the flag large-arc 0, with y up.
func (m mark) circle() (centre geom.Point, radius unit.Length) {
	dx, dy := float64(m.to.X-m.from.X)/2, float64(m.to.Y-m.from.Y)/2
	r := float64(m.radius)
	half := math.Hypot(dx, dy)
	r = max(r, half) // B.2.5: a radius that is too small is made to fit
	h := math.Sqrt(max(0, r*r-half*half))
	side := 1.0 // the centre is on the left of the way where it turns left
	if m.sweep {
		side = -1
	}
	return geom.Point{
		X: (m.from.X+m.to.X)/2 + unit.Length(side*-dy/half*h),
		Y: (m.from.Y+m.to.Y)/2 + unit.Length(side*dx/half*h),
	}, unit.Length(r)
}

// sample is points along the arc, as a reader with exact circles draws it.
func (m mark) sample(n int) []geom.Point {
	c, r := m.circle()
	a := geom.Line{From: c, To: m.from}.Direction()
	b := geom.Line{From: c, To: m.to}.Direction()
	sweep := math.Remainder(float64(b-a), 2*math.Pi)
	var points []geom.Point
	for i := range n + 1 {
		points = append(points, c.Toward(a+unit.Angle(sweep*float64(i)/float64(n)), r))
	}
	return points
}

func (m mark) String() string { return fmt.Sprintf("%c%v", m.command, m.to) }
