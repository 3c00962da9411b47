package lettering

import (
	"math"
	"slices"
	"sync"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

var _ draw.Ruler = Font{}

// other reads the same fonts with golang.org/x/image/font/sfnt, which shares no
// code with the library that the package uses. At this size one unit of the font
// is one whole number of it.
type other struct {
	*sfnt.Font
	buf sfnt.Buffer
	ppm fixed.Int26_6
}

func newOther(t testing.TB, bold bool) *other {
	t.Helper()
	file := goregular.TTF
	if bold {
		file = gobold.TTF
	}
	f, err := sfnt.Parse(file)
	if err != nil {
		t.Fatal(err)
	}
	return &other{Font: f, ppm: fixed.Int26_6(f.UnitsPerEm())}
}

func (o *other) glyph(t testing.TB, r rune) sfnt.GlyphIndex {
	t.Helper()
	i, err := o.GlyphIndex(&o.buf, r)
	if err != nil {
		t.Fatal(err)
	}
	return i
}

const words = `Brace plate 2400 × 1200 mm, 52.4°; 7′10½″ "Ünter" Łódź √2 → (620) ±2`

func TestWidthAgainstAnotherReader(t *testing.T) {
	for _, bold := range []bool{false, true} {
		o := newOther(t, bold)
		var sum fixed.Int26_6
		for _, r := range words {
			a, err := o.GlyphAdvance(&o.buf, o.glyph(t, r), o.ppm, font.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			sum += a
		}
		metrics, err := o.Metrics(&o.buf, o.ppm, font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		for _, h := range []unit.Length{2.5, 14} {
			want := h * unit.Length(sum) / unit.Length(metrics.CapHeight)
			if got := Go().Width(words, h, bold); math.Abs(float64(got-want)) > 1e-9 {
				t.Errorf("bold %t, %v high: %v wide, want %v", bold, h, got, want)
			}
		}
	}
}

func TestOutlineAgainstAnotherReader(t *testing.T) {
	const all = words + "&@#äåß%¼⅛ÀçĞőŞžΩ≤≥≈"
	for _, bold := range []bool{false, true} {
		o := newOther(t, bold)
		for _, r := range all {
			segments, err := o.LoadGlyph(&o.buf, o.glyph(t, r), o.ppm, nil)
			if err != nil {
				t.Fatal(err)
			}
			var want, got []step
			for _, s := range segments {
				n := map[sfnt.SegmentOp]int{sfnt.SegmentOpMoveTo: 1, sfnt.SegmentOpLineTo: 1, sfnt.SegmentOpQuadTo: 2, sfnt.SegmentOpCubeTo: 3}[s.Op]
				w := step{op: s.Op}
				for _, p := range s.Args[:n] {
					w.points = append(w.points, geom.Point{X: unit.Length(p.X), Y: -unit.Length(p.Y)})
				}
				want = append(want, w)
			}
			// A capital as high as it is in the font makes one unit 1 mm.
			for _, c := range Go().Outline(string(r), Go().face(bold).capital, bold) {
				got = append(got, step{sfnt.SegmentOpMoveTo, []geom.Point{c.Start}})
				last := c.Start
				for _, s := range c.Segments {
					if s.Curved {
						got = append(got, step{sfnt.SegmentOpQuadTo, []geom.Point{s.Control, s.To}})
					} else {
						got = append(got, step{sfnt.SegmentOpLineTo, []geom.Point{s.To}})
					}
					last = s.To
				}
				if last != c.Start { // the other reader writes the closing line
					got = append(got, step{sfnt.SegmentOpLineTo, []geom.Point{c.Start}})
				}
			}
			same := func(a, b step) bool {
				return a.op == b.op && slices.EqualFunc(a.points, b.points, func(p, q geom.Point) bool {
					return p.Distance(q) <= 0.75 // it cuts off the half of an implied point, in x and in y
				})
			}
			if !slices.EqualFunc(got, want, same) {
				t.Fatalf("%q bold %t:\n%v\nwant\n%v", r, bold, got, want)
			}
		}
	}
}

// step is one segment as the other reader names it.
type step struct {
	op     sfnt.SegmentOp
	points []geom.Point
}

// Heights are those of capitals (ISO 3098): the outline of H is as high as asked,
// stands on the base line, and words follow each other by their advance.
func TestCapitals(t *testing.T) {
	for _, bold := range []bool{false, true} {
		for _, h := range []unit.Length{2.5, 3.5, 7, 14} {
			b := bounds(Go().Outline("HHH", h, bold))
			if math.Abs(float64(b.Max.Y-h)) > 1e-9 || math.Abs(float64(b.Min.Y)) > 1e-9 {
				t.Errorf("bold %t: H reaches from %v to %v, want 0 to %v", bold, b.Min.Y, b.Max.Y, h)
			}
			one := bounds(Go().Outline("H", h, bold))
			if want := one.Width() + 2*Go().Width("H", h, bold); math.Abs(float64(b.Width()-want)) > 1e-9 {
				t.Errorf("bold %t: HHH is %v wide, want %v", bold, b.Width(), want)
			}
		}
	}
}

// draw.Text says how far letters reach below the base line; nothing of Latin text
// goes lower.
func TestNothingBelowTheBox(t *testing.T) {
	for _, bold := range []bool{false, true} {
		for r := rune('!'); r < 0x180; r++ {
			if Go().Missing(string(r)) != 0 {
				continue
			}
			o := draw.Text{Height: 10, Bold: bold, Words: string(r)}
			contours := Go().Outline(o.Words, o.Height, bold)
			if len(contours) == 0 {
				continue // a space
			}
			if low := bounds(contours).Min.Y; low < o.Bounds(Go()).Min.Y {
				t.Errorf("%q reaches %v below the base line, the box %v", r, -low, -o.Bounds(Go()).Min.Y)
			}
		}
	}
}

func bounds(contours []Contour) geom.Rect {
	b := geom.RectOf(contours[0].Start)
	for _, c := range contours {
		for _, s := range c.Segments {
			b = b.Join(geom.RectOf(s.To))
			if s.Curved {
				b = b.Join(geom.RectOf(s.Control))
			}
		}
	}
	return b
}

func TestMissing(t *testing.T) {
	for _, c := range []struct {
		words string
		want  rune
	}{
		{"", 0}, {words, 0}, {"12\u2009345.5", 0}, {"A\u00a0B\u202fC\u2007D\u2011E", 0}, {"− × ÷ ± ° ′ ″ ½ ¼ ⅛ → √ Ø", 0},
		{"∠ABC", '∠'}, {"Ø ⌀", '⌀'}, {"⊥", '⊥'}, {"⅓", '⅓'}, {"ok ✓", '✓'}, {"板", '板'}, {"🪚", '🪚'},
		{"two\nlines", '\n'}, {"tab\t", '\t'}, {"\x00", '\uFFFD'}, {"broken \xff", '\uFFFD'}, {"\uFFFD", '\uFFFD'}, {"\u200b", '\u200b'},
	} {
		if got := Go().Missing(c.words); got != c.want {
			t.Errorf("%q: %q is missing, want %q", c.words, got, c.want)
		}
		if err := Go().Check(c.words); (err != nil) != (c.want != 0) {
			t.Errorf("%q: %v", c.words, err)
		}
	}
	const want = `"∠ABC": the lettering has no character '∠' (U+2220)`
	if err := Go().Check("∠ABC"); err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
}

// The spaces that the fonts lack: a figure space is as wide as a figure and a thin
// space a fifth of the em (The Unicode Standard, 6.2, "Space characters"). None is
// drawn.
func TestSpaces(t *testing.T) {
	for _, bold := range []bool{false, true} {
		em := Go().Em(7, bold)
		for s, want := range map[string]unit.Length{"\u2007": Go().Width("0", 7, bold), "\u2009": em / 5, "\u202f": em / 5, "\u200a": em / 8} {
			if got := Go().Width(s, 7, bold); math.Abs(float64(got-want)) > float64(em)/1000 {
				t.Errorf("%U is %v wide, want %v", []rune(s)[0], got, want)
			}
			if n := len(Go().Outline(s, 7, bold)); n != 0 {
				t.Errorf("%U is drawn", []rune(s)[0])
			}
		}
		for r := '0'; r <= '9'; r++ { // columns of figures stand below each other
			if Go().Width(string(r), 7, bold) != Go().Width("0", 7, bold) {
				t.Errorf("%c is not as wide as 0", r)
			}
		}
	}
}

func TestManyAtOnce(t *testing.T) {
	want, err := Go().Subset([]rune("Tight 12"), false)
	if err != nil {
		t.Fatal(err)
	}
	width := Go().Width(words, 3.5, true)
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			for range 5 {
				s, err := Go().Subset([]rune("Tight 12"), false)
				if err != nil || string(s.File) != string(want.File) {
					t.Errorf("another subset beside others: %v", err)
				}
				if w := Go().Width(words, 3.5, true); w != width {
					t.Errorf("width %v, want %v", w, width)
				}
				if len(Go().Outline("Äg", 3.5, false)) != 6 { // A 2, its dots 2, g 2
					t.Error("an outline has another number of contours")
				}
			}
		})
	}
	group.Wait()
}

func BenchmarkWidth(b *testing.B) {
	f := Go()
	b.ReportAllocs()
	for b.Loop() {
		f.Width("2400 mm from A, 52.4°", 3.5, false)
	}
}

func BenchmarkSubset(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Go().Subset([]rune(words), false); err != nil {
			b.Fatal(err)
		}
	}
}
