package tape

import (
	"math"
	"slices"

	"trammel/geom/unit"
)

// Quantities that tapes come with, in SI units.
type (
	Temperature float64 // degrees Celsius
	Expansivity float64 // per degree Celsius
	Force       float64 // newtons
	Weight      float64 // newtons for each metre of tape
	Modulus     float64 // newtons for each square millimetre
)

// Fahrenheit is a temperature written in that scale.
func Fahrenheit(f float64) Temperature { return Temperature((f - 32) / 1.8) }

// Of one unit of those that tapes are marked with: the pound-force and the inch
// are exact by definition.
const (
	PoundForce        Force       = 4.4482216152605
	PoundsPerSqInch   Modulus     = 4.4482216152605 / (25.4 * 25.4)
	PerFahrenheit     Expansivity = 1.8
	SteelExpansivity  Expansivity = 11.6e-6 // the usual figure of handbooks; a tape's own is better
	SteelModulus      Modulus     = 200000  // N/mm²
	NormalTemperature Temperature = 20      // Directive 2014/32/EU, annex X
	NormalPull        Force       = 50      // the same, from 5 m up
)

// Standard is what a tape is, as it was calibrated.
type Standard struct {
	Nominal, True unit.Length // what it says and what it is, lying flat at Temperature under Pull; both 0: true as it is
	Temperature   Temperature
	Pull          Force
	Expansivity   Expansivity // 0: temperature is not corrected
	Section       unit.Area   // 0: pull is not corrected
	Modulus       Modulus
	Weight        Weight // 0: sag is not corrected
}

// Conditions are how it is used. Lengths are told and laid off level: what is
// taped along a fall is reduced to it.
type Conditions struct {
	Temperature Temperature
	Pull        Force
	// Span between two supports; the last is what remains. 0: it lies on the
	// ground all along.
	Span unit.Length
	// Fall is the difference of level between the two ends of the length; 0: level.
	Fall unit.Length
}

// Corrections of one length, each the true length less the reading because of it.
type Corrections struct {
	Calibration, Temperature, Pull, Sag, Slope unit.Length
}

// Sum of the five.
func (c Corrections) Sum() unit.Length {
	return c.Calibration + c.Temperature + c.Pull + c.Sag + c.Slope
}

// check refuses conditions that no tape is used in.
func (s Standard) check(c Conditions) error {
	fault := func(key, what, hint string) error {
		return &unit.Fault{Subject: unit.Site, Of: key, What: what, Hint: hint}
	}
	bad := func(x ...float64) bool {
		return slices.ContainsFunc(x, func(v float64) bool { return !(v >= 0 && v <= math.MaxFloat64) })
	}
	switch {
	case bad(float64(s.Nominal), float64(s.True), float64(s.Pull), float64(s.Expansivity), float64(s.Section), float64(s.Modulus), float64(s.Weight)):
		return fault("tape", "a figure of its calibration is negative or no number", "take it from the certificate")
	case bad(float64(c.Pull), float64(c.Span)):
		return fault("tape", "its pull or span is negative or no number", "measure the pull with a spring balance")
	case (s.Nominal == 0) != (s.True == 0):
		return fault("tape", "its calibration gives one length and not the other", "give what it says and what it truly is, or neither")
	case s.Nominal > 0 && math.Abs(float64(s.True/s.Nominal)-1) > 0.01:
		return fault("tape", "it is off by more than one in a hundred", "do not use it; or the two lengths are not in one unit")
	case s.Section > 0 && s.Modulus == 0:
		return fault("tape", "its section is given and its modulus is not", "steel has 200000 N/mm²")
	case !(c.Temperature > -60 && c.Temperature < 80) || !(s.Temperature > -60 && s.Temperature < 80):
		return fault("temperature", "a tape is used between -60 °C and 80 °C", "write degrees Celsius")
	case c.Span > 0 && s.Weight > 0 && c.Pull == 0:
		return fault("pull", "a hanging tape without pull has no length", "pull it as the tape says, 50 N")
	case math.IsNaN(float64(c.Fall)) || math.IsInf(float64(c.Fall), 0):
		return &unit.Fault{Subject: unit.Levels, What: "the fall is no number", Hint: "give the levels of both ends"}
	}
	if c.Span > 0 && s.Weight > 0 {
		// The formula is the first term of a series in (w·span/P)², of no use beyond.
		if ratio := float64(s.Weight) * c.Span.MM() / 1000 / float64(c.Pull); ratio > 1 {
			return fault("pull", "the tape hangs too deep: it weighs more between two supports than it is pulled with", "pull harder, or support it more often")
		}
	}
	return nil
}

