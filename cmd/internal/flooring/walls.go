package flooring

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/unit"
)

// wall is the number of a wall by its ends.
func (f *Floor) wall(ends [2]geom.Name, key, where string) (int, error) {
	var walls []string
	for i, n := range f.Outline.Names {
		m := f.Outline.Names[f.Outline.Next(i)]
		if ends == [2]geom.Name{n, m} || ends == [2]geom.Name{m, n} {
			return i, nil
		}
		walls = append(walls, f.Outline.Side(i))
	}
	const most = 12 // names in a hint
	hint := "its walls are " + geom.Listed(walls[:min(most, len(walls))])
	if len(walls) > most {
		hint += " …"
	}
	return -1, &unit.Fault{Where: where, What: fmt.Sprintf("%s: there is no wall %s%s", key, ends[0], ends[1]), Hint: hint}
}
