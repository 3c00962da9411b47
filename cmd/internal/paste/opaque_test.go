package paste

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"trammel/cmd/internal/app"
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/readback"
	"trammel/profiles"
	"trammel/profiles/job"
)

// leaf is a finished sheet: a picture of it, what is left of it when it is cut, and
// where it lies in the plane of the piece.
type leaf struct {
	label   string
	lay     int
	picture image.Gray
	kept    [][2]float64 // in page mm, as the report has it
	paper   [2]float64
	toPiece geom.Affine
	toPage  geom.Affine
	read    readback.Page
}

const opaqueDPI = 100

// opaqueLeaves makes a template of a job, and reads its PDF and its report.
func opaqueLeaves(t testing.TB, text string, o job.Overrides, known ...profiles.Calibration) (report seen, copies map[[2]int][]leaf) {
	t.Helper()
	j, err := job.Read("job.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	set, err := profiles.Load()
	if err != nil {
		t.Fatal(err)
	}
	m, err := job.Merge(j, o, set, func(string) (*profiles.Calibration, error) {
		if len(known) == 0 {
			return nil, nil
		}
		return &known[0], nil
	}, nil)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	w, err := app.Open(m, nil)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	made, err := app.KindOf("template").Make(app.Order{Work: w})
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	var file bytes.Buffer
	out, err := made.As("pdf")
	if err != nil {
		t.Fatal(err)
	}
	if err := out.File(&file); err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(made.Report())
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &report); err != nil {
		t.Fatal(err)
	}
	pages := readback.Open(t, file.Bytes())
	copies = map[[2]int][]leaf{}
	for i, p := range report.Pages {
		if p.Kind != "template" {
			if p.Lay != 0 || p.Kept != nil {
				t.Errorf("page %d is not laid, but has a place in the order", p.Number)
			}
			continue
		}
		picture := readback.Render(t, file.Bytes(), i, opaqueDPI)
		for _, q := range p.Places {
			l := leaf{label: p.Label, lay: p.Lay, picture: *picture, kept: p.Kept, paper: [2]float64{p.Width, p.Height}, toPage: q.Matrix, read: pages[i]}
			l.toPiece, _ = l.toPage.Inverse()
			copies[[2]int{q.Piece, q.Copy}] = append(copies[[2]int{q.Piece, q.Copy}], l)
		}
	}
	return report, copies
}

// seen is what the test takes from a report.
type seen struct {
	Pieces []seenPiece
	Pages  []struct {
		Number        int
		Label, Kind   string
		Width, Height float64
		Lay           int
		Kept          [][2]float64
		Places        []struct {
			Piece, Copy int
			Matrix      [6]float64
		}
	}
}

type seenPiece struct {
	Outline []string
	Points  map[string][2]float64
	Shape   *struct{}
}

// corners of the outline; of a triangle all that there are.
func (p seenPiece) corners() (all []geom.Point) {
	names := p.Outline
	if names == nil {
		names = slices.Sorted(maps.Keys(p.Points))
	}
	for _, n := range names {
		all = append(all, geom.Point{X: unit.Length(p.Points[n][0]), Y: unit.Length(p.Points[n][1])})
	}
	return all
}

// keeps says whether a place of the page, in mm, is on what is left of the sheet.
func (l leaf) keeps(p geom.Point) bool {
	in := true
	for i, a := range l.kept {
		b := l.kept[(i+1)%len(l.kept)]
		in = in && (b[0]-a[0])*(float64(p.Y)-a[1])-(b[1]-a[1])*(float64(p.X)-a[0]) >= 0
	}
	return in
}

