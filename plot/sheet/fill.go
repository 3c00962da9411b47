package sheet

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// HalfPage is how far down what stands on a page reaches at least, where there are several.
const HalfPage = 0.5

// Even is Flow with pages that are filled alike where the last one would be filled less
// than by half: as few pages, each of them as short as that allows. empty is by how much
// pages are filled less than by half even so, all together; it is no fault of a page that
// is the only one.
func Even(blocks []Block, areas func(page int) []geom.Rect, r draw.Ruler) (pages []draw.Drawing, empty float64, err error) {
	rows := Stack(blocks, areas(0)[0].Width(), r)
	best, err := flow(rows, areas)
	if err != nil {
		return nil, 0, err
	}
	least := best.emptiness(areas)
	const tries = 7
	for low, high, i := 0.0, 1.0, 0; i < tries && least > 0 && len(best.pages) > 1; i++ {
		share := (low + high) / 2
		more, err := flow(rows, shortened(areas, share))
		if err != nil || len(more.pages) > len(best.pages) {
			low = share
			continue
		}
		high = share
		if empty := more.emptiness(areas); empty < least {
			best, least = more, empty
		}
	}
	return best.pages, least, nil
}

// shortened are areas of which a share of the height is used, from the top.
func shortened(areas func(page int) []geom.Rect, share float64) func(page int) []geom.Rect {
	return func(page int) (all []geom.Rect) {
		for _, a := range areas(page) {
			a.Min.Y = a.Max.Y - a.Height()*unit.Length(share)
			all = append(all, a)
		}
		return all
	}
}

// emptiness is by how much pages are filled less than by half, all together.
func (f flown) emptiness(areas func(page int) []geom.Rect) (sum float64) {
	for page, used := range f.used {
		whole := unit.Length(0)
		for _, a := range areas(page) {
			whole += a.Height()
		}
		sum += max(0, HalfPage-float64(used/whole))
	}
	return sum
}

// Blank is blocks as they take room, without any marks: to try how they flow.
func Blank(rows []Row) Laid {
	out := make(Laid, len(rows))
	for i, row := range rows {
		out[i] = Row{Height: row.Height, Keep: row.Keep, Space: row.Space}
		if row.Again != nil {
			out[i].Again = &Row{Height: row.Again.Height}
		}
	}
	return out
}
