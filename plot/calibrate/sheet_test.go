package calibrate

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
)

var papers = []Sheet{
	onPaper("A5", 148, 210), onPaper("A4", 210, 297), onPaper("A3", 297, 420), onPaper("A1", 594, 841), onPaper("A0", 841, 1189),
	onPaper("Letter", 215.9, 279.4), onPaper("Legal", 215.9, 355.6), onPaper("A4 on its side", 297, 210), onPaper("914x1500", 914, 1500), onPaper("141x900", 141, 900),
}

// Words are no smaller than 2.5 mm, lie on the paper, touch neither each other nor a
// stroke, and say what has to be said.
func TestSheetCanBeRead(t *testing.T) {
	r := lettering.Go()
	for _, s := range papers {
		for _, number := range []int{1, 2} {
			s.Number, s.Corrected = number, geom.Distortion{Across: -0.01, Along: 0.005, Skew: 0.2 * unit.Degree}
			pages, err := s.Pages(r)
			if err != nil {
				t.Fatal(err)
			}
			if most := 1 + int(1.5/math.Min(1, s.Width.MM()*s.Height.MM()/50000)); len(pages) > most || s.Width >= 210 && s.Height >= 270 && len(pages) > 1 {
				t.Errorf("%s: %d pages", s.Paper, len(pages))
			}
			all := ""
			for _, p := range pages {
				var boxes []geom.Rect
				for _, op := range p.Ops {
					o, ok := op.(draw.Text)
					if !ok {
						continue
					}
					all += o.Words + " "
					if o.Height < draw.NoteHeight {
						t.Errorf("%s: %q is %v mm high", s.Paper, o.Words, o.Height)
					}
					b := o.Bounds(r)
					if !p.Bounds().Has(b.Min) || !p.Bounds().Has(b.Max) {
						t.Errorf("%s: %q hangs over the paper", s.Paper, o.Words)
					}
					for _, c := range boxes {
						if b.Grow(-0.2).Meets(c) {
							t.Errorf("%s %d: %q touches other words at %v", s.Paper, number, o.Words, b)
						}
					}
					boxes = append(boxes, b)
					// The letters' own upright box, for words that lie level.
					for _, q := range p.Ops {
						if l, ok := q.(draw.Line); ok && o.Turn == 0 {
							if _, meets := geom.ClipLine(l.Line, geom.Rect{Min: geom.Point{X: b.Min.X, Y: o.At.Y}, Max: b.Max}.Grow(-0.05)); meets {
								t.Errorf("%s %d: %q has a line through it: %v", s.Paper, number, o.Words, l.Line)
							}
						}
					}
				}
				if (p.Warp == draw.Matrix{}) != (number == 1) || p.Kind != draw.Calibration {
					t.Errorf("%s %d: warp %v, kind %s", s.Paper, number, p.Warp, p.Kind)
				}
			}
			say := []string{"Calibration of shed", "100 %, actual size", "A to B", "A to D", "A to C", "B to D", "--found", "--printer shed", "width=", ",diagonal="}
			if number == 1 {
				say = append(say, "0.25 mm", "--paper "+strings.ReplaceAll(s.Paper, " ", "-"), "edges=", "left", "bottom")
			} else {
				say = append(say, "on any other printer it is wrong", "--again --sheet 2", "tenths")
			}
			for _, w := range say {
				if !strings.Contains(all, w) && !strings.Contains(strings.ReplaceAll(all, " ", ""), strings.ReplaceAll(w, " ", "")) {
					t.Errorf("%s %d: %q is not said", s.Paper, number, w)
				}
			}
		}
	}
}

// The rectangle is as large as the paper and the inset allow; on a corrected sheet
// its lengths end midway between tenths, no more than a few millimetres less.
func TestRectangle(t *testing.T) {
	for _, s := range papers {
		a := s.Rectangle()
		if a.Min != (geom.Point{X: 10, Y: 10}) || a.Width() != s.Width-20 || a.Height() != s.Height-20 {
			t.Errorf("%s: %v", s.Paper, a)
		}
		s.Number = 2
		b := s.Rectangle()
		if a.Width()-b.Width() > 2 || a.Height()-b.Height() > 2 || b.Width() > a.Width() || b.Height() > a.Height() {
			t.Errorf("%s: corrected %v, first %v", s.Paper, b, a)
		}
		for _, l := range []unit.Length{b.Width(), b.Height(), b.Min.Distance(b.Max)} {
			_, tenths := math.Modf(l.MM() * 10)
			if math.Abs(tenths-0.5) > 0.201 {
				t.Errorf("%s: a length of %v does not end midway between tenths", s.Paper, l)
			}
		}
		if c, d := a.Centre(), b.Centre(); c.Distance(d) > 1e-9 {
			t.Errorf("%s: the corrected rectangle is not in the middle", s.Paper)
		}
	}
}

