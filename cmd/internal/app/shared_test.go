package app

import (
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/lettering"
	"trammel/profiles/job"
)

const brackets = `job: Shelf brackets
pieces:
  - {name: Bracket, measure: [AB=120, BC=90, CA=150], quantity: 3}
  - {name: Wedge, measure: [AB=60, BC=45, CA=45], quantity: 7}
  - {name: Long lath, measure: [AB=260, BC=30, CA=255]}
  - {name: Big, measure: [AB=400, BC=300, CA=300]}
  - {name: Needle, measure: [AB=100, BC=99, CA=2]}
`

// big is the piece among the brackets that may take several pages.
const big = 3

func templateOf(t *testing.T, text string, o Options) *layout {
	t.Helper()
	made, err := mustOpen(t, text, o).template()
	if err != nil {
		t.Fatal(err)
	}
	return made
}

func said(text string) job.Setting { return job.Setting{Text: text, Where: "--it"} }

// knifed is a first step.
var knifed = regexp.MustCompile(`Knife AB, \d+, off the straight edge\.`)

// Every copy of every piece is on one page or on its own, once; pages that pieces
// share have one set of bars, the name of each piece and its steps the first time.
func TestShared(t *testing.T) {
	for _, c := range []struct {
		name  string
		o     Options
		pages int // of the template and of instructions
		most  int // pieces on a page
	}{
		{"A4", Options{Copies: said("3")}, 17, 5},
		{"A3", Options{Copies: said("3"), Paper: said("A3")}, 6, 6},
		{"roll", Options{Copies: said("3"), Paper: said("914xany")}, 1, 15},
		{"apart", Options{Copies: said("3"), Apart: true}, 22, 1},
		{"joiner on Letter", Options{Copies: said("3"), Trade: said("joiner"), Paper: said("Letter")}, 0, 0},
	} {
		made := templateOf(t, brackets, c.o)
		seen := map[[2]int]int{}
		var steps []string
		n, most := 0, 0
		for p := range made.pages() {
			n++
			bars, words := 0, []string{}
			for _, op := range p.Ops {
				if long, _, ok := furniture.Ladder(op); ok && max(long-100, 100-long) < 1e-9 {
					bars++
				}
				if w, ok := op.(draw.Text); ok {
					words = append(words, w.Words)
				}
			}
			steps = append(steps, knifed.FindAllString(strings.Join(words, " "), -1)...)
			if p.Kind != draw.Template || p.Places[0].Piece == big {
				continue
			}
			if bars != 2 {
				t.Errorf("%s: %d bars on page %d", c.name, bars, n)
			}
			most = max(most, len(p.Places))
			if sheet, of := n-len(made.shared.front), made.shared.pages; sheet <= of {
				says := fmt.Sprintf("sheet %d of %d", sheet, of)
				if p.Label != fmt.Sprint(sheet) || slices.Contains(words, says) != (of > 1) {
					t.Errorf("%s: page %d is sheet %q of %d and says %q", c.name, n, p.Label, of, words)
				}
			}
			for _, q := range p.Places {
				seen[[2]int{q.Piece, q.Copy}]++
			}
			if all := strings.Join(words, " "); len(p.Places) > 1 && !strings.Contains(all, strings.Join(strings.Fields(made.work.Words().Cautions().OnePage())[:3], " ")) {
				t.Errorf("%s: no cautions on page %d", c.name, n)
			}
			keepApart(t, fmt.Sprintf("%s, page %d", c.name, n), p)
		}
		if n != made.count || c.pages > 0 && n != c.pages {
			t.Errorf("%s: %d pages, counted %d, want %d", c.name, n, made.count, c.pages)
		}
		for k, n := range seen {
			if n != 1 {
				t.Errorf("%s: piece %v is on %d pages", c.name, k, n)
			}
		}
		for piece, quantity := range []int{3, 3, 3} {
			for copy := range quantity {
				if seen[[2]int{piece, copy}] != 1 {
					t.Errorf("%s: copy %d of piece %d is missing from %v", c.name, copy, piece, slices.Collect(maps.Keys(seen)))
				}
			}
		}
		for _, want := range []string{"Knife AB, 120, off the straight edge.", "Knife AB, 60, off the straight edge."} {
			if !slices.Contains(steps, want) {
				t.Errorf("%s: no step %q", c.name, want)
			}
		}
		if c.most > 0 && most != c.most {
			t.Errorf("%s: %d pieces on a page, want %d", c.name, most, c.most)
		}
	}
}

