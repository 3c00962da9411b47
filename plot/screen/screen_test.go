package screen

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/gate"
	"trammel/geom/net"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/words"
)

func parsed(t *testing.T, tokens ...string) (all []triangle.Measurement) {
	t.Helper()
	for _, s := range tokens {
		m, err := triangle.ParseMeasurement(s, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, m)
	}
	return all
}

func ofTriangle(t *testing.T, tokens ...string) Piece {
	t.Helper()
	s, err := triangle.Solve(parsed(t, tokens...), [2]geom.Name{})
	if err != nil {
		t.Fatal(tokens, err)
	}
	c, err := construct.Construct(s, 0, construct.AsMeasured)
	if err != nil {
		t.Fatal(tokens, err)
	}
	return Piece{Construction: c, Measured: s.Measured, Figures: unit.Style{Unit: unit.MM}}
}

// boat is the boat store's floor of the examples, D pointing inward.
var boat = []string{"AB=5210", "BC=2484", "CD=1670", "DE=1385", "EF=3582", "FA=3942", "AC=5873", "AD=4431", "AE=5331", "BD=2953", "BF=6487", "DF=3870"}

func ofNet(t *testing.T, outline []geom.Name, tokens ...string) Piece {
	t.Helper()
	a, err := net.Adjust(net.Net{Measured: parsed(t, tokens...), Outline: outline})
	if err != nil {
		t.Fatal(tokens, err)
	}
	o := geom.OutlineOf(a.Outline, a.Polygon())
	return Piece{Construction: construct.ConstructNet(o, nil, a.Base, parsed(t, tokens...)), Measured: parsed(t, tokens...), Figures: unit.Style{Unit: unit.MM}}
}

var letters = []geom.Name{"A", "B", "C", "D", "E", "F", "G", "H", "J", "K", "L", "M"}

// randomPiece is a triangle of any form, needles and flat ones too, or a net of 4 to 12
// points round a middle, notches too, with all its sides and enough diagonals.
func randomPiece(r *rand.Rand) Piece {
	n := 3
	if r.IntN(3) > 0 {
		n = 4 + r.IntN(9)
	}
	size := math.Exp(r.Float64()*6 + 4)
	var o geom.Polygon
	for i := range n {
		a := unit.Turn * unit.Angle((float64(i)+0.8*r.Float64())/float64(n))
		o = append(o, geom.Point{}.Toward(a, unit.Length(size*(0.15+0.85*r.Float64()))))
	}
	names := letters[:n]
	var ms []triangle.Measurement
	add := func(i, j int) {
		d := o[i].Distance(o[j]).MM()
		m, err := triangle.ParseMeasurement(fmt.Sprintf("%s%s=%.1f", names[i], names[j], max(d, 1)), unit.MM)
		if err == nil {
			ms = append(ms, m)
		}
	}
	for i := range n {
		add(i, (i+1)%n)
	}
	for k := 2; k+1 < n; k++ {
		add(0, k)
		if r.IntN(3) == 0 {
			add(1, k+1)
		}
	}
	out := geom.OutlineOf(names, o)
	return Piece{Construction: construct.ConstructNet(out, nil, [2]geom.Name{names[0], names[1]}, ms), Measured: ms, Figures: unit.Style{Unit: unit.MM}}
}

// overlap names two tags of a picture that lie nearer to each other than a finger tells,
// or one that leaves it.
func overlap(p Picture) string {
	for i, a := range p.Tags {
		if a.X < 0 || a.Y < 0 || a.X+a.W > p.Width+0.01 || a.Y+a.H > p.Height+0.01 {
			return fmt.Sprintf("%s leaves the picture: %+v in %g × %g", a.Of, a, p.Width, p.Height)
		}
		if a.W < 43.99 || a.H < 43.99 {
			return fmt.Sprintf("%s is too small for a finger: %g × %g", a.Of, a.W, a.H)
		}
		for _, b := range p.Tags[:i] {
			if a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.H && b.Y < a.Y+a.H {
				return fmt.Sprintf("%s lies on %s: %+v, %+v", a.Of, b.Of, a, b)
			}
		}
	}
	return ""
}