// ink is the darkest pixel within reach of a place of the page, in pixels.
func (l leaf) ink(p geom.Point, reach int) uint8 {
	const px = opaqueDPI / 25.4
	x, y := int(math.Floor(float64(p.X)*px)), int(math.Floor((l.paper[1]-float64(p.Y))*px))
	dark := uint8(0)
	for v := y - reach; v <= y+reach; v++ {
		for u := x - reach; u <= x+reach; u++ {
			if (image.Point{X: u, Y: v}).In(l.picture.Rect) {
				dark = max(dark, 255-l.picture.GrayAt(u, v).Y)
			}
		}
	}
	return dark
}

// uppermost is the sheet that one sees at a place of the piece's plane, of sheets in the
// order in which they are laid, and where on it; false where none is.
func uppermost(laid []leaf, p geom.Point) (leaf, geom.Point, bool) {
	for _, l := range slices.Backward(laid) {
		if q := l.toPage.Apply(p); l.keeps(q) {
			return l, q, true
		}
	}
	return leaf{}, geom.Point{}, false
}

// strokes of a sheet that belong to the piece, as points 1 mm apart on the page.
func (l leaf) strokes() map[string][]geom.Point {
	all := map[string][]geom.Point{}
	for _, path := range l.read.Paths {
		if !ofPiece(path.Layer) {
			continue
		}
		rough := path.Sample(64)
		if path.Straight() {
			rough = path.Sample(1)
		}
		for i := 1; i < len(rough); i++ {
			line := geom.Line{From: rough[i-1], To: rough[i]}
			n := max(1, int(math.Ceil(float64(line.Length()))))
			for k := range n {
				q := line.At((float64(k) + 0.5) / float64(n))
				if len(path.Dashes) > 0 && l.toCut(q) < 0.4 {
					continue // between two dashes the ink there is that of the line to cut
				}
				all[path.Layer] = append(all[path.Layer], q)
			}
		}
	}
	return all
}

// Opaque paper, cut as the sheets say and laid in any order, hides nothing: whatever
// any sheet shows of outline, arcs and marks is seen on the sheet that lies on top
// there. The sheets are pictures that PDFium made.
func TestOpaque(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 6))
	var sum looked
	sheets := 0
	for n := range opaqueTemplates {
		text, o, what := randomTemplate(r)
		report, copies := opaqueLeaves(t, text, o)
		for of, laid := range copies {
			sheets += len(laid)
			name := fmt.Sprintf("%d: %s, piece %d copy %d", n, what, of[0], of[1])
			slices.SortStableFunc(laid, func(a, b leaf) int { return a.lay - b.lay })
			for i, l := range laid {
				if l.lay != i+1 {
					t.Errorf("%s: page %s is laid as number %d", name, l.label, l.lay)
				}
				l.handCut(t, name)
			}
			for _, order := range []string{"as numbered", "reversed", "shuffled"} {
				laid := slices.Clone(laid)
				switch order {
				case "reversed":
					slices.Reverse(laid)
				case "shuffled":
					r.Shuffle(len(laid), func(i, k int) { laid[i], laid[k] = laid[k], laid[i] })
				}
				sum.points += lookAtAll(t, name+", "+order, laid)
				sum.words += lookAtWords(t, name+", "+order, laid)
				if piece := report.Pieces[of[0]]; piece.Shape == nil {
					lookAtOutline(t, name+", "+order, laid, piece.corners())
				}
			}
		}
		if t.Failed() {
			t.Logf("job: %s", text)
			return
		}
	}
	t.Logf("%d templates of %d sheets, %d mm of line and %d words looked for", opaqueTemplates, sheets, sum.points, sum.words)
	if sheets < 4*opaqueTemplates || sum.points < 1000*opaqueTemplates || sum.words < 20*opaqueTemplates {
		t.Error("hardly anything was looked for")
	}
}

