package template

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/paging"
)

var update = flag.Bool("update", false, "write the goldens anew; read them before they are kept")

var (
	a3     = paging.Sheet{Name: "A3", Width: 297, Height: 420, Left: 10, Right: 10, Top: 10, Bottom: 10, Overlap: 10}
	a0     = paging.Sheet{Name: "A0", Width: 841, Height: 1189, Left: 20, Right: 20, Top: 20, Bottom: 20, Overlap: 10}
	lying  = paging.Sheet{Name: "A4 on its side", Width: 297, Height: 210, Left: 10, Right: 10, Top: 10, Bottom: 10, Overlap: 10}
	letter = paging.Sheet{Name: "Letter", Width: 215.9, Height: 279.4, Left: 12.7, Right: 12.7, Top: 12.7, Bottom: 12.7, Overlap: 10}
)

func words1(p draw.Page) string {
	var all []string
	for _, op := range p.Ops {
		if o, ok := op.(draw.Text); ok {
			all = append(all, o.Words)
		}
	}
	return strings.Join(all, "\n")
}

// Saw and square stand on a second page where the first is full.
func TestIndexIsOnePageWhereItCanBe(t *testing.T) {
	for _, c := range []struct {
		tokens      string
		on          paging.Sheet
		cover       paging.Cover
		without, of int // saw and square
	}{
		{"AB=600 BC=450 CA=450", a4, paging.Full, 1, 2},
		{"AB=900 BC=640 CA=1100", a4, paging.Full, 1, 2},
		{"AB=900 BC=640 CA=1100", letter, paging.OutlineOnly, 2, 2},
		{"AB=8000 BC=6000 CA=5000", a4, paging.Full, 2, 2},
		{"AB=8000 BC=6000 CA=5000", a4, paging.OutlineOnly, 2, 2},
		{"AB=900 BC=640 CA=1100", a3, paging.Full, 1, 1},
		{"AB=2000 BC=1990 CA=60", a4, paging.Full, 1, 2},
		{"AB=5000 A=40deg C=60deg", a4, paging.Full, 2, 2},
		{"AB=5000 A=40deg C=60deg", a0, paging.Full, 1, 1},
		{"AB=7200 A=35deg B=35deg", a4, paging.Full, 2, 2},
		{"AB=7200 A=35deg B=35deg", a5, paging.Full, 3, 4},
		{"AB=7200 A=35deg B=35deg", lying, paging.Full, 2, 2},
		{"AB=500 BC=300 CA=230", lying, paging.Full, 2, 2},
		{"AB=500 BC=300 CA=230", a5, paging.Full, 3, 3},
		{"AB=15000 BC=12000 CA=9000", a5, paging.Full, 3, 4},
		{"AB=150 BC=120 CA=130", a4, paging.Full, 1, 1},
	} {
		p := piece(t, c.tokens)
		plan := laid(t, p, c.on, c.cover)
		pages, err := Index(p, plan, font, full(), Front{Notes: []string{"2031-05-04"}})
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("%s on %s", c.tokens, c.on.Name)
		if len(pages) > c.of {
			t.Errorf("%s: the index takes %d pages", name, len(pages))
		}
		s := full()
		s.Settings = false
		if short, err := Index(p, plan, font, s, Front{Notes: []string{"2031-05-04"}}); err != nil || len(short) > c.without {
			t.Errorf("%s: without saw and square the index takes %d pages, %v", name, len(short), err)
		}
		area := geom.Rect{Min: geom.Point{X: c.on.Left, Y: c.on.Bottom}, Max: geom.Point{X: c.on.Width - c.on.Right, Y: c.on.Height - c.on.Top}}
		all := ""
		for _, page := range pages {
			if page.Kind != draw.Index || page.Piece != p.Name || page.Width != c.on.Width || page.Height != c.on.Height || page.Label != "" {
				t.Errorf("%s: the page is %q %q %v × %v", name, page.Kind, page.Label, page.Width, page.Height)
			}
			if err := touching(page.Ops, []geom.Rect{area.Grow(1)}, font, 0.25, 0.5); err != nil {
				t.Errorf("%s: %v", name, err)
			}
			for _, op := range page.Ops {
				if b := op.Bounds(font); !area.Has(b.Min) || !area.Has(b.Max) {
					t.Errorf("%s: %v lies in the margin", name, op)
				}
			}
			all += words1(page) + "\n"
		}
		// A day's work, in this order.
		heads := []string{"Before cutting", "Put together", "Without the paper", "Cautions"}
		if len(plan.Cells) == 1 {
			heads = slices.DeleteFunc(heads, func(h string) bool { return h == "Put together" })
		}
		at := -1
		for _, h := range append([]string{p.Name, p.Job + "; millimetres", "mark 2"}, heads...) {
			i := strings.Index(all, h)
			if i <= at {
				t.Errorf("%s: %q is not in its place", name, h)
			}
			at = i
		}
		for _, w := range []string{"2031-05-04", "bar", fmt.Sprintf("%d sheet", len(plan.Cells)), "Local codes"} {
			if !strings.Contains(strings.Join(strings.Fields(all), " "), w) {
				t.Errorf("%s: %q is missing", name, w)
			}
		}
	}
}