var lettered = regexp.MustCompile(`class="letter" x="([-\d.]+)" y="([-\d.]+)">`)

// covered names a tag that lies over the letter of a corner.
func covered(p Picture) string {
	for _, m := range lettered.FindAllStringSubmatch(p.SVG, -1) {
		var x, y float64
		if _, err := fmt.Sscan(m[1], &x); err != nil {
			return err.Error()
		}
		if _, err := fmt.Sscan(m[2], &y); err != nil {
			return err.Error()
		}
		y -= 7 // from its base line to its middle
		for _, g := range p.Tags {
			if g.X < x+9 && x-9 < g.X+g.W && g.Y < y+9 && y-9 < g.Y+g.H {
				return fmt.Sprintf("%s lies over the letter at %g, %g", g.Of, x, y)
			}
		}
	}
	return ""
}

// Every size of screen, from half a phone to a projector.
func TestTagsNeverOverlap(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(11, 1))
	widths := []float64{160, 320, 360, 412, 600, 820, 1080, 1440}
	all, rows, missing := 0, 0, 0
	for range gate.Of(60, 1000) {
		p := randomPiece(r)
		width := widths[r.IntN(len(widths))]
		for _, pic := range []Picture{Draw(p, width), Sketch(Asked{Measured: p.Measured, Outline: p.Construction.Outline.Names}, width)} {
			if bad := overlap(pic) + covered(pic); bad != "" {
				t.Fatalf("%g px: %s", width, bad)
			}
			for _, m := range p.Measured {
				if n := count(pic.Tags, m); n != 1 {
					t.Fatalf("%g px: %s has %d tags", width, m.Subject(), n)
				}
			}
			all += len(pic.Tags)
			for _, g := range pic.Tags {
				if g.Row {
					rows++
				}
			}
			missing += len(p.Construction.Outline.Names) - strings.Count(pic.SVG, "<text")
		}
	}
	t.Logf("%d tags, %d of them in rows below; %d letters without room", all, rows, missing)
	if missing > 0 {
		t.Errorf("%d letters of corners are missing", missing)
	}
}

func count(tags []Tag, m triangle.Measurement) (n int) {
	for _, g := range tags {
		o, err := triangle.ParseMeasurement(g.Of+"=1", unit.MM)
		if err == nil && o.Same(m) {
			n++
		}
	}
	return n
}

// svgOf reads a picture back: its lines by what they are of, and the numbers of its steps.
func svgOf(t *testing.T, svg string) (lines map[string]geom.Line, words []string, steps []string) {
	t.Helper()
	lines = map[string]geom.Line{}
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return lines, words, steps
		}
		if err != nil {
			t.Fatal(err, svg)
		}
		switch e := tok.(type) {
		case xml.CharData:
			words = append(words, string(e))
		case xml.StartElement:
			at := map[string]string{}
			for _, a := range e.Attr {
				at[a.Name.Local] = a.Value
			}
			if s, ok := at["data-step"]; ok {
				steps = append(steps, s)
			}
			if e.Name.Local == "line" && at["class"] != "hit" && at["data-of"] != "" {
				var l geom.Line
				if _, err := fmt.Sscan(at["x1"], &l.From.X); err != nil {
					t.Fatal(err)
				}
				for k, v := range map[string]*unit.Length{"y1": &l.From.Y, "x2": &l.To.X, "y2": &l.To.Y} {
					if _, err := fmt.Sscan(at[k], v); err != nil {
						t.Fatal(err)
					}
				}
				lines[at["data-of"]] = l
			}
		}
	}
}

