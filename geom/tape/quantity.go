package tape

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"trammel/geom/unit"
)

// A quantity is a number and behind it the sign of its unit.
type quantity struct {
	name   string // with a consonant in front: "temperature"
	units  []named
	least  float64 // in the unit that the type counts, as most
	most   float64
	lies   string // both in words
	signed bool
	hint   string
}

// named is one way to write a unit, without blanks and in small letters, and the
// value of one.
type named struct {
	sign string
	one  float64
}

const (
	newton = 1
	lbf    = float64(PoundForce)
	kgf    = 9.80665 // exact by definition, as the pound is
	psi    = float64(PoundsPerSqInch)
	sqInch = 25.4 * 25.4
)

var (
	pulls = []named{{"n", newton}, {"newton", newton}, {"newtons", newton}, {"kn", 1000 * newton}, {"lb", lbf}, {"lbs", lbf}, {"lbf", lbf},
		{"pound", lbf}, {"pounds", lbf}, {"kg", kgf}, {"kgf", kgf}, {"kp", kgf}}
	masses = append([]named{{"g", kgf / 1000}, {"oz", lbf / 16}}, pulls...)

	aForce  = quantity{"pull", pulls, 1, 1000, "1 N and 1000 N", false, "write 50N, 12lb or 5kg, as the spring balance shows it"}
	aHeat   = quantity{"temperature", nil, -60, 80, "-60 °C and 80 °C", true, "write 31C or 88F: a number alone could be either"}
	stretch = quantity{"coefficient of expansion", []named{{"/c", 1}, {"/°c", 1}, {"perc", 1}, {"per°c", 1}, {"/k", 1}, {"perk", 1},
		{"/f", float64(PerFahrenheit)}, {"/°f", float64(PerFahrenheit)}, {"perf", float64(PerFahrenheit)}, {"per°f", float64(PerFahrenheit)}},
		0, 50e-6, "0 and 50e-6/C", false, "write 11.6e-6/C or 6.45e-6/F; steel has 11.6e-6/C"}
	section = quantity{"section", []named{{"mm2", 1}, {"mm²", 1}, {"sqmm", 1}, {"cm2", 100}, {"cm²", 100}, {"in2", sqInch}, {"in²", sqInch}, {"sqin", sqInch}},
		0.1, 100, "0.1 mm2 and 100 mm2", false, "width times thickness: write 4.2mm2 or 0.0075in2"}
	stiffness = quantity{"modulus", []named{{"gpa", 1000}, {"kn/mm2", 1000}, {"kn/mm²", 1000}, {"mpa", 1}, {"n/mm2", 1}, {"n/mm²", 1},
		{"psi", psi}, {"lb/in2", psi}, {"lb/in²", psi}, {"ksi", 1000 * psi}}, 1000, 1e6, "1 GPa and 1000 GPa", false, "write 200GPa or 29e6psi; steel has 200GPa"}
)

var number = regexp.MustCompile(`^([+-]?)([0-9]*)([.,]?)([0-9]*)(?:[eE]([+-]?[0-9]{1,2}))?`)

var dashes = strings.NewReplacer("−", "-", "–", "-", "º", "°", "˚", "°", "℃", "°C", "℉", "°F", " ", "", "\t", "", "\u00a0", "", "\u202f", "", "\u2009", "")

// parts reads the number that a text begins with, and what stands behind it,
// without blanks and in small letters.
func (q quantity) parts(text string) (value float64, behind string, err error) {
	if f := unit.CheckText(text, q.name); f != nil {
		return 0, "", f
	}
	plain := dashes.Replace(strings.TrimSpace(text))
	m := number.FindStringSubmatch(plain)
	if m == nil || m[2]+m[4] == "" || m[3] != "" && m[4] == "" {
		return 0, "", q.fault(text)
	}
	if m[3] == "," && len(m[4]) == 3 {
		return 0, "", &unit.Fault{What: unit.Quote(text) + " can be read in two ways: the comma may part thousands", Hint: "write it with a decimal point"}
	}
	if m[1] != "" && !q.signed {
		return 0, "", &unit.Fault{What: unit.Quote(text) + " has a sign", Hint: "write the " + q.name + " without one"}
	}
	v, wrong := strconv.ParseFloat(m[1]+"0"+m[2]+"."+m[4]+"0e"+cmp.Or(m[5], "0"), 64)
	if wrong != nil {
		return 0, "", q.fault(text)
	}
	return v, strings.ToLower(plain[len(m[0]):]), nil
}