// of the reading r along the tape: the corrections that make it true along the ground.
func (s Standard) of(r unit.Length, c Conditions) Corrections {
	var k Corrections
	if s.Nominal > 0 {
		k.Calibration = r * (s.True - s.Nominal) / s.Nominal
	}
	k.Temperature = r * unit.Length(float64(s.Expansivity)*float64(c.Temperature-s.Temperature))
	if s.Section > 0 {
		k.Pull = r * unit.Length(float64(c.Pull-s.Pull)/(float64(s.Section)*float64(s.Modulus)))
	}
	if c.Span > 0 && s.Weight > 0 {
		rest := r
		if whole := math.Floor(float64(r/c.Span) * (1 + 1e-12)); whole > 0 {
			k.Sag = unit.Length(whole) * s.sag(c.Span, c.Pull)
			rest = r - unit.Length(whole)*c.Span
		}
		k.Sag += s.sag(max(0, rest), c.Pull)
	}
	return k
}

// sag of one span: −w²L³/(24P²).
func (s Standard) sag(l unit.Length, p Force) unit.Length {
	m := l.MM() / 1000
	w := float64(s.Weight) / float64(p)
	return unit.Length(-w * w * m * m * m / 24 * 1000)
}

// Measured is what a reading truly is, level, and the corrections that are added
// to it:
//
//	calibration (true − nominal)/nominal · L
//	temperature α·L·(T − T₀)
//	pull        (P − P₀)·L/(A·E)
//	sag         −w²L³/(24P²) for each span
//	slope       √(S² − Δ²) − S over a fall Δ, which is −Δ²/(2S) where that is small
//
// The first four are of the reading and make it the length S along the ground. Measuring
// adds the corrections.
//
// Error: a *unit.Fault where the tape or its conditions cannot be meant, or the reading
// is shorter than the fall.
func (s Standard) Measured(reading unit.Length, c Conditions) (true unit.Length, k Corrections, err error) {
	if err := s.check(c); err != nil {
		return 0, k, err
	}
	k = s.of(reading, c)
	along, fall := float64(reading+k.Sum()), float64(c.Fall)
	if math.Abs(fall) >= along {
		return 0, k, &unit.Fault{Subject: unit.Levels, What: "the fall is no less than the length that was taped over it", Hint: "look at the levels of both ends"}
	}
	if fall != 0 { // −Δ²/(S + h): √(S² − Δ²) − S without its loss of digits
		k.Slope = unit.Length(-fall * fall / (along + math.Sqrt((along-fall)*(along+fall))))
	}
	return reading + k.Sum(), k, nil
}

// Reading is what the tape must show for a level length to be laid off, and the
// corrections that were subtracted from it. Laying out subtracts: Measured of the
// reading is the length again, within 1e-9 mm.
func (s Standard) Reading(wanted unit.Length, c Conditions) (reading unit.Length, k Corrections, err error) {
	if err := s.check(c); err != nil {
		return 0, k, err
	}
	slope := unit.Length(0) // √(h² + Δ²): the level length along the ground
	if fall := float64(c.Fall); fall != 0 {
		slope = unit.Length(-fall * fall / (float64(wanted) + math.Hypot(float64(wanted), fall)))
	}
	reading = wanted
	for range 60 { // each round leaves a hundredth or less of what was missing
		k = s.of(reading, c)
		next := wanted - slope - k.Sum()
		if math.Abs(float64(next-reading)) < 1e-10 {
			reading = next
			break
		}
		reading = next
	}
	k = s.of(reading, c)
	k.Slope = slope
	return reading, k, nil
}
