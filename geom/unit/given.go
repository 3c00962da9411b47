package unit

import (
	"fmt"
	"math/big"
	"strings"
)

// Slope is the rise and the run of an angle that was written as a slope: 1 and 12 of
// 1:12 or 1in12, 8.5 and 100 of 8.5%. ok is false for any other angle.
func (r Reading) Slope() (rise, run *big.Rat, ok bool) {
	s := scanner{text: plain(r.Text)}
	n, ok, f := s.number()
	if !ok || f != nil {
		return nil, nil, false
	}
	s.spaces()
	switch angleMarks[s.word()] {
	case markPercent:
		s.spaces()
		return n.value, big.NewRat(100, 1), s.done()
	case markRatio:
		s.spaces()
		m, ok, f := s.number()
		s.spaces()
		return n.value, m.value, ok && f == nil && s.done()
	}
	return nil, nil, false
}

// Given writes an angle as it was measured, nothing rounded: "35.25°", "35°30′15″",
// "1 in 12", "8.5 %"; what has no form of its own here as it was written.
func (s Style) Given(r Reading) string {
	text := strings.ReplaceAll(strings.TrimSpace(plain(r.Text)), ",", ".")
	if _, _, slope := r.Slope(); slope {
		if rise, percent := strings.CutSuffix(text, "%"); percent {
			return strings.TrimSpace(rise) + " %"
		}
		for _, mark := range []string{":", "in"} {
			if rise, run, cut := strings.Cut(text, mark); cut {
				return strings.TrimSpace(rise) + " in " + strings.TrimSpace(run)
			}
		}
	}
	scan := scanner{text: text}
	n, ok, _ := scan.number()
	scan.spaces()
	mark, known := angleMarks[scan.word()]
	scan.spaces()
	switch minutes := new(big.Rat).Mul(r.Value, big.NewRat(60, 1)); {
	case !ok || !known || mark > markDegree:
		return text
	case s.Minutes && minutes.IsInt() || !scan.done():
		return sexagesimal(minutes)
	case n.fraction || strings.Contains(text, "/"):
		return text
	}
	return trimmed(r.Value.FloatString(9)) + "°"
}

// sexagesimal writes minutes as degrees, minutes and what is left as seconds.
func sexagesimal(minutes *big.Rat) string {
	whole := new(big.Int).Quo(minutes.Num(), minutes.Denom())
	left := new(big.Rat).Sub(minutes, new(big.Rat).SetInt(whole))
	degrees, rest := new(big.Int).QuoRem(whole, big.NewInt(60), new(big.Int))
	text := fmt.Sprintf("%d°%02d′", degrees, rest)
	if left.Sign() == 0 {
		return text
	}
	seconds := trimmed(left.Mul(left, big.NewRat(60, 1)).FloatString(6))
	if whole, _, _ := strings.Cut(seconds, "."); len(whole) < 2 {
		seconds = "0" + seconds
	}
	return text + seconds + "″"
}
