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
		{"AB=900 BC=640 CA=1100", paging.Full, nil}, // nine sheets: the sides say it
		{"AB=170 BC=160 CA=150", paging.Full, nil},
		{"AB=3600 BC=3590 CA=60", paging.Full, []string{"down the rows: 1 | 2 to 13 | 14, 3204 over 12"}},
		{"AB=2400 BC=2390 CA=200", paging.Full, nil},
	} {
		p := piece(t, c.tokens)
		all, more := spans(laid(t, p, a4, c.cover), unit.Style{}, full().says().Templates())
		var got []string
		for _, s := range all {
			which, from, to := full().says().Templates().Span(s.Span)
			got = append(got, strings.ReplaceAll(fmt.Sprintf("%s: %s to %s, %.6g over %d", which, from, to, s.length.MM(), s.joins), "\u00a0", " "))
		}
		if strings.Join(got, "\n") != strings.Join(c.want, "\n") || more != "" {
			t.Errorf("%s:\n%s\n%s\nwant\n%s", c.tokens, strings.Join(got, "\n"), more, strings.Join(c.want, "\n"))
		}
	}
	p := piece(t, "AB=8000 BC=6000 CA=5000")
	all, more := spans(laid(t, p, a4, paging.Full), unit.Style{}, full().says().Templates())
	if len(all) != 3 || more != "Between these, each sheet adds 180." || math.Remainder(all[1].length.MM(), 180) > 1e-9 || all[1].length <= all[0].length {
		t.Errorf("of many rows: %v, %q", all, more)
	}
}

// The lengths are those between the trim lines that the pages bear.
func TestSpansOnThePages(t *testing.T) {
	p := piece(t, "AB=1100 BC=800 CA=1200")
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
	if len(all) < 3 {
		t.Fatalf("%v", all)
	}
	for _, s := range all {
		_, from, to := full().says().Templates().Span(s.Span)
		from, to = strings.ReplaceAll(from, "\u00a0", " "), strings.ReplaceAll(to, "\u00a0", " ")
		if len(at[from]) < 2 || len(at[to]) < 2 {
			t.Fatalf("%s to %s: lines %v", from, to, at)
		}
		for _, a := range at[from] {
			for _, b := range at[to] {
				if off := math.Abs(math.Abs(float64(b-a)) - s.length.MM()); off > 1e-9 {
					t.Errorf("%s to %s: %v between the lines, %v is said", from, to, b-a, s.length)
				}
			}
		}
	}
}

// What is expected names the worst side, and the printer only where it is known.
func TestExpectedIsSaid(t *testing.T) {
	p := piece(t, "AB=900 BC=640 CA=1100")
	x := newIndex(p, laid(t, p, a4, paging.Full), full(), Front{})
	// √(6 · 0.04 · 1.2805 + 0.22²) = 0.597
	if got, want := x.expected(), "Expected: CA, joined with care, nearly always comes within 0.6\u00a0mm, where each join is true to 0.2\u00a0mm."; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	x.Uncertainty, x.style.Figures.Unit = 0.00045, unit.IN
	// with 0.495: √(0.3073 + 0.0484 + 0.2450) = 0.775 mm = 1.95/64 in; outward
	if got, want := x.expected(), "Expected: CA, joined with care, nearly always comes within 1/32\", where each join is true to 1/64\" and the printer prints as it was calibrated."; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}