// A ladder of blocks, as long as it says from the first block's ink to the outline's end.
func TestIndexHasATrueBar(t *testing.T) {
	for _, c := range []struct {
		unit   unit.Unit
		want   unit.Length
		blocks int
	}{{unit.MM, 100, 5}, {unit.IN, 101.6, 4}, {unit.FT, 101.6, 4}} {
		p := piece(t, "AB=600 BC=450 CA=450")
		s := full()
		s.Figures.Unit = c.unit
		pages, err := Index(p, laid(t, p, a4, paging.Full), font, s, Front{})
		if err != nil {
			t.Fatal(err)
		}
		blocks, from := 0, unit.Length(1e9)
		for _, op := range pages[0].Ops {
			if o, ok := op.(draw.Polyline); ok && o.Solid {
				blocks++
				b := geom.Polygon(o.Points).Bounds()
				from = min(from, b.Min.X)
				if math.Abs(float64(b.Width()-c.want/unit.Length(2*c.blocks))) > 1e-9 {
					t.Errorf("a block is %v long", b.Width())
				}
			}
		}
		if blocks != c.blocks {
			t.Errorf("%d blocks, want %d", blocks, c.blocks)
		}
		found := false
		for _, op := range pages[0].Ops {
			if o, ok := op.(draw.Polyline); ok && o.Closed && o.Pen == draw.Thin {
				b := geom.Polygon(o.Points).Bounds().Grow(draw.Thin.Width / 2) // its ink
				found = found || math.Abs(float64(b.Min.X-from)) < 1e-9 && math.Abs(float64(b.Width()-c.want)) < 1e-9
			}
		}
		if !found {
			t.Errorf("no bar of %v", c.want)
		}
	}
}

// Windows 190 wide every 180: a line from 5 to 585 needs four, so runs over three
// joins; one of 190 that fits a window, none.
func TestJoinsAlong(t *testing.T) {
	plan := paging.Plan{Sheet: a4}
	for i := range 4 {
		x := unit.Length(i) * 180
		plan.Cells = append(plan.Cells, paging.Cell{Col: i, Window: geom.Rect{Min: geom.Point{X: x}, Max: geom.Point{X: x + 190, Y: 277}}})
	}
	for _, c := range []struct {
		from, to unit.Length
		want     int
	}{{5, 585, 3}, {0, 190, 0}, {185, 365, 0}, {100, 195, 1}, {585, 5, 3}} {
		side := geom.Line{From: geom.Point{X: c.from, Y: 10}, To: geom.Point{X: c.to, Y: 10}}
		if got := joinsAlong(plan, side); got != c.want {
			t.Errorf("from %v to %v: %d joins, want %d", c.from, c.to, got, c.want)
		}
	}
}

