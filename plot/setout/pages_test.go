package setout

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/internal/pagetest"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/pdf"
	"trammel/plot/plan"
	"trammel/plot/readback"
	"trammel/plot/sheet"
)

// shapes are the usual ones and the awkward ones.
var shapes = []struct {
	name, tokens string
	change       func(*Input)
}{
	{"gable", gable, nil},
	{"gable with north", gable, func(in *Input) { in.North = plan.North{Name: "north", Turn: 70 * unit.Degree} }},
	{"metre", "AB=1000 BC=500 CA=806.2", nil},
	{"hundred", "AB=100000 BC=99479 CA=99479", func(in *Input) { in.Style.Unit = unit.M }},
	{"hundred, lower", "AB=100000 BC=69971 CA=53814", func(in *Input) { in.Style.Unit = unit.M }},
	{"flat", "AB=10000 CA=4011.234 BC=6007.495", nil},
	{"needle", "AB=10000 C-AB=15 CA=9800", nil},
	{"obtuse to the right", "AB=5000 CA=8062.258 BC=4472.136", base("A", "B")},
	{"obtuse to the left", "AB=5000 CA=3354.102 BC=7158.911", base("A", "B")},
	{"right angle at an end", "AB=4000 CA=3000 BAC=90deg", base("B", "A")},
	{"feet", "AB=24ft C-AB=11ft CA=13ft3in", func(in *Input) { in.Style = unit.Style{Unit: unit.FT} }},
	{"inches to 1/64", "AB=24ft C-AB=11ft CA=13ft3in", func(in *Input) { in.Style = unit.Style{Unit: unit.IN, Denominator: 64} }},
	{"tall", "AB=2000 CA=9044.9 BC=9067", base("A", "B")},
	{"foot beside an end", "AB=6000 C-AB=3000 CA=3000.2", nil},
	{"foot beside the middle", "AB=6000 C-AB=2500 CA=3914", nil},
}

