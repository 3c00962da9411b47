package triangle

import (
	"testing"

	"trammel/geom"
)

func BenchmarkSolve(b *testing.B) {
	for _, c := range []struct{ name, given string }{
		{"SSS", "AB=2400 BC=1800 CA=1500"},
		{"SAS", "AB=640 CA=455 A=52deg"},
		{"SSA two answers", "AC=8 BC=6 A=35deg"},
		{"HHH", "A-BC=10 B-CA=12 C-AB=15"},
		{"five, adjusted", "AB=300 BC=400 CA=500 C-AB=400 A=53.1deg"},
		{"nine, adjusted", "AB=300 BC=400 CA=500 C-AB=400 A=53.1deg B=90deg C=36.9deg A-BC=300 B-CA=240"},
		{"nine, one wrong", "AB=300 BC=400 CA=500 C-AB=400 A=53.1deg B=95deg C=36.9deg A-BC=300 B-CA=240"},
	} {
		b.Run(c.name, func(b *testing.B) {
			ms := measure(b, c.given)
			for b.Loop() {
				Solve(ms, [2]geom.Name{})
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N), "µs/triangle")
		})
	}
}