// What the steps say of the order is followed for random triangles: each sheet lies on the
// sheets that are named and on no others that lie already.
func TestOrderOfLaying(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 1))
	loose, told := 0, 0
	for range 200 {
		between := func(lo, hi float64) float64 { return lo + random.Float64()*(hi-lo) }
		base := between(200, 1400)
		tokens := fmt.Sprintf("AB=%.0f A=%.0fdeg B=%.0fdeg", base, between(25, 88), between(25, 88))
		cover := []paging.Cover{paging.Full, paging.OutlineOnly}[random.IntN(2)]
		p := piece(t, tokens)
		plan := laid(t, p, a4, cover)
		if len(plan.Cells) < 2 {
			continue
		}
		say := full().says().Templates().Join(joining(plan, unit.Style{}))
		say = append(say, full().says().Templates().InThisOrder(joining(plan, unit.Style{}), false, p.ByHand(full())))
		steps := strings.ReplaceAll(strings.Join(say, " "), "\u00a0", " ")
		lies, first, none := map[string][]string{}, "", []string(nil)
		for i, cell := range plan.Cells {
			var meets []string
			for _, o := range plan.Cells[:i] {
				if max(o.Row-cell.Row, cell.Row-o.Row)+max(o.Col-cell.Col, cell.Col-o.Col) == 1 {
					meets = append(meets, o.Label)
				}
			}
			if lies[cell.Label] = meets; len(meets) == 0 && i > 0 {
				none = append(none, cell.Label)
			} else if len(meets) > 0 && first == "" {
				first = fmt.Sprintf("Lay the cut edge of %s on the dashed line of %s,", cell.Label, meets[0])
			}
		}
		_, list, is := strings.Cut(steps, "Lay the sheets in this order: ")
		switch {
		case len(none) == 0:
			if is || strings.Contains(steps, "loose") || !strings.Contains(steps, first) {
				t.Errorf("%s: no sheet is loose: %s", tokens, steps)
			}
			continue
		case len(plan.Cells) > 24:
			loose++
			if want := "No such neighbour: " + strings.Join(none, ", ") + "; lay loose."; !strings.Contains(steps, want) {
				t.Errorf("%s: %q is missing in %s", tokens, want, steps)
			}
			continue
		}
		loose, told = loose+1, told+1
		list, _, _ = strings.Cut(list, ".")
		laid := strings.Split(list, "; ")
		if len(laid) != len(plan.Cells) || laid[0] != plan.Cells[0].Label {
			t.Fatalf("%s: %q for %d sheets", tokens, list, len(plan.Cells))
		}
		for i, one := range laid[1:] {
			label := plan.Cells[i+1].Label
			want := label + " loose"
			if m := lies[label]; len(m) > 0 {
				want = label + " on " + strings.Join(m, " and ")
			}
			if one != want {
				t.Errorf("%s: %q, want %q", tokens, one, want)
			}
		}
	}
	if loose < 10 || told < 5 || loose == told {
		t.Errorf("%d orders with a loose sheet, %d told one by one: choose others", loose, told)
	}
}

// The map has the number of every sheet once, or those of the ends of rows beside them.
func TestMapNamesThePages(t *testing.T) {
	p := piece(t, "AB=900 BC=640 CA=1100")
	plan := laid(t, p, a4, paging.Full)
	pages, err := Index(p, plan, font, full(), Front{})
	if err != nil {
		t.Fatal(err)
	}
	onMap := func(number string) (n int) { // the numbers of steps stand lower
		for _, op := range pages[0].Ops {
			if o, ok := op.(draw.Text); ok && o.Words == number && o.Bold && o.At.X > 14 && o.At.X < 95 && o.At.Y > 140 {
				n++
			}
		}
		return n
	}
	for _, c := range plan.Cells {
		if n := onMap(c.Label); n != 1 {
			t.Errorf("%s stands %d times on the map", c.Label, n)
		}
	}
	p = piece(t, "AB=8000 BC=6000 CA=5000")
	plan = laid(t, p, a4, paging.Full)
	if pages, err = Index(p, plan, font, full(), Front{}); err != nil {
		t.Fatal(err)
	}
	beside := 0
	for _, op := range pages[0].Ops {
		o, ok := op.(draw.Text)
		i := slices.IndexFunc(plan.Cells, func(c paging.Cell) bool { return ok && c.Label == o.Words && o.Height == draw.NoteHeight })
		if i < 0 {
			continue
		}
		beside++
		if c := plan.Cells[i]; c.LeftOf != "" && c.RightOf != "" {
			t.Errorf("%s stands beside a row and is no end of one", o.Words)
		}
	}
	if beside < 5 {
		t.Errorf("%d numbers stand beside the map of %d sheets", beside, len(plan.Cells))
	}
}

func TestIndexRefusesAPaperWithoutRoom(t *testing.T) {
	p := piece(t, "AB=60 BC=60 CA=60")
	tiny := paging.Sheet{Name: "45x45", Width: 45, Height: 45, Left: 5, Right: 5, Top: 5, Bottom: 5, Overlap: 5}
	_, err := Index(p, laid(t, p, tiny, paging.Full), font, full(), Front{})
	if f, ok := err.(*unit.Fault); !ok || f.Subject != unit.Paper || f.Of != "45x45" || f.Hint == "" {
		t.Errorf("got %v", err)
	}
}