// The picture is the piece: lengths are in its proportions, the baseline lies level with
// the piece above it, and a line that was measured across it is there to be tapped.
func TestPictureIsThePiece(t *testing.T) {
	t.Parallel()
	p := ofNet(t, letters[:6], boat...)
	pic := Draw(p, 360)
	lines, words, _ := svgOf(t, pic.SVG)
	k := float64(lines["AB"].Length()) / 5210
	for of, want := range map[string]float64{"BD": 2953, "CD": 1670, "DE": 1385, "BF": 6487} {
		if got := float64(lines[of].Length()) / k; math.Abs(got-want) > 25 {
			t.Errorf("%s is drawn %.0f mm long, want %.0f", of, got, want)
		}
	}
	if d := lines["AB"].From.Y - lines["AB"].To.Y; math.Abs(float64(d)) > 0.11 {
		t.Errorf("the baseline rises by %g", d)
	}
	if pic.Spots["F"][1] > pic.Spots["A"][1] {
		t.Errorf("the piece hangs below its baseline: %v", pic.Spots)
	}
	slices.Sort(words)
	if got := strings.Join(words, ""); got != "ABCDEF" {
		t.Errorf("words in the picture: %q", got)
	}
	for _, g := range pic.Tags {
		if want := map[bool]Kind{true: Diagonal, false: Side}[slices.Contains([]string{"AC", "AD", "AE", "BD", "BF", "DF"}, g.Of)]; g.Kind != want || !g.Given {
			t.Errorf("%s is a %s, given %t", g.Of, g.Kind, g.Given)
		}
	}
}

// What is worked out is not given, what is doubtful is marked, each angle has a tag.
func TestWhatTagsSay(t *testing.T) {
	t.Parallel()
	p := ofTriangle(t, "AB=600", "BC=450", "A=48.19deg")
	p.Doubtful = []string{"BC"}
	got := map[string]string{}
	for _, g := range Draw(p, 400).Tags {
		got[g.Of] = fmt.Sprintf("%s %s %t %t", g.Kind, g.Say, g.Given, g.Doubt)
	}
	for of, want := range map[string]string{"AB": "side 600 true false", "BC": "side 450 true true", "A": "angle 48.19° true false"} {
		if got[of] != want {
			t.Errorf("%s: %s, want %s", of, got[of], want)
		}
	}
	if len(got) != 6 || !strings.HasSuffix(got["C"], "° false false") {
		t.Errorf("tags: %v", got)
	}
}

// From nothing to one value to all: a shape that can be tapped, its known sides in
// proportion.
func TestSketchFromTheFirstValueOn(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		measured []string
		outline  []geom.Name
		tags     int
	}{
		{nil, nil, 6},
		{[]string{"AB=600"}, nil, 6},
		{[]string{"AB=600", "A=90deg"}, nil, 6},
		{[]string{"AB=600", "C-AB=200"}, nil, 7},
		{[]string{"AB=600"}, letters[:4], 4},
		{[]string{"AB=600", "BC=300", "CD=600", "DA=300"}, letters[:4], 4},
		{[]string{"PQ=600"}, nil, 6},
		{boat, letters[:6], 12},
	} {
		p := Sketch(Asked{Measured: parsed(t, c.measured...), Outline: c.outline}, 360)
		if len(p.Tags) != c.tags || !p.Rough || p.Gap != 0 {
			t.Errorf("%v: %d tags, rough %t, gap %g", c.measured, len(p.Tags), p.Rough, p.Gap)
		}
		lines, _, _ := svgOf(t, p.SVG)
		for i, m := range c.measured {
			if i > 0 && strings.Contains(m, "B=") == false && len(c.measured) < 5 && !strings.Contains(m, "deg") {
				a, b := lines[m[:2]].Length(), lines[c.measured[0][:2]].Length()
				x, y := value(parsed(t, m)[0]), value(parsed(t, c.measured[0])[0])
				if math.Abs(float64(a/b)-x/y) > 0.02 {
					t.Errorf("%v: %s is %.2f of %s, want %.2f", c.measured, m, a/b, c.measured[0], x/y)
				}
			}
		}
		if bad := overlap(p); bad != "" {
			t.Error(bad)
		}
	}
}

// What does not meet shows by how much, to scale.
func TestGapIsDrawn(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		measured []string
		gap      float64
	}{
		{[]string{"AB=600", "BC=200", "CA=300"}, 100},
		{[]string{"AB=200", "BC=600", "CA=300"}, 100},
		{[]string{"AB=600", "A=30deg", "BC=250"}, 50}, // 600·sin 30° − 250
		{[]string{"AB=600", "A=120deg", "BC=250"}, 350},
		{[]string{"AB=600", "BC=450", "CA=450"}, 0},
		{[]string{"AB=600", "A=30deg", "BC=350"}, 0},
	} {
		p := Sketch(Asked{Measured: parsed(t, c.measured...)}, 360)
		if math.Abs(p.Gap-c.gap) > 1e-6 {
			t.Errorf("%v: a gap of %g, want %g", c.measured, p.Gap, c.gap)
		}
		if got := strings.Contains(p.SVG, `class="gap"`); got != (c.gap > 0) {
			t.Errorf("%v: gap drawn %t", c.measured, got)
		}
	}
}