// keepApart says whether words lie over other words or off the paper less its margins.
func keepApart(t *testing.T, name string, p draw.Page) {
	t.Helper()
	var boxes []geom.Rect
	var words []string
	for _, op := range p.Ops {
		w, ok := op.(draw.Text)
		if !ok || math.Mod(math.Abs(w.Turn.Degrees()), 90) > 1e-6 {
			continue
		}
		b := w.Bounds(lettering.Go())
		if b.Min.X < 10 || b.Min.Y < 10 || b.Max.X > p.Width-10 || b.Max.Y > p.Height-10 {
			t.Errorf("%s: %q is off the page: %v", name, w.Words, b)
		}
		for i, q := range boxes {
			if q.Grow(-0.01).Meets(b) {
				t.Errorf("%s: %q lies over %q", name, w.Words, words[i])
			}
		}
		boxes, words = append(boxes, b), append(words, w.Words)
	}
}

// Where each piece lies is where its outline is drawn.
func TestSharedPlaces(t *testing.T) {
	made := templateOf(t, brackets, Options{Copies: said("3")})
	outlines, places := 0, 0
	for p := range made.pages() {
		if len(p.Places) < 2 {
			continue
		}
		places += len(p.Places)
		for _, op := range p.Ops {
			o, ok := op.(draw.Polyline)
			if !ok || o.On != draw.Outline {
				continue
			}
			outlines++
			found := 0
			for _, q := range p.Places {
				r := made.report().Pieces[q.Piece]
				all := true
				for _, at := range r.Points {
					m := q.Matrix
					x, y := unit.Length(m[0]*at[0]+m[2]*at[1]+m[4]), unit.Length(m[1]*at[0]+m[3]*at[1]+m[5])
					all = all && slices.ContainsFunc(o.Points, func(c geom.Point) bool { return c.Distance(geom.Point{X: x, Y: y}) < 1e-9 })
				}
				if all {
					found++
				}
			}
			if found != 1 {
				t.Errorf("an outline at %v is that of %d places", o.Points[0], found)
			}
		}
	}
	if outlines != places || places < 7 {
		t.Errorf("%d outlines, %d places on pages that pieces share", outlines, places)
	}
}

// Both triangles that fit one line of the class sheet stand on one page, whatever is
// before them; what stands first on a page stands at its top left.
func TestAnswersStandTogether(t *testing.T) {
	for before := range 4 {
		text := "trade: teacher\npieces:\n"
		for n := range before {
			text += fmt.Sprintf("  - {name: P%d, measure: [AB=%d, BC=80, CA=60]}\n", n, 90+n)
		}
		made := templateOf(t, text+"  - {name: Two, measure: [KL=80, K=35deg, LM=60], pick: both}\n  - {name: Last, measure: [DE=50, EF=60, FD=70]}\n", Options{})
		h := made.shared
		if len(h.spots) < before+3 {
			t.Fatalf("%d before: %d pieces share pages", before, len(h.spots))
		}
		if a, b := h.spots[before], h.spots[before+1]; a.Page != b.Page {
			t.Errorf("%d before: the two answers stand on pages %d and %d", before, a.Page, b.Page)
		}
		first := map[int]bool{}
		for _, p := range h.spots {
			if !first[p.Page] && p.At != (geom.Point{}) {
				t.Errorf("%d before: page %d begins at %v", before, p.Page, p.At)
			}
			first[p.Page] = true
		}
	}
}