func TestNotesFindRoomOrSayThatThereIsNone(t *testing.T) {
	for _, c := range []struct {
		tokens string
		on     paging.Sheet
		want   bool
	}{
		{"AB=120 BC=90 CA=110", a4, true},
		{"AB=60 BC=60 CA=60", a5, false}, // steps are as high on small paper,
		{"AB=180 BC=240 CA=300", a4, true},
		{"AB=130 BC=110 CA=120", a5, false},
	} {
		p := piece(t, c.tokens)
		plan := laid(t, p, c.on, paging.Full)
		d, err := Draw(p, plan, font, full())
		if err != nil || len(plan.Cells) != 1 {
			t.Fatal(c.tokens, len(plan.Cells), err)
		}
		for page := range plan.Pages(d, furniture.Furniture{Job: p.Job, Piece: p.Name, Figures: "millimetres"}, font) {
			before := len(page.Ops)
			with, ok := WithNotes(page, c.on, p, font, full())
			if ok != c.want || len(page.Ops) != before {
				t.Errorf("%s on %s: steps %t, want %t", c.tokens, c.on.Name, ok, c.want)
			}
			all := strings.Join(strings.Fields(words1(with)), " ")
			if !strings.Contains(all, "Local codes prevail.") {
				t.Errorf("%s on %s: no word of caution", c.tokens, c.on.Name)
			}
			for _, step := range Steps(p, full()) {
				if strings.Contains(all, step) != c.want {
					t.Errorf("%s on %s: %q", c.tokens, c.on.Name, step)
				}
			}
			area := geom.Rect{Min: geom.Point{X: c.on.Left, Y: c.on.Bottom}, Max: geom.Point{X: c.on.Width - c.on.Right, Y: c.on.Height - c.on.Top}}
			if err := touching(with.Ops, []geom.Rect{area.Grow(1)}, font, 0.25, 0.5); err != nil {
				t.Errorf("%s on %s: %v", c.tokens, c.on.Name, err)
			}
			// Notes keep their distance from what was there.
			for _, note := range with.Ops[before:] {
				for _, op := range page.Ops {
					if o, ok := op.(draw.Text); ok && o.Bounds(font).Grow(3.9).Meets(note.Bounds(font)) {
						t.Errorf("%s on %s: %v stands at %q", c.tokens, c.on.Name, note, o.Words)
					}
				}
			}
		}
	}
}

func TestGoldens(t *testing.T) {
	for _, c := range []struct {
		name, tokens string
		on           paging.Sheet
	}{{"gusset", "AB=180 BC=240 CA=300", a4}, {"needle", "AB=170 BC=168 CA=6", a4}, {"brace", "AB=600 BC=450 CA=450", a4}} {
		p := piece(t, c.tokens)
		// The turn is given, so that the goldens hold when better placements are found.
		turn := unit.Angle(0)
		plan, err := paging.Lay(p.Triangle.Polygon(), c.on, paging.Full, &turn, paging.Effort{})
		if err != nil {
			t.Fatal(err)
		}
		plan = Settle(plan)
		d, err := Draw(p, plan, font, full())
		if err != nil {
			t.Fatal(err)
		}
		golden(t, c.name, d)
		pages, err := Index(p, plan, font, full(), Front{})
		if err != nil {
			t.Fatal(err)
		}
		golden(t, c.name+"-index", pages[0].Ops)
	}
}

func golden(t *testing.T, name string, d draw.Drawing) {
	t.Helper()
	got := draw.Dump(d)
	file := filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		g, w := strings.Split(got, "\n"), strings.Split(string(want), "\n")
		for i := range min(len(g), len(w)) {
			if g[i] != w[i] {
				t.Errorf("%s:%d:\n got %s\nwant %s", file, i+1, g[i], w[i])
				return
			}
		}
		t.Errorf("%s has %d lines, want %d", file, len(g), len(w))
	}
}

// The corners keep their letters on the map where rows and columns have theirs
// at its edges, and no word or box leaves the part that is printed on.
func TestIndexHasItsCornersAndKeepsToThePaper(t *testing.T) {
	feet := full()
	feet.Figures = unit.Style{Unit: unit.FT, Denominator: 16}
	for _, c := range []struct {
		tokens string
		sheet  paging.Sheet
		style  Style
	}{
		{"AB=7200 A=35deg B=35deg", a4, full()},
		{"AB=8000 BC=6000 CA=5000", a4, full()},
		{"AB=419.1 A=52deg CA=298.45", letter, feet},
		{"AB=4191 A=52deg CA=2984.5", letter, feet},
	} {
		p := piece(t, c.tokens)
		pages, err := Index(p, laid(t, p, c.sheet, paging.Full), font, c.style, Front{})
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range p.Triangle.Names {
			found := false
			for _, op := range pages[0].Ops {
				o, ok := op.(draw.Text)
				found = found || ok && o.Words == string(n) && o.Bold && o.Height == draw.TitleHeight
			}
			if !found {
				t.Errorf("%s: no corner %s on the map", c.tokens, n)
			}
		}
		for _, page := range pages {
			for _, op := range page.Ops {
				if b := op.Bounds(font); b.Max.X > c.sheet.Width-c.sheet.Right || b.Min.X < c.sheet.Left {
					t.Errorf("%s: %v to %v mm across: %v", c.tokens, b.Min.X, b.Max.X, op)
				}
			}
		}
	}
}
