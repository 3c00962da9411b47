package words

import (
	"strings"

	"trammel/geom"
	"trammel/geom/passage"
	"trammel/geom/pegging"
)

func (s setOut) Avoided() string {
	if s.Method != pegging.Mixed {
		return ""
	}
	var parts []string
	for _, because := range []struct {
		code passage.Code
		why  string
	}{{passage.AtWall, "since a wall stands between"}, {passage.AtBlock, "since something stands on it"}, {passage.TooLong, "since the tape does not reach"}} {
		var lines []string
		for _, x := range s.Layout.Avoided {
			if x.Code == because.code {
				lines = append(lines, edge(x.Line))
			}
		}
		if len(lines) > 0 {
			parts = append(parts, geom.Listed(lines)+", "+because.why)
		}
	}
	if len(parts) == 0 {
		return "Left out: offsets through a wall."
	}
	return "Left out: " + strings.Join(parts, "; ") + "."
}
