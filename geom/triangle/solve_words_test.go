package triangle

import (
	"errors"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// What is said where no triangle fits. The numbers are plain arithmetic on those given.
func TestNoTriangleWords(t *testing.T) {
	for given, want := range map[string]string{
		"AB=100 BC=200 CA=400":    "AB 100 and BC 200 together are 100 short of reaching across CA 400",
		"BA=100 CB=200.5 AC=400":  "BA 100 and CB 200.5 together are 99.5 short of reaching across AC 400",
		"AB=10 AC=1000 BC=20.125": "AB 10 and BC 20.125 together are 969.9 short of reaching across AC 1000",
		// W. Kahan, Miscalculating Area and Angles of a Needle-like Triangle
		"BC=99999.99999 CA=99999.99999 AB=200000":     "CA 99999.99999 and BC 99999.99999 together are 0.00002 short of reaching across AB 200000",
		"AB=5278.64055 BC=94721.35941 CA=99999.99996": "A, B and C lie on one line: AB 5278.64055 and BC 94721.35941 together are exactly CA 99999.99996",
		"AB=100002 BC=100002 CA=200004":               "A, B and C lie on one line: AB 100002 and BC 100002 together are exactly CA 200004",
		// OpenStax, Algebra and Trigonometry 2e, §10.1: 10 sin 50° = 7.66
		"A=50deg BC=4 AC=10":                    "BC 4 is too short to reach AB: at least 7.66 is needed",
		"A=50deg BC=4 AB=10 ":                   "BC 4 is too short to reach CA: at least 7.66 is needed",
		"A=50deg BC=7.66 AB=10":                 "BC 7.66 is too short to reach CA: at least 7.6604 is needed",
		"A=120deg BC=4 AC=10":                   "BC 4 must be longer than AC 10, since it faces the angle 120deg at A",
		"A=90deg BC=10 AC=10":                   "BC 10 must be longer than AC 10, since it faces the angle 90deg at A",
		"A=120deg BC=10 B-CA=9":                 "BC 10 must be longer than the 10.4 that the height makes AB, since it faces the angle 120deg at A",
		"A=100deg B=80deg AB=100":               "the angle 100deg at A and the angle 80deg at B together leave nothing for the angle at C",
		"BC=50 B=99.5deg C=90deg":               "the angle 99.5deg at B and the angle 90deg at C together leave nothing for the angle at D",
		"A-BC=20 B=99.5deg C=90deg":             "the angle 99.5deg at B and the angle 90deg at C together leave nothing for the angle at A",
		"AB=100 C-AB=620 BC=500":                "the height 620 from C is longer than BC 500 from the same corner",
		"CA=100 C-AB=620 BC=700":                "the height 620 from C is longer than CA 100 from the same corner",
		"BC=100 A=30deg C-AB=101":               "the height 101 from C is longer than BC 100 from the same corner",
		"BC=100 B=30deg B-CA=101":               "the height 101 from B is longer than BC 100 from the same corner",
		"BC=100 A-BC=30 B-CA=101":               "the height 101 from B is longer than BC 100 from the same corner",
		"BC=100 C-AB=30 B-CA=101":               "the height 101 from B is longer than BC 100 from the same corner",
		"A=130deg A-BC=20 B-CA=10":              "the height 20 from A is longer than AB from the same corner, which the other two make 13.1",
		"A=130deg A-BC=11 B-CA=10":              "the height 11 from A is too long beside the angle 130deg at A: it must be less than 10",
		"BC=100 B=130deg B-CA=80":               "the height 80 from B is too long beside the angle 130deg at B: it must be less than 76.6",
		"BC=100 C-AB=100 B-CA=100":              "the height 100 from B and the height 100 from C are as long as BC 100, so the other two sides would be parallel",
		"BC=100 CA=100 C-AB=100":                "BC 100, CA 100 and the height 100 from C are equal, which leaves nothing for AB",
		"BC=300 A=60deg A-BC=270":               "the height 270 from A is too long over BC 300 for the angle 60deg at A: at most 259.8 fits",
		"A-BC=100 B-CA=20 C-AB=5":               "the height 5 from C is too short beside the height 100 from A and the height 20 from B: it must be more than 16.7",
		"AB=100 BC=30":                          "two lengths and no angle: measure the third side or an angle",
		"AB=100 B=30deg":                        "one length and one angle: measure another side or another angle",
		"A=100deg B=30deg":                      "two angles and no length give the shape but not the size: measure a side",
		"AB=100 C-AB=30":                        "one length and one height: measure another side or an angle",
		"A=30deg C-AB=30":                       "one angle and one height: measure two sides, or a side and another angle",
		"B-CA=30 C-AB=30":                       "two heights: measure a side, an angle or the third height",
		"AB=100":                                "one measurement, AB=100: two more are needed",
		"":                                      "nothing was measured",
		"A=60deg B=60deg C=60deg":               "three angles give the shape but not the size: measure a side",
		"AB=10 A=30deg B-CA=5":                  "the height from B follows from AB and the angle at A, so that only two things are known",
		"AB=300 BC=400 CA=500 B=91deg":          "B=91deg disagrees with the other three: they make it 90.0°, 1.0° less",
		"A=30deg B=40deg C=105deg AB=100":       "A=30deg, B=40deg and C=105deg must make 180° together: they make 175.0°, 5.0° less",
		"AB=300.0 BC=400.0 CA=500.0 C-AB=400.6": "C-AB=400.6 disagrees with the other three: they make it 400, 0.6 less",
	} {
		_, err := Solve(measure(t, given), [2]geom.Name{})
		var none *NoTriangle
		if !errors.As(err, &none) || none.What != want {
			t.Errorf("%s:\n  %v, want\n  %s", given, err, want)
			continue
		}
		if none.Hint == "" || strings.ContainsAny(none.What+none.Hint, "\n!") || strings.HasSuffix(none.What, ".") {
			t.Errorf("%s: %q, hint %q", given, none.What, none.Hint)
		}
	}
}

// The figures are told in the unit that was written.
func TestWordsInTheirUnit(t *testing.T) {
	for _, c := range []struct {
		bare        unit.Unit
		given, want string
	}{
		{unit.MM, `AB=8ft BC=2ft CA=12ft`, `AB 8ft and BC 2ft together are 2'-0" short of reaching across CA 12ft`},
		{unit.MM, `AB=8in BC=2in CA=12in`, `AB 8in and BC 2in together are 2" short of reaching across CA 12in`},
		{unit.IN, `AB=8 BC=2 CA=12.5`, `AB 8 and BC 2 together are 2 1/2" short of reaching across CA 12.5`},
		{unit.FT, `AB=8 BC=2 CA=12.5`, `AB 8 and BC 2 together are 2'-6" short of reaching across CA 12.5`},
		// Fractions without a unit are bare numbers too; feet have many spellings.
		{unit.IN, `AB=10½ BC=3¼ CA=5⅛`, `CA 5⅛ and BC 3¼ together are 2 1/8" short of reaching across AB 10½`},
		{unit.M, `AB=10½ BC=3¼ CA=5⅛`, `CA 5⅛ and BC 3¼ together are 2.125 m short of reaching across AB 10½`},
		{unit.MM, `AB=10foot BC=3Feet CA=5feet`, `CA 5feet and BC 3Feet together are 2'-0" short of reaching across AB 10foot`},
		{unit.MM, `AB=10’ BC=3’ CA=5’6”`, `CA 5’6” and BC 3’ together are 1'-6" short of reaching across AB 10’`},
		{unit.IN, `AB=8 BC=2 CA=10.01`, `AB 8 and BC 2 together are 0.01" short of reaching across CA 10.01`},
		{unit.M, `AB=8 BC=2 CA=12.5`, `AB 8 and BC 2 together are 2.5 short of reaching across CA 12.5`},
		{unit.CM, `AB=8 BC=2 CA=12.5`, `AB 8 and BC 2 together are 2.5 short of reaching across CA 12.5`},
		{unit.MM, `AB=80 BC=20cm CA=1m`, `AB 80 and BC 20cm together are 720 mm short of reaching across CA 1m`},
		{unit.MM, `AB=10in BC=4in A=50`, `BC 4in is too short to reach CA: at least 7 11/16" is needed`},
		{unit.MM, `AB=10in BC=7.65in A=50`, `BC 7.65in is too short to reach CA: at least 7 11/16" is needed`},
	} {
		var ms []Measurement
		for _, token := range strings.Fields(c.given) {
			m, err := ParseMeasurement(token, c.bare)
			if err != nil {
				t.Fatal(err)
			}
			ms = append(ms, m)
		}
		if _, err := Solve(ms, [2]geom.Name{}); err == nil || err.Error() != c.want {
			t.Errorf("%s in %v:\n  %v, want\n  %s", c.given, c.bare, err, c.want)
		}
	}
}

// Words that cannot be meant are a *unit.Fault that says where.
func TestFaults(t *testing.T) {
	for _, c := range []struct{ given, where, what string }{
		{"AB=100 BC=40 AB=101", "AB=101", "measured twice: it is the same as AB=100"},
		{"AB=100 BC=40 BA=100", "BA=100", "measured twice: it is the same as AB=100"},
		{"A=40deg BC=40 AB=50 CAB=40deg", "CAB=40deg", "measured twice: it is the same as A=40deg"},
		{"C-AB=40 BC=40 C-BA=40", "C-BA=40", "measured twice: it is the same as C-AB=40"},
		{"AB=100 BC=40 CD=50", "CD=50", "D is a fourth point beside A, B and C: a triangle has three"},
		{"AB=100 BC=40 CA=0.5", "CA=0.5", "shorter than 1 mm"},
		{"AB=100 BC=40 CA=0", "CA=0", "a length is more than 0"},
		{"AB=100 BC=40 CA=-5", "CA=-5", "a length is more than 0"},
		{"AB=100 BC=40 CA=1000000000000", "CA=1000000000000", "longer than 1 km"},
		{"AB=100 BC=40 C-AB=0", "C-AB=0", "a length is more than 0"},
		{"AB=100 BC=40 A=0deg", "A=0deg", "an angle of a triangle lies between 0° and 180°"},
		{"AB=100 BC=40 A=180deg", "A=180deg", "an angle of a triangle lies between 0° and 180°"},
		{"AB=100 BC=40 A=-5deg", "A=-5deg", "an angle of a triangle lies between 0° and 180°"},
		{"AB=100 BC=40 ABA=5deg", "ABA=5deg", "its points are not those of a length, an angle or a height"},
		{"AB=100 BC=40 AA=5", "AA=5", "its points are not those of a length, an angle or a height"},
	} {
		_, err := Solve(measure(t, c.given), [2]geom.Name{})
		var f *unit.Fault
		if !errors.As(err, &f) || f.Subject != unit.Measured || f.Of != c.where || f.What != c.what || f.Hint == "" {
			t.Errorf("%s: %#v, want %s: %s", c.given, err, c.where, c.what)
		}
	}
	ms := measure(t, "AB=100 BC=40 CD=50")
	ms[2].Where = "job.yaml:7:12"
	if _, err := Solve(ms, [2]geom.Name{}); err == nil || !strings.HasPrefix(err.Error(), "job.yaml:7:12: CD=50: ") {
		t.Errorf("%v, want the place in front", err)
	}
	if _, err := Solve([]Measurement{{Text: "AB=?", At: [3]geom.Name{"A", "B"}}}, [2]geom.Name{}); err == nil || err.Error() != "AB=?: it has no value" {
		t.Errorf("without a value: %v", err)
	}
	for base, what := range map[[2]geom.Name]string{
		{"A", "D"}: `base AD: there is no point "D"`,
		{"A", ""}:  `base A: there is no point ""`,
		{"B", "B"}: "base BB: a baseline runs between two points",
	} {
		if _, err := Solve(measure(t, "AB=3 BC=4 CA=5"), base); err == nil || err.Error() != what {
			t.Errorf("base %v: %v, want %s", base, err, what)
		}
	}
}

// Names and the baseline: letters run counter-clockwise in their order.
func TestNamesAndBase(t *testing.T) {
	for _, c := range []struct {
		given string
		base  []geom.Name
		want  [3]geom.Name
	}{
		{"KL=3600 K=42deg L=61deg", nil, [3]geom.Name{"K", "L", "M"}},
		{"LK=3600 L=42deg K=61deg", nil, [3]geom.Name{"K", "L", "M"}},
		{"YZ=3600 Y=42deg Z=61deg", nil, [3]geom.Name{"Y", "Z", "A"}},
		{"AZ=3600 A=42deg Z=61deg", nil, [3]geom.Name{"Z", "A", "B"}},
		{"K2K10=3600 K2=42deg K10=61deg", nil, [3]geom.Name{"K2", "K10", "L"}},
		{"K9K10=3600 K9L=420 K10L=3610", nil, [3]geom.Name{"K9", "K10", "L"}},
		{"BC=300 AB=200 CA=400", nil, [3]geom.Name{"A", "B", "C"}},
		{"BC=300 AB=200 CA=400", []geom.Name{"B", "C"}, [3]geom.Name{"B", "C", "A"}},
		{"BC=300 AB=200 CA=400", []geom.Name{"C", "B"}, [3]geom.Name{"B", "C", "A"}},
		{"BC=300 AB=200 CA=400", []geom.Name{"A", "C"}, [3]geom.Name{"C", "A", "B"}},
		{"AC=8 BC=6 A=35deg", nil, [3]geom.Name{"C", "A", "B"}}, // the ray starts at A
		{"AC=8 BC=6 B=65deg", nil, [3]geom.Name{"B", "C", "A"}},
		{"BC=300 A=60deg B=50deg", nil, [3]geom.Name{"B", "C", "A"}},
		{"C-AB=30 A=60deg B=50deg", nil, [3]geom.Name{"A", "B", "C"}}, // no side measured
		{"BC=300 A=60deg C-AB=50", nil, [3]geom.Name{"B", "C", "A"}},
	} {
		if got := solved(t, c.given, c.base...).Answers[0].Triangle.Names; got != c.want {
			t.Errorf("%s, base %v: corners %v, want %v", c.given, c.base, got, c.want)
		}
	}
}