func pagesOf(t testing.TB, s Sheet, paper paging.Sheet) []draw.Page {
	t.Helper()
	pages, err := s.Pages(paper, lettering.Go())
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

func TestPages(t *testing.T) {
	ruler := lettering.Go()
	for _, c := range shapes {
		s := prepared(t, c.tokens, c.change)
		few := []paging.Sheet{pagetest.A4, pagetest.A5}
		for _, paper := range gate.Of(few, append(few, pagetest.A4Wide, pagetest.A3, pagetest.A3Wide, pagetest.Letter)) {
			pages := pagesOf(t, s, paper)
			name := fmt.Sprintf("%s on %s %.0f×%.0f", c.name, paper.Name, paper.Width, paper.Height)
			most := 2 // one leaf
			if paper.Name == "A5" {
				most = 4
			}
			if len(pages) > most {
				t.Errorf("%s: %d pages", name, len(pages))
			}
			all, boxes, places := "", 0, 0
			for i, p := range pages {
				if p.Kind != draw.Setout || p.Piece != "Gable" {
					t.Errorf("%s: kind %s, piece %s", name, p.Kind, p.Piece)
				}
				places += len(p.Places)
				inside := p.Bounds().Grow(-sheet.LeastMargin + 0.3) // half of the widest pen may stand over
				for _, op := range p.Ops {
					if b := op.Bounds(ruler); !inside.Has(b.Min) || !inside.Has(b.Max) {
						t.Errorf("%s: page %d: %+v lies in the margin", name, i+1, op)
					}
					switch o := op.(type) {
					case draw.Text:
						if strings.ContainsAny(o.Words, "()σ√") {
							t.Errorf("%s: page %d says %q", name, i+1, o.Words)
						}
						all += o.Words + "\n"
						if o.Height < draw.NoteHeight {
							t.Errorf("%s: %q is %.2f high", name, o.Words, o.Height)
						}
						if c := ruler.Missing(o.Words); c != 0 {
							t.Errorf("%s: the lettering has no %q", name, c)
						}
					case draw.Polyline:
						if b := o.Bounds(ruler); o.Closed && !o.Solid && len(o.Points) == 4 {
							boxes++
							if b.Height() < 8 || b.Width() < 20 {
								t.Errorf("%s: a box of %.1f × %.1f", name, b.Width(), b.Height())
							}
						}
					}
				}
				want := fmt.Sprintf("page %d of %d", i+1, len(pages))
				if len(pages) == 2 {
					want = []string{"front", "back"}[i]
				}
				if !strings.Contains(all, want) {
					t.Errorf("%s: no %q", name, want)
				}
			}
			if boxes != len(s.siteChecks()) || places != 1 {
				t.Errorf("%s: %d boxes for %d checks, %d places", name, boxes, len(s.siteChecks()), places)
			}
			for _, want := range []string{"The plan is a picture", "Bold is given, the rest computed.", "set out by", "licensed surveyor", "Before the first peg", "Buried services", "Stand at ", "95 of 100"} {
				if !strings.Contains(all, want) {
					t.Errorf("%s: the sheet does not say %q", name, want)
				}
			}
			// Words are broken over lines, columns and pages.
			flow := strings.Join(strings.Fields(pagetest.Running(pages)), "")
			for i, step := range s.Steps {
				if !strings.Contains(flow, strings.Join(strings.Fields(step), "")) {
					t.Errorf("%s: the sheet does not have step %d: %s", name, i+1, step)
				}
			}
			for _, l := range append(slices.Collect(names(s)), s.Main[0].Peg) {
				if !strings.Contains(all, string(l)+"\n") {
					t.Errorf("%s: no %s", name, l)
				}
			}
			pagetest.Overlaps(t, name, pages, ruler)
		}
	}
}

// scales to draw plans at.
var scales = []int{5, 10, 20, 50, 100, 200, 500, 1000}

func names(s Sheet) func(func(geom.Name) bool) {
	return func(yield func(geom.Name) bool) {
		for _, p := range s.sitePegs() {
			if !yield(p.Name) {
				return
			}
		}
	}
}

// Labels of the plan keep 2 mm from each other and do not touch a line, measured
// by points set closely along the boxes and the strokes, not by the code that
// placed them. Every letter of the tables is on the plan.
func TestPlanLabelsKeepApart(t *testing.T) {
	check := func(name string, s Sheet, scale int) {
		p := s.planned().Draw(float64(scale), lettering.Go())
		type box struct {
			words  string
			points []geom.Point
		}
		var boxes []box
		var strokes []geom.Point
		along := func(a, b geom.Point, step unit.Length) (out []geom.Point) {
			n := int(a.Distance(b)/step) + 1
			for i := range n + 1 {
				out = append(out, geom.Line{From: a, To: b}.At(float64(i)/float64(n)))
			}
			return out
		}
		for _, op := range p.Ops {
			switch o := op.(type) {
			case draw.Text:
				q := o.Box(lettering.Go())
				b := box{words: o.Words}
				rows := int(o.Height/0.4) + 1
				for i := range rows + 1 {
					f := float64(i) / float64(rows)
					b.points = append(b.points, along(geom.Line{From: q[0], To: q[3]}.At(f), geom.Line{From: q[1], To: q[2]}.At(f), 0.4)...)
				}
				boxes = append(boxes, b)
			case draw.Line:
				strokes = append(strokes, along(o.From, o.To, 0.2)...)
			case draw.Arc:
				for i := range 65 {
					strokes = append(strokes, o.Arc.At(float64(i)/64))
				}
			case draw.Polyline:
				for i := range o.Points {
					strokes = append(strokes, along(o.Points[i], o.Points[(i+1)%len(o.Points)], 0.2)...)
				}
			}
		}
		gap := func(a, b []geom.Point) float64 {
			least := math.Inf(1)
			ra, rb := geom.RectOf(a[0], a...).Grow(3), geom.RectOf(b[0], b...)
			if !ra.Meets(rb) {
				return least
			}
			for _, p := range a {
				for _, q := range b {
					least = min(least, float64(p.Distance(q)))
				}
			}
			return least
		}
		there := map[string]bool{}
		for i, b := range boxes {
			there[b.words] = true
			if first, _, ok := strings.Cut(b.words, "  "); ok {
				there[first] = true
			}
			for _, c := range boxes[:i] {
				if d := gap(b.points, c.points); d < 2-1e-6 {
					t.Errorf("%s at 1:%d: %q and %q are %.2f mm apart", name, scale, b.words, c.words, d)
				}
			}
			near := geom.RectOf(b.points[0], b.points...).Grow(1)
			var close []geom.Point
			for _, p := range strokes {
				if near.Has(p) {
					close = append(close, p)
				}
			}
			if len(close) > 0 {
				// A leader ends 0.6 from its letters.
				if d := gap(b.points, close); d < 0.55 {
					t.Errorf("%s at 1:%d: %q is %.2f mm from a line", name, scale, b.words, d)
				}
			}
		}
		for _, peg := range s.sitePegs() {
			if !there[string(peg.Name)] {
				t.Errorf("%s at 1:%d: no letter %s", name, scale, peg.Name)
			}
		}
		apex := peg(t, s, s.Main[0].Peg).At
		for _, end := range s.Ends() {
			l := peg(t, s, end).At.Distance(apex)
			if !there[s.Figure(l)] {
				t.Errorf("%s at 1:%d: no length %s", name, scale, s.Figure(l))
			}
		}
	}
	for _, c := range shapes {
		s := prepared(t, c.tokens, c.change)
		for i, scale := range scales {
			if w := extentOf(s) / unit.Length(scale); w < 260 && w > 25 || i == len(scales)-1 && w >= 260 {
				check(c.name, s, scale)
			}
		}
	}
	r := rand.New(rand.NewPCG(9, 10))
	for i := range 60 {
		s, ok := random(t, r, []unit.Style{{}, {Unit: unit.FT}, {Unit: unit.M}}[i%3])
		if !ok {
			continue
		}
		for _, scale := range scales {
			if w := extentOf(s) / unit.Length(scale); w < 170 {
				check(fmt.Sprintf("random %d", i), s, scale)
				break
			}
		}
	}
}

// The plan in the finished PDF, read back by PDFium: its wide outline lies where
// the page's matrix puts the corners of the piece in its own plane.
func TestFinishedPDF(t *testing.T) {
	for _, c := range shapes {
		s := prepared(t, c.tokens, c.change)
		net := adjusted(t, c.tokens, "")
		pages := pagesOf(t, s, pagetest.A4)
		var file bytes.Buffer
		if err := pdf.Write(&file, draw.Document{Title: c.name, Language: "en", Pages: slices.Values(pages)}); err != nil {
			t.Fatal(err)
		}
		back := readback.Open(t, file.Bytes())
		if len(back) != len(pages) {
			t.Fatalf("%s: %d pages came back of %d", c.name, len(back), len(pages))
		}
		first := back[0]
		m := pages[0].Places[0].Matrix
		var want []geom.Point
		for _, p := range net.Points {
			x, y := p.X.MM(), p.Y.MM()
			want = append(want, geom.Point{X: unit.Length(m[0]*x + m[2]*y + m[4]), Y: unit.Length(m[1]*x + m[3]*y + m[5])})
		}
		found := false
		for _, p := range first.Paths {
			if p.Filled || math.Abs((p.Width-draw.Wide.Width).MM()) > 0.01 || len(p.Corners()) < 3 {
				continue
			}
			found = true
			for _, corner := range p.Corners() {
				least := math.Inf(1)
				for _, w := range want {
					least = min(least, float64(corner.Distance(w)))
				}
				if least > 0.005 {
					t.Errorf("%s: a corner at %v, the corners are at %v", c.name, corner, want)
				}
			}
		}
		if !found {
			t.Errorf("%s: no outline", c.name)
		}
	}
}

// The plan is as wide as the page lets it, or as high: nothing is to scale, so no room is
// given away to one. Its letters are all of one size.
func TestPlanFillsItsRoom(t *testing.T) {
	for _, c := range shapes {
		s := prepared(t, c.tokens, c.change)
		p, ok := s.planned().Fit(190, 120, lettering.Go())
		if w, h := p.Bounds.Width(), p.Bounds.Height(); !ok || w < 176 && h < 112 || w > 190 || h > 120 {
			t.Errorf("%s: %.1f × %.1f of 190 × 120 (%v)", c.name, w, h, ok)
		}
		heights := map[unit.Length]bool{}
		for _, op := range p.Ops {
			if o, is := op.(draw.Text); is && o.Bold && slices.Contains(s.Outline, geom.Name(o.Words)) {
				heights[o.Height] = true
			}
		}
		if len(heights) != 1 {
			t.Errorf("%s: corners have letters of %v", c.name, heights)
		}
	}
}

// The office's page follows the leaf, and its words lie on nothing else.
func TestOfficePage(t *testing.T) {
	s := prepared(t, gable, nil)
	s.Office = true
	pages := pagesOf(t, s, pagetest.A4)
	if len(pages) != 3 || !strings.Contains(pagetest.Running(pages[2:]), "Which way is surest") || strings.Contains(pagetest.Running(pages[:2]), "surest") {
		t.Fatalf("%d pages", len(pages))
	}
	pagetest.Overlaps(t, "office", pages, lettering.Go())
	for _, op := range pages[2].Ops {
		top := pages[2].Height - sheet.LeastMargin - 18
		if l, ok := op.(draw.Line); ok && l.From.Y > top+0.1 {
			t.Errorf("a line at %.1f runs through the head", l.From.Y)
		}
	}
}

func TestPagesRefuse(t *testing.T) {
	s := prepared(t, gable, nil)
	for _, c := range []struct {
		change func(*Sheet)
		paper  paging.Sheet
		what   string
	}{
		{nil, paging.Sheet{Name: "A6", Width: 105, Height: 148}, "A6: 85 × 100 mm to write on are too small for a setting-out sheet"},
		{func(s *Sheet) { s.Piece = "Giebel 破" }, pagetest.A4, `"Giebel 破": the lettering has no '破' (U+7834)`},
	} {
		u := s
		if c.change != nil {
			c.change(&u)
		}
		_, err := u.Pages(c.paper, lettering.Go())
		if f, ok := err.(*unit.Fault); !ok || f.Error() != c.what || f.Hint == "" {
			t.Errorf("%v, want %q", err, c.what)
		}
	}
}

// What no name, however long, may do.
func TestLongNames(t *testing.T) {
	s := prepared(t, gable, func(in *Input) {
		in.Job, in.Piece = strings.Repeat("Donaudampfschifffahrt ", 20), strings.Repeat("Gable ", 40)
		in.North = plan.North{Name: strings.Repeat("harbour ", 6), Turn: -2}
	})
	ruler := lettering.Go()
	for _, p := range pagesOf(t, s, pagetest.A4) {
		for _, op := range p.Ops {
			if b := op.Bounds(ruler); b.Min.X < 9.7 || b.Max.X > 200.3 {
				t.Errorf("%+v runs off the page", op)
			}
		}
	}
}

func TestSameInputSamePages(t *testing.T) {
	dump := func() string {
		var b strings.Builder
		for _, p := range pagesOf(t, prepared(t, "AB=7200 BC=5000 CA=4000", nil), pagetest.A4) {
			b.WriteString(draw.Dump(p.Ops))
		}
		return b.String()
	}
	if a, b := dump(), dump(); a != b || len(a) < 1000 {
		t.Error("two runs differ")
	}
}

func BenchmarkPages(b *testing.B) {
	s := prepared(b, gable, nil)
	r := lettering.Go()
	for b.Loop() {
		if _, err := s.Pages(pagetest.A4, r); err != nil {
			b.Fatal(err)
		}
	}
}

// The pages of a sheet with crowded pegs print the details, on any paper, and every
// corner has its name on a plan or in one of them.
func TestPagesHaveDetails(t *testing.T) {
	names := "ABCDGHJKLMNPSTUVWXYZ"
	points := []geom.Point{{}, {X: 24000}, {X: 24000, Y: 16000}, {Y: 16000}}
	r := rand.New(rand.NewPCG(15, 16))
	for len(points) < len(names) {
		points = append(points, geom.Point{X: unit.Length(7+r.NormFloat64()) * unit.Metre, Y: unit.Length(5+r.NormFloat64()) * unit.Metre})
	}
	tokens := ""
	for i := range points {
		for _, j := range []int{0, 1, 2} {
			if j < i {
				tokens += fmt.Sprintf("%c%c=%.0f ", names[j], names[i], float64(points[j].Distance(points[i])))
			}
		}
	}
	s := preparedNet(t, tokens, "ABCD", nil)
	few := []paging.Sheet{pagetest.A4}
	for _, paper := range gate.Of(few, append(few, pagetest.A4Wide, pagetest.A3, pagetest.A5)) {
		pages := pagesOf(t, s, paper)
		words := map[string]bool{}
		details, pointed := 0, 0
		for i, page := range pages {
			for _, op := range page.Ops {
				o, ok := op.(draw.Text)
				if !ok {
					continue
				}
				if o.Bold || i == 0 {
					words[o.Words] = true
				}
				if strings.HasPrefix(o.Words, "Detail ") {
					details++
				}
				if strings.HasPrefix(o.Words, "detail ") {
					pointed++
				}
				if b := o.Bounds(lettering.Go()); b.Min.X < sheet.LeastMargin-0.3 || b.Max.X > page.Width-sheet.LeastMargin+0.3 || b.Min.Y < sheet.LeastMargin-0.3 {
					t.Errorf("%s: page %d: %q lies in the margin", paper.Name, i+1, o.Words)
				}
			}
		}
		if details == 0 || details != pointed {
			t.Errorf("%s %.0f wide: %d details, %d on the plan", paper.Name, paper.Width, details, pointed)
		}
		for _, n := range names {
			if !words[string(n)] {
				t.Errorf("%s: no %c", paper.Name, n)
			}
		}
	}
}
