package words

import (
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/passage"
	"trammel/geom/pegging"
	"trammel/plot/words/phrase"
)

func (s setOut) Aside() []string {
	return slices.DeleteFunc([]string{asRead(s), avoided(s)}, func(x string) bool { return x == "" })
}

// avoided says which lines are left out, and why.
func avoided(s setOut) string {
	if s.Method != pegging.Mixed {
		return ""
	}
	var parts []string
	for _, because := range []struct {
		code passage.Code
		one  string
		more string
	}{{passage.AtWall, "a wall stands between", "a wall stands between"}, {passage.AtBlock, "something stands on it", "something stands on them"}, {passage.TooLong, "the tape does not reach", "the tape does not reach"}} {
		var lines []string
		for _, x := range s.Layout.Avoided {
			if x.Code == because.code {
				lines = append(lines, edge(x.Line))
			}
		}
		if len(lines) > 0 {
			parts = append(parts, geom.Listed(lines)+", since "+phrase.Of(len(lines), because.one, because.more))
		}
	}
	if len(parts) == 0 {
		return "Left out: squares and offsets where something stands between."
	}
	return "Left out: " + strings.Join(parts, "; ") + "."
}
