// Package place finds room on paper for labels and furniture. Two ways lead there: a Scene
// files ink and words by place and says whether a box, turned or not, keeps its gaps from
// them; a Ground divides an area into small squares and finds a free rectangle, or a block
// of several, among thousands of positions. Cheapest takes what costs least. Lengths are mm
// on paper; a label's candidates, their costs and gaps are their owner's.
//
// Files, from the top floor to the ground: place.go, cheapest.go, scene.go, shape.go,
// stroke.go, index.go, ground.go.
package place
