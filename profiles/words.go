package profiles

import (
	"fmt"
	"strings"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// ParseFraction reads the finest fraction of an inch that is written: 1/16 or 16.
// A *unit.Fault has no place yet.
func ParseFraction(text string) (denominator int, err error) {
	for _, d := range []int{8, 16, 32, 64} {
		if t := strings.TrimPrefix(strings.ReplaceAll(text, " ", ""), "1/"); t == fmt.Sprint(d) {
			return d, nil
		}
	}
	return 0, &unit.Fault{What: fmt.Sprintf("%q is not a fraction of an inch", strict.Shorten(text)), Hint: "write 1/8, 1/16, 1/32 or 1/64"}
}

// ParseAngles reads how angles are written: decimal or minutes.
func ParseAngles(text string) (minutes bool, err error) {
	if err := oneOf(text, []string{"decimal", "minutes"}); err != nil {
		return false, err
	}
	return text == "minutes", nil
}

// parseStep reads the step of a protractor, up to 45°.
func parseStep(text string) (unit.Angle, error) { return angleBetween(text, 0.001, 45) }

// parseSaw reads how far a mitre saw turns. The stops of those that are sold lie from
// 45° to 60°; a gauge of a table saw reaches farther.
func parseSaw(text string) (unit.Angle, error) { return angleBetween(text, 15, 80) }

func angleBetween(text string, least, most float64) (unit.Angle, error) {
	r, err := unit.ParseAngle(text)
	if err != nil {
		return 0, err
	}
	degrees, _ := r.Value.Float64()
	if degrees < least || degrees > most {
		return 0, &unit.Fault{What: fmt.Sprintf("%q is not from %g° to %g°", strict.Shorten(text), least, most)}
	}
	return unit.Angle(degrees) * unit.Degree, nil
}

// ParseMargin reads a margin or an overlap, mm where no unit stands; 0 is allowed.
func ParseMargin(text string) (unit.Length, error) {
	return lengthBetween(text, 0, mostMargin)
}
