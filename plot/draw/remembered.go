package draw

import "trammel/geom/unit"

// Remembered is a ruler that remembers what it measured: a label is tried in many
// places. It is for one goroutine.
func Remembered(r Ruler) Ruler {
	if _, ok := r.(memo); ok {
		return r
	}
	return memo{r, map[memoKey]unit.Length{}}
}

type memo struct {
	Ruler
	known map[memoKey]unit.Length
}

type memoKey struct {
	words  string
	height unit.Length
	bold   bool
}

func (m memo) Width(words string, height unit.Length, bold bool) unit.Length {
	key := memoKey{words, height, bold}
	w, ok := m.known[key]
	if !ok {
		w = m.Ruler.Width(words, height, bold)
		m.known[key] = w
	}
	return w
}
