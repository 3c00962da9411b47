package app

import (
	"fmt"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"trammel/cmd/internal/solved"
	"trammel/plot/draw"
	"trammel/plot/pdf"
	"trammel/profiles"
	"trammel/profiles/job"
)

// BenchmarkTemplate makes the template of a triangle of 8 × 6 × 5 m and of one a
// third as large, each time from the words on: seconds, pages and, as a ratio
// against the writer alone on the very same strokes in the same run, what all the
// rest adds.
func BenchmarkTemplate(b *testing.B) {
	for _, bench := range []struct {
		name, cover string
		measure     []string
	}{
		{"8x6x5m/full", "full", []string{"AB=8m", "BC=6m", "CA=5m"}},
		{"8x6x5m/outline", "outline", []string{"AB=8m", "BC=6m", "CA=5m"}},
		{"a-third/full", "full", []string{"AB=2667", "BC=2m", "CA=1667"}},
	} {
		b.Run(bench.name, func(b *testing.B) {
			var tokens []job.Setting
			for _, m := range bench.measure {
				tokens = append(tokens, job.Setting{Text: m})
			}
			laid := func() *layout {
				set, err := profiles.Load()
				if err != nil {
					b.Fatal(err)
				}
				m, err := job.Merge(solved.Named("", tokens), job.Overrides{Pages: job.Setting{Text: bench.cover}}, set, nil, nil)
				if err != nil {
					b.Fatal(err)
				}
				w, err := Open(m, nil)
				if err != nil {
					b.Fatal(err)
				}
				t, err := w.template()
				if err != nil {
					b.Fatal(err)
				}
				return t
			}
			strokes := slices.Collect(laid().pages())
			var whole, writer time.Duration
			for b.Loop() {
				start := time.Now()
				if err := laid().document().pdf(io.Discard); err != nil {
					b.Fatal(err)
				}
				middle := time.Now()
				if err := pdf.Write(io.Discard, draw.Document{Pages: slices.Values(strokes)}); err != nil {
					b.Fatal(err)
				}
				whole += middle.Sub(start)
				writer += time.Since(middle)
			}
			pages := float64(len(strokes))
			b.ReportMetric(pages, "pages")
			b.ReportMetric(float64(whole.Microseconds())/float64(b.N)/pages, "µs/page")
			b.ReportMetric(float64(whole)/float64(writer), "×writer")
		})
	}
}

// A thousand different small triangles that share pages.
func BenchmarkThousandPieces(b *testing.B) {
	var text strings.Builder
	text.WriteString("pieces:\n")
	r := rand.New(rand.NewPCG(3, 3))
	for n := 0; n < 1000; {
		x, y, z := 30+r.IntN(130), 30+r.IntN(130), 30+r.IntN(130)
		if x+y > z+6 && y+z > x+6 && z+x > y+6 {
			n++
			fmt.Fprintf(&text, "- {name: P%d, measure: [AB=%d, BC=%d, CA=%d]}\n", n, x, y, z)
		}
	}
	pages := 0
	for b.Loop() {
		w, err := open(b, text.String(), Options{})
		if err != nil {
			b.Fatal(err)
		}
		t, err := w.template()
		if err != nil {
			b.Fatal(err)
		}
		if err := t.document().pdf(io.Discard); err != nil {
			b.Fatal(err)
		}
		pages = t.count
	}
	b.ReportMetric(float64(pages), "pages")
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/job")
}
