package sheet

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// HalfPage is how far down what stands on a page reaches at least, where there are several.
const HalfPage = 0.5

// Even is Flow with pages that are filled alike where the last one would be filled less
// than by half: as few pages, each of them as short as that allows.
func Even(blocks []Block, areas func(page int) []geom.Rect, r draw.Ruler) ([]draw.Drawing, error) {
	rows := Stack(blocks, areas(0)[0].Width(), r)
	best, err := flow(rows, areas)
	if err != nil || len(best) == 1 {
		return best, err
	}
	least := Emptiness(best, areas, r)
	const tries = 7
	for low, high, i := 0.0, 1.0, 0; i < tries && least > 0; i++ {
		share := (low + high) / 2
		pages, err := flow(rows, shortened(areas, share))
		if err != nil || len(pages) > len(best) {
			low = share
			continue
		}
		high = share
		if empty := Emptiness(pages, areas, r); empty < least {
			best, least = pages, empty
		}
	}
	return best, nil
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

// Emptiness is by how much pages are filled less than by half, all together; a page that is
// the only one never is.
func Emptiness(pages []draw.Drawing, areas func(page int) []geom.Rect, r draw.Ruler) (sum float64) {
	if len(pages) == 1 {
		return 0
	}
	for i, d := range pages {
		sum += max(0, HalfPage-Filled(d, areas(i), r))
	}
	return sum
}

// Filled is how far down its areas what stands on a page reaches: of each a share of its
// height, the mean of them all.
func Filled(page draw.Drawing, areas []geom.Rect, r draw.Ruler) (sum float64) {
	low := make([]unit.Length, len(areas))
	for i, a := range areas {
		low[i] = a.Max.Y
	}
	for _, op := range page {
		b := op.Bounds(r)
		for i, a := range areas {
			if at := b.Centre().X; at > a.Min.X-Gutter/2 && at < a.Max.X+Gutter/2 {
				low[i] = min(low[i], max(b.Min.Y, a.Min.Y))
			}
		}
	}
	for i, a := range areas {
		sum += float64((a.Max.Y - low[i]) / a.Height())
	}
	return sum / float64(len(areas))
}
