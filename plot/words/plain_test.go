package words_test

import (
	"strings"
	"testing"

	"trammel/plot/words"
)

// notOnPaper is what nobody says at a bench, in a class, on a floor or on a site: letters and
// words of statistics, and words of our own that had to be explained.
var notOnPaper = []string{
	"σ", "random walk", "95 times in 100", "standard deviation", "wide line", "whole corner", "other hand",
	"joint rises in", "take care", "none of the ranges", "gussets and roofs",
}

// Nothing that any method says in any voice holds one of these.
func TestPlainWords(t *testing.T) {
	for key, x := range examples {
		for _, v := range words.Voices() {
			for _, text := range x.say(t, words.English{Voice: v}) {
				for _, no := range notOnPaper {
					if strings.Contains(strings.ToLower(text), no) {
						t.Errorf("%s, %s voice: %q stands in %q", key, v, no, text)
					}
				}
			}
		}
	}
}

// A caution fits the place: no roof over an exercise, no services of a street in a kitchen,
// and in each place what hurts there (the usual care of the trades: common practice, no source).
func TestCautionsFitThePlace(t *testing.T) {
	for voice, c := range map[words.Voice]struct{ has, hasNot string }{
		words.Class:  {"bar|away from the hand|with the teacher", "roof|strength|services|mask|guard"},
		words.Bench:  {"bars|eyes|ears|lungs|clamp|guard|strength is not drawn here|local codes", "roof|services|overhead|teacher|boundar"},
		words.Floor:  {"bars|dust of tile and stone|wet|mask|sharp|knees|movement joints as the standard or the maker says|local codes", "roof|services|overhead|traffic|teacher|boundar"},
		words.Ground: {"bars|services|overhead lines|traffic|excavations|boundary|licensed surveyor|local codes", "teacher|knees|guard"},
	} {
		say := words.English{Voice: voice}.Cautions()
		for _, text := range []string{strings.Join(say.Template(), " "), say.OnePage()} {
			text = strings.ToLower(text)
			for _, w := range strings.Split(c.has, "|") {
				if !strings.Contains(text, w) {
					t.Errorf("%s: no %q in %q", voice, w, text)
				}
			}
			for _, w := range strings.Split(c.hasNot, "|") {
				if strings.Contains(text, w) {
					t.Errorf("%s: %q stands in %q", voice, w, text)
				}
			}
		}
	}
	for _, voice := range []words.Voice{words.Class, words.Bench, words.Floor} {
		say := words.English{Voice: voice}.Cautions()
		for _, text := range append(say.SetOut(false), say.Check(false)...) {
			if strings.Contains(strings.ToLower(text), "buried services") || strings.Contains(text, "Overhead") {
				t.Errorf("%s: %q", voice, text)
			}
		}
	}
}