// One group of lines a sentence, in their order; each point once.
func TestHandHasItsSteps(t *testing.T) {
	t.Parallel()
	for _, p := range []Piece{ofTriangle(t, "AB=600", "BC=450", "CA=450"), ofTriangle(t, "KL=80", "K=35deg", "LM=60"), ofNet(t, letters[:6], boat...)} {
		h := Hand(p.Construction, 800)
		_, named, steps := svgOf(t, h.SVG)
		said := words.InWords(words.In(nil).Steps(), words.ByHand{Construction: p.Construction, Figures: p.Figures})
		if len(steps) != len(said) || h.Steps != len(steps) || steps[len(steps)-1] != fmt.Sprint(len(steps)-1) {
			t.Errorf("steps %v, sentences %q", steps, said)
		}
		if len(named) != len(p.Construction.Names()) {
			t.Errorf("letters %v of %v", named, p.Construction.Names())
		}
	}
}

// Each sheet stands on the map with its number, over the whole piece.
func TestMapShowsEachSheet(t *testing.T) {
	t.Parallel()
	p := ofTriangle(t, "AB=600", "BC=450", "CA=450")
	var sheets []Sheet
	for i := range 4 {
		x := unit.Length(i) * 180
		sheets = append(sheets, Sheet{fmt.Sprint(i + 1), [4]geom.Point{{X: x}, {X: x + 190}, {X: x + 190, Y: 270}, {X: x, Y: 270}}})
	}
	m := Map(p.Construction, sheets, 360)
	_, words, _ := svgOf(t, m.SVG)
	if got := strings.Join(words, ""); got != "1234" || strings.Count(m.SVG, `class="sheet"`) != 4 {
		t.Errorf("numbers %q in %s", got, m.SVG)
	}
}

// A drawing for paper keeps its places and its words, and shows what is new.
func TestPaperOnAScreen(t *testing.T) {
	t.Parallel()
	d := draw.Drawing{
		draw.Line{Line: geom.Line{From: geom.Point{X: 10, Y: 10}, To: geom.Point{X: 60, Y: 10}}, Pen: draw.Wide},
		draw.Arc{Arc: geom.Arc{Centre: geom.Point{X: 10, Y: 10}, Radius: 20, Sweep: unit.Turn / 4}, Pen: draw.Thin},
		draw.Text{At: geom.Point{X: 10, Y: 30}, Height: 3.5, Words: "A < B", Align: draw.Middle},
	}
	p := Paint(d, 100, 50, lettering.Go())
	_, named, _ := svgOf(t, p.SVG)
	if p.Width != 400 || p.Height != 200 || strings.Join(named, "") != "A < B" {
		t.Errorf("%g × %g, %q", p.Width, p.Height, named)
	}
	for _, want := range []string{`<g class="new"><path class="line" pathLength="1" d="M40 160L240 160"/>`, `M120 160A80 80 0 0 0 40 80`, `x="40" y="80"`} {
		if !strings.Contains(p.SVG, want) {
			t.Errorf("no %s in %s", want, p.SVG)
		}
	}
}

// No name runs as markup.
func TestNamesAreNoMarkup(t *testing.T) {
	t.Parallel()
	p := ofTriangle(t, "AB=600", "BC=450", "CA=450")
	p.Construction.Outline.Names = []geom.Name{"<b>", `"x`, "&"}
	if svg := Draw(p, 360).SVG; strings.Contains(svg, "<b>") || strings.Contains(svg, `""x`) || strings.Contains(svg, "&<") {
		t.Error(svg)
	}
}

func BenchmarkDraw(b *testing.B) {
	r := rand.New(rand.NewPCG(11, 2))
	p := randomPiece(r)
	for b.Loop() {
		Draw(p, 360)
	}
}