// On pages made for one printer the lines to cut are warped as everything is, the
// edges of the paper are not; what the report says is kept is of the file.
func TestKeptForOnePrinter(t *testing.T) {
	k := profiles.Calibration{Printer: "shed", Paper: "A4", Width: 210, Height: 297, Found: profiles.Misprint{Across: 0.01, Along: -0.005, Skew: 0.4 * unit.Degree}}
	_, copies := opaqueLeaves(t, "pieces: [{name: Brace, measure: [AB=600, BC=450, CA=450]}]", job.Overrides{Printer: job.Profile{Name: job.Setting{Text: "shed"}}}, k)
	laid := copies[[2]int{0, 1}]
	if len(laid) < 4 {
		t.Fatalf("%d sheets", len(laid))
	}
	skew := false
	for _, l := range laid {
		l.handCut(t, "for one printer")
		for i, a := range l.kept {
			b := l.kept[(i+1)%len(l.kept)]
			skew = skew || a[0] != b[0] && a[1] != b[1]
		}
	}
	if !skew {
		t.Error("no cut is warped")
	}
	lookAtAll(t, "for one printer", laid)
	slices.Reverse(laid)
	lookAtAll(t, "for one printer, reversed", laid)
}

// looked is how much was looked for.
type looked struct{ points, words int }

// lookAtAll holds what each sheet shows against what is on top there.
func lookAtAll(t *testing.T, name string, laid []leaf) (looked int) {
	t.Helper()
	// A pixel is 0.25 mm; dashes keep their step from page to page, but a renderer puts
	// their ends, and thin lines, a pixel off. The rim takes the window's outer 0.2 mm.
	const there, enough = 140, 60
	for _, l := range laid {
		for layer, points := range l.strokes() {
			hidden := 0
			var first geom.Point
			for _, q := range points {
				if l.ink(q, 0) < there {
					continue // between dashes, or beside another layer's white
				}
				looked++
				p := l.toPiece.Apply(q)
				over, at, ok := uppermost(laid, p)
				if ok && over.ink(at, 2) >= enough || !l.keeps(q) && l.toCut(q) < 0.4 {
					continue
				}
				if hidden++; hidden == 1 {
					first = q
				}
			}
			if hidden > 0 {
				t.Errorf("%s: of %s on page %s %d mm are not seen, first at %.1f, %.1f", name, layer, l.label, hidden, float64(first.X), float64(first.Y))
			}
		}
	}
	return looked
}

// lookAtOutline looks for the sides between points of the report, which are nothing
// that any sheet was asked about.
func lookAtOutline(t *testing.T, name string, laid []leaf, corners []geom.Point) {
	t.Helper()
	for i, a := range corners {
		side := geom.Line{From: a, To: corners[(i+1)%len(corners)]}
		n := int(side.Length())
		for k := range n {
			p := side.At((float64(k) + 0.5) / float64(n))
			if over, at, ok := uppermost(laid, p); !ok || over.ink(at, 1) < 100 {
				t.Errorf("%s: the outline is not seen %d mm along side %d of %d mm", name, k, i, n)
				break
			}
		}
	}
}

// lookAtWords looks for every figure and name of the piece: where one sheet bears it,
// all that is on top there bears it too.
func lookAtWords(t *testing.T, name string, laid []leaf) (words int) {
	t.Helper()
	for _, l := range laid {
		for _, w := range l.read.Words {
			if !ofPiece(w.Layer) {
				continue
			}
			words++
			start := l.toPiece.Apply(w.At)
			for _, at := range alongBox(w.Bounds) {
				over, _, ok := uppermost(laid, l.toPiece.Apply(at))
				if !ok || !slices.ContainsFunc(over.read.Words, func(o readback.Words) bool {
					return o.Text == w.Text && over.toPiece.Apply(o.At).Distance(start) < 0.1
				}) {
					t.Errorf("%s: %q of page %s is hidden at %.1f, %.1f", name, w.Text, l.label, float64(at.X), float64(at.Y))
					break
				}
			}
		}
	}
	return words
}

