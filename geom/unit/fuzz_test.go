package unit

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// honest checks what holds of every refusal: a fault, in one line of text.
func honest(t *testing.T, text string, err error) {
	t.Helper()
	var f *Fault
	if !errors.As(err, &f) || f.What == "" {
		t.Fatalf("%q: %v is no fault", text, err)
	}
	for _, line := range []string{f.What, f.Hint} {
		if !utf8.ValidString(line) || strings.ContainsFunc(line, unicode.IsControl) || len(line) > 1000 {
			t.Fatalf("%q: the message is %q", text, line)
		}
	}
}

// tolerable checks what holds of every reading's tolerance.
func tolerable(t *testing.T, text string, r Reading) {
	t.Helper()
	if r.Tolerance.Sign() <= 0 || new(big.Rat).Add(r.Tolerance, r.Tolerance).Cmp(r.Value) > 0 {
		t.Fatalf("%q: %s ± %s", text, r.Value, r.Tolerance)
	}
}

// What is read lies within the limits, its text reads as the same, and what is
// written back in each unit reads as the same within half of the last place.
func FuzzLength(f *testing.F) {
	for _, text := range []string{
		"2400", "2400mm", "240 cm", "2.4m", "2,4m", "2,400", "2.400,5", "7ft 10 1/2in", `7'-10 1/2"`, `94.5"`, "7′ 10½″",
		"2400+-2", "2.4m±2mm", `7'-10 1/2"±1/16`, "12\u2009345.5", "94-1/2in", "⅞\"", "12OO", "NaN", "-5", "1e3", "0x10", "3/0", "\xff",
		"2.400", "123.456", "93/4in", "7-1/2", "7'10", "7'10½", "7'1/2", "2m40", "2m4", "2m405", "9³⁄₄\"", "⅟₁₆in", "7'—10\"", "2400㎜", "12㏌", "0,125m", "94 1/2",
	} {
		f.Add(text, byte(0))
		f.Add(text, byte(4))
	}
	styles := []Style{{Decimals: 4}, {Unit: CM, Decimals: 5}, {Unit: M, Decimals: 7}, {Unit: IN, Denominator: 64}, {Unit: FT, Denominator: 64}, {}, {Unit: FT, Denominator: 8}}
	halves := []Length{0.00005, 0.00005, 0.00005, 25.4 / 128, 25.4 / 128, 0.05, 25.4 / 16}
	f.Fuzz(func(t *testing.T, text string, bare byte) {
		u := Unit(bare % 5)
		if s, err := ParseSetting(text, u, -Longest, Longest); err == nil && !(s.MM() >= -1e6 && s.MM() <= 1e6) {
			t.Fatalf("%q is set to %v", text, s)
		}
		r, err := ParseLength(text, u)
		if err != nil {
			honest(t, text, err)
			return
		}
		l := r.Length()
		if l < Shortest || l > Longest || !IsLength(text) {
			t.Fatalf("%q is read as %v", text, l)
		}
		tolerable(t, text, r)
		again, err := ParseLength(r.Text, u)
		if err != nil || again.Value.Cmp(r.Value) != 0 || again.Stated || !r.Stated && again.Tolerance.Cmp(r.Tolerance) != 0 {
			t.Fatalf("%q: its text %q reads as %v, %v", text, r.Text, again, err)
		}
		for i, s := range styles {
			written := s.LengthUnit(l)
			back, err := ParseSetting(written, MM, 0, 2*Longest)
			if err != nil || math.Abs(float64(back-l)) > float64(halves[i])*(1+1e-9)+1e-9 {
				t.Fatalf("%q is written %q, which reads as %v, %v", text, written, back, err)
			}
			// Bare, what has exactly three decimals of a mm or cm may be in thousands.
			if bareWritten, err := ParseSetting(s.Length(l), s.Unit, 0, 2*Longest); (err != nil || bareWritten != back) && !(s.Unit <= CM && s.Decimals > 2) {
				t.Fatalf("%q is written %q, which reads as %v, %v", text, s.Length(l), bareWritten, err)
			}
		}
	})
}

// The same of angles.
func FuzzAngle(f *testing.F) {
	for _, text := range []string{
		"35", "35deg", "35°", "35°30'", `35°30'15"`, "35d30m15s", "35°30′15.5″", "0.61rad", "38.9gon", "1:12", "8.5%", "6in12", "22½°",
		"35±0.5", "35°±30'", "8.5%±0.5%", "1:12±1deg", "180", "1:0", "30'", "50grad", "3O", "nan", "\xff",
		"85‰", "35gr", "1∶12", "6\"/12", "6\"/12\"", "6in/12in", "35:30", "2:1", "35°30'±5", "45o", "93/4°", "85‰±5‰",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if a, err := ParseTurn(text); err == nil && !(math.Abs(a.Degrees()) <= 360.0000001) {
			t.Fatalf("%q is a turn of %v", text, a.Degrees())
		}
		r, err := ParseAngle(text)
		if err != nil {
			honest(t, text, err)
			return
		}
		if r.Value.Sign() <= 0 || r.Value.Cmp(big.NewRat(180, 1)) >= 0 || !IsAngle(text) {
			t.Fatalf("%q is read as %s", text, r.Value)
		}
		tolerable(t, text, r)
		again, err := ParseAngle(r.Text)
		if err != nil || again.Value.Cmp(r.Value) != 0 || again.Stated || !r.Stated && again.Tolerance.Cmp(r.Tolerance) != 0 {
			t.Fatalf("%q: its text %q reads as %v, %v", text, r.Text, again, err)
		}
		a := r.Angle()
		for s, half := range map[Style]float64{{}: 0.05, {Minutes: true}: 1.0 / 120} {
			written := s.Angle(a)
			back, err := ParseTurn(written)
			if err != nil || math.Abs(back.Degrees()-a.Degrees()) > half+1e-9 {
				t.Fatalf("%q is written %q, which reads as %v, %v", text, written, back.Degrees(), err)
			}
		}
	})
}
