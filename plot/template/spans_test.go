package template

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/paging"
)

// By hand, A4 with windows of 190 × 277 and strips of 10: joins lie 180 apart across and
// 267 down. A run of n pages has n − 1 joins, and n − 2 pages between first and last.
func TestSpans(t *testing.T) {
	for _, c := range []struct {
		tokens string
		cover  paging.Cover
		want   []string
	}{
		{"AB=900 BC=640 CA=1100", paging.Full, []string{
			"row 2–4: 2 | 3 to 3 | 4, 180 over 1", "row 5–9: 5 | 6 to 8 | 9, 540 over 3", "rows: 1 | 4 to 4 | 9, 267 over 1",
		}},
		{"AB=600 BC=450 CA=450", paging.Full, []string{"rows: 1 | 3 to 3 | 4, 267 over 1"}},
		{"AB=2000 BC=1990 CA=60", paging.Full, []string{"rows: 1 | 2 to 7 | 8, 1602 over 6"}},
		{"AB=170 BC=160 CA=150", paging.Full, nil},
	} {
		p := piece(t, c.tokens)
		all, more := spans(laid(t, p, a4, c.cover), unit.Style{}, full().says().Templates())
		var got []string
		for _, s := range all {
			which, joins := full().says().Templates().Span(s.Span)
			got = append(got, strings.ReplaceAll(fmt.Sprintf("%s: %s, %.6g over %d", which, joins, s.length.MM(), s.joins), "\u00a0", " "))
		}
		if strings.Join(got, "\n") != strings.Join(c.want, "\n") || more != "" {
			t.Errorf("%s:\n%s\n%s\nwant\n%s", c.tokens, strings.Join(got, "\n"), more, strings.Join(c.want, "\n"))
		}
	}
	p := piece(t, "AB=8000 BC=6000 CA=5000")
	all, more := spans(laid(t, p, a4, paging.Full), unit.Style{}, full().says().Templates())
	if len(all) != 3 || more != "Between these, each page adds 180." || math.Remainder(all[1].length.MM(), 180) > 1e-9 || all[1].length <= all[0].length {
		t.Errorf("of many rows: %v, %q", all, more)
	}
}

// The lengths are those between the trim lines that the pages bear.
func TestSpansOnThePages(t *testing.T) {
	p := piece(t, "AB=900 BC=640 CA=1100")
	plan := laid(t, p, a4, paging.Full)
	d, err := Draw(p, plan, font, full())
	if err != nil {
		t.Fatal(err)
	}
	// Where each join's line lies in the plane of the sheets, as its two pages have it.
	at := map[string][]unit.Length{}
	i := 0
	for page := range plan.Pages(d, furniture.Furniture{}, font) {
		c := plan.Cells[i]
		i++
		for _, op := range page.Ops {
			l, ok := op.(draw.Line)
			if !ok || l.On != draw.Joins || l.Length() < 20 {
				continue
			}
			x, y := l.From.X-plan.Sheet.Left+c.Window.Min.X, l.From.Y-plan.Sheet.Bottom+c.Window.Min.Y
			low, left := l.From.Y < page.Height/2, l.From.X < page.Width/2
			if l.Pen == draw.Trim && (l.From.X == l.To.X && !left || l.From.Y == l.To.Y && low) {
				continue // the rim of the sheet that lies below is no measure
			}
			switch {
			case l.From.X == l.To.X && left:
				at[c.LeftOf+" | "+c.Label] = append(at[c.LeftOf+" | "+c.Label], x)
			case l.From.X == l.To.X:
				at[c.Label+" | "+c.RightOf] = append(at[c.Label+" | "+c.RightOf], x)
			case low:
				at[c.Label+" | "+c.Below] = append(at[c.Label+" | "+c.Below], y)
			default:
				at[c.Above+" | "+c.Label] = append(at[c.Above+" | "+c.Label], y)
			}
		}
	}
	all, _ := spans(plan, unit.Style{}, full().says().Templates())
	if len(all) != 3 {
		t.Fatalf("%v", all)
	}
	for _, s := range all {
		_, joins := full().says().Templates().Span(s.Span)
		from, to, _ := strings.Cut(strings.ReplaceAll(joins, "\u00a0", " "), " to ")
		if len(at[from]) < 2 || len(at[to]) < 2 {
			t.Fatalf("%s: lines %v", joins, at)
		}
		for _, a := range at[from] {
			for _, b := range at[to] {
				if off := math.Abs(math.Abs(float64(b-a)) - s.length.MM()); off > 1e-9 {
					t.Errorf("%s: %v between the lines, %v is said", joins, b-a, s.length)
				}
			}
		}
	}
}

// What is expected names the worst side, and the printer only where it is known.
func TestExpectedIsSaid(t *testing.T) {
	p := piece(t, "AB=900 BC=640 CA=1100")
	x := index{piece: p, plan: laid(t, p, a4, paging.Full), style: full(), say: full().says().Templates()}
	// √(6 · 0.04 · 1.2805 + 0.22²) = 0.597
	if got, want := x.expected(), "Expected: CA within 0.6 mm, 95 times in 100: 9 sheets; along CA 6 joins of ±0.2 mm as a random walk; 0.2 mm a metre for paper and tape; the printer's own scale is in none of the ranges."; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	x.Uncertainty, x.style.Figures.Unit = 0.00045, unit.IN
	// with 0.495: √(0.3073 + 0.0484 + 0.2450) = 0.775 mm = 0.0305 in
	if got, want := x.expected(), "Expected: CA within 0.03 in, 95 times in 100: 9 sheets; along CA 6 joins of ±0.008 in as a random walk; 0.002 in a foot for paper and tape; 0.005 in a foot for the printer as calibrated."; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}