func TestSheetFaults(t *testing.T) {
	for _, c := range []struct {
		s          Sheet
		code       unit.Code
		what, hint string
	}{
		{onPaper("A6", 105, 148), unit.TooSmall, "the rectangle would be 85 by 128 mm, and 120 mm a side is the least that is worth measuring", ""},
		{onPaper("914xany", 914, 5080), unit.Plain, "a sheet 5080 mm long is longer than any steel rule", "of a roll, name a length: 914x1500"},
		{Sheet{Printer: "上", Paper: "A4", Width: 210, Height: 297, Inset: 10, Number: 1}, unit.Plain, "the lettering has no character '上' (U+4E0A)", "write it with other letters"},
	} {
		_, err := c.s.Pages(lettering.Go())
		var f *unit.Fault
		if !errors.As(err, &f) || f.Code != c.code || f.What != c.what || f.Hint != c.hint {
			t.Errorf("%s: %v", c.s.Paper, err)
		}
	}
}

// A tick that meets a mark says the tenths, whatever the scale: worked by hand for
// a side of 200 mm that comes out 1 % long, so that tick 5, 13.5 mm before the
// cross, is printed at 188.365 mm.
func TestTicksAreFreeOfTheScale(t *testing.T) {
	r := Readings{Width: 200, Height: 200, Fine: true, AB: 202, AD: 202, AC: 285.7, BD: 285.7}
	s := r.Spans()[0]
	if s.Over != (geom.Point{X: 192}) || s.Found != 194 || s.Step != 0.1 {
		t.Errorf("202.0 was compared over %v and found %v", s.Over, s.Found)
	}
	r.AB = 201.5
	s = r.Spans()[0]
	if math.Abs(float64(s.Over.X)-186.5) > 1e-9 || math.Abs(float64(s.Found)-188) > 1e-9 {
		t.Errorf("201.5 was compared over %v and found %v, want 186.5 and 188", s.Over, s.Found)
	}
}

// On a printer that is true but for a slip of 3 mm each reading is found out, with
// what it ought to be.
func TestSuspects(t *testing.T) {
	for i, name := range names {
		r := Readings{Width: 190, Height: 277, AB: 190, AD: 277, AC: 336, BD: 336}
		*[]*unit.Length{&r.AB, &r.AD, &r.AC, &r.BD}[i] += 3
		err := r.Check("A4")
		var f *unit.Fault
		if !errors.As(err, &f) || !strings.HasPrefix(f.Hint, "measure "+name+" again first") {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, zero := range []Readings{{Width: 190, Height: 277}, {Width: 190, Height: 277, AB: 1, AD: 1, AC: 10000, BD: 1}, {Width: 190, Height: 277, AB: 9000, AD: 1, AC: 1, BD: 1}} {
		if err := zero.Check("A4"); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%+v: %v", zero, err)
		}
	}
}

// Sheets that do not agree are refused, with a length of the last one to measure.
func TestSheetsThatDisagree(t *testing.T) {
	d := geom.Distortion{Across: -0.004, Along: 0.001, Skew: 0.1 * unit.Degree}
	s := onPaper("A4", 210, 297)
	first := readBy(s, d)
	s.Number, s.Corrected = 2, d
	second := readBy(s, d)
	if _, err := Solve([]Readings{first, second}); err != nil {
		t.Fatal(err)
	}
	other := readBy(s, geom.Distortion{Across: 0.002, Along: 0.001})
	_, err := Solve([]Readings{first, other})
	var f *unit.Fault
	if !errors.As(err, &f) || f.Subject != unit.Found || f.Code != unit.Unlike || !slices.Contains(names[:], f.Figure) {
		t.Errorf("%v", err)
	}
}