// alongBox is points in a box, a millimetre apart or less.
func alongBox(b geom.Rect) (all []geom.Point) {
	n, m := 1+int(b.Width()), 1+int(b.Height())
	for i := range n + 1 {
		for k := range m + 1 {
			all = append(all, b.Min.Plus(geom.Point{X: b.Width() * unit.Length(i) / unit.Length(n), Y: b.Height() * unit.Length(k) / unit.Length(m)}))
		}
	}
	return all
}

// ofPiece says whether a layer is the piece's, not the paper's.
func ofPiece(layer string) bool {
	return slices.Contains([]string{"outline", "construction", "dimensions"}, strings.ToLower(layer))
}

// toCut is how far a place of the page is from the edge of what is kept.
func (l leaf) toCut(p geom.Point) float64 {
	near := math.Inf(1)
	for i, a := range l.kept {
		b := l.kept[(i+1)%len(l.kept)]
		near = min(near, math.Abs((b[0]-a[0])*(float64(p.Y)-a[1])-(b[1]-a[1])*(float64(p.X)-a[0]))/math.Hypot(b[0]-a[0], b[1]-a[1]))
	}
	return near
}

// randomTemplate is a job of one triangle, shape or net on some paper.
func randomTemplate(r *rand.Rand) (text string, o job.Overrides, what string) {
	say := func(s string) job.Setting { return job.Setting{Text: s, Where: "--flag"} }
	pick := func(of ...string) string { return of[r.IntN(len(of))] }
	length := func(lo, hi float64) float64 { return math.Round(lo * math.Pow(hi/lo, r.Float64())) }
	piece, size := "", length(250, 1500)
	switch r.IntN(4) {
	case 0, 1:
		a, b := size*(0.4+0.6*r.Float64()), size*(0.4+0.6*r.Float64())
		piece = fmt.Sprintf("measure: [AB=%.0f, A=%ddeg, CA=%.0f]", a, 15+r.IntN(130), b)
	case 2:
		const least = 240 // so that the hole lies within
		a, b := max(least, size*(0.5+0.5*r.Float64())), max(least, size*(0.5+0.5*r.Float64()))
		piece = fmt.Sprintf("measure: [AB=%.0f, A=%ddeg, CA=%.0f], base: AB, edges: [AB allow 3, CA allow -2], corners: [A cut 30, B round 25], holes: [12 at AB 60 from A 70]", a, 70+r.IntN(40), b)
	case 3: // a net of four points, hollow or not
		at := [4]geom.Point{{}, {X: 1}, {X: 0.6 + unit.Length(0.6*r.Float64()), Y: 0.5 + unit.Length(0.5*r.Float64())}, {X: unit.Length(0.3 * r.Float64()), Y: 0.3 + unit.Length(0.6*r.Float64())}}
		var tokens []string
		for i := range at {
			for k := i + 1; k < 4; k++ {
				tokens = append(tokens, fmt.Sprintf("%c%c=%.2f", 'A'+i, 'A'+k, float64(at[i].Distance(at[k]))*size))
			}
		}
		piece = fmt.Sprintf("measure: [%s], outline: [A, B, C, D]", strings.Join(tokens, ", "))
	}
	quantity := pick("", "", "", ", quantity: 2")
	text = "pieces: [{name: Panel, " + piece + quantity + "}]"
	paper, overlap, margin := pick("A4", "A4", "A5", "A3", "Letter", "180x240"), pick("4", "8", "10", "10", "20", "45"), pick("5", "10", "10", "18")
	o = job.Overrides{Paper: job.Profile{Name: say(paper)}, Overlap: say(overlap), Margin: say(margin), Pages: say(pick("full", "outline"))}
	if r.IntN(4) == 0 {
		o.Landscape = say("yes")
	}
	if r.IntN(4) == 0 {
		o.Turn = say(fmt.Sprintf("%ddeg", r.IntN(180)))
	}
	return text, o, fmt.Sprintf("%s, %s on %s, overlap %s, margin %s, %s", piece, quantity, paper, overlap, margin, o.Pages.Text)
}