func (q quantity) fault(text string) error {
	return &unit.Fault{What: fmt.Sprintf("%s is not a %s", unit.Quote(text), q.name), Hint: q.hint}
}

// within refuses what no tape has.
func (q quantity) within(text string, v float64) (float64, error) {
	if v < q.least || v > q.most {
		return 0, &unit.Fault{What: fmt.Sprintf("%s is not between %s, where every %s lies", unit.Quote(text), q.lies, q.name), Hint: q.hint}
	}
	return v, nil
}

func parse[T ~float64](q quantity, text string) (T, error) {
	v, behind, err := q.parts(text)
	if err != nil {
		return 0, err
	}
	for _, u := range q.units {
		if u.sign == behind {
			v, err = q.within(text, v*u.one)
			return T(v), err
		}
	}
	return 0, q.fault(text)
}

// ParseTemperature reads 31C, 88F, -5 °C. A bare number could be either scale and
// is refused. The error is a *unit.Fault.
func ParseTemperature(text string) (Temperature, error) {
	v, behind, err := aHeat.parts(text)
	if err != nil {
		return 0, err
	}
	t := Temperature(v)
	switch strings.TrimPrefix(behind, "°") {
	case "f", "degf", "fahrenheit":
		t = Fahrenheit(v)
	case "c", "degc", "celsius":
	default:
		return 0, aHeat.fault(text)
	}
	_, err = aHeat.within(text, float64(t))
	return t, err
}

// ParseForce reads a pull: 50N, 12lb, 12 lbf, 5kg, 5 kgf. The error is a
// *unit.Fault.
func ParseForce(text string) (Force, error) { return parse[Force](aForce, text) }

// ParseExpansivity reads 11.6e-6/C, 6.45e-6/F, 0.0000116 per °C. The error is a
// *unit.Fault.
func ParseExpansivity(text string) (Expansivity, error) { return parse[Expansivity](stretch, text) }

// ParseSection reads the area of a tape's section: 4.2mm2, 0.0075in2, 0.0075 sq in.
// The error is a *unit.Fault.
func ParseSection(text string) (unit.Area, error) { return parse[unit.Area](section, text) }

// ParseModulus reads 200GPa, 200000 N/mm2, 29e6psi, 29000 ksi. The error is a
// *unit.Fault.
func ParseModulus(text string) (Modulus, error) { return parse[Modulus](stiffness, text) }

var runs = regexp.MustCompile(`^([a-z]+)(?:/|per)([0-9]*)(m|metres?|meters?|ft|feet|foot)$`)

// ParseWeight reads the weight of a run of tape: 2.8lb/100ft, 0.18N/m, 18 g/m,
// 1.8 kg per 100 m. The error is a *unit.Fault.
func ParseWeight(text string) (Weight, error) {
	q := quantity{"weight", nil, 0.001, 10, "0.001 N/m and 10 N/m", false, "of a run of tape: write 0.18N/m, 18g/m or 2.8lb/100ft"}
	v, behind, err := q.parts(text)
	if err != nil {
		return 0, err
	}
	m := runs.FindStringSubmatch(behind)
	if m == nil {
		return 0, q.fault(text)
	}
	run := 1.0
	if m[2] != "" {
		if run, err = strconv.ParseFloat(m[2], 64); err != nil || run == 0 {
			return 0, q.fault(text)
		}
	}
	if m[3][0] == 'f' {
		run *= float64(unit.Foot / unit.Metre)
	}
	for _, u := range masses {
		if u.sign == m[1] {
			v, err = q.within(text, v*u.one/run)
			return Weight(v), err
		}
	}
	return 0, q.fault(text)
}

// ParseClass reads the accuracy class of a tape: I, II or III. The error is a
// *unit.Fault.
func ParseClass(text string) (Class, error) {
	words := []string{ClassII: "ii", ClassI: "i", ClassIII: "iii", 3: "2", 4: "1", 5: "3"}
	if i := slices.Index(words, strings.ToLower(strings.TrimSpace(text))); i >= 0 {
		return Class(i % 3), nil
	}
	return 0, &unit.Fault{What: unit.Quote(text) + " is not a class of tapes", Hint: "write I, II or III, as the tape itself says near its zero; II is the usual one"}
}
