// Package shape is what is done to a piece beyond its outline: allowances along
// its edges, corners cut or rounded, holes; and from these the finished contour,
// the contour to cut along, and the settings of saw and square.
//
// The finished contour is the outline with its corners cut and rounded. The cut
// contour is each finished edge moved by its own allowance, outward where that is
// more than nothing, and the moved edges run on to where they cross (mitred). A
// corner that is cut or rounded is cut or rounded on both; see Treatment for what
// becomes of it between two edges of unlike allowances.
//
// Files, from the top floor to the ground: make.go, bore.go, cross.go,
// setting.go, shape.go, maker.go, corner.go, token.go.
package shape

import (
	"cmp"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// Work is what the tokens of a piece ask for. Nothing asked: the finished and
// the cut contour are the outline.
type Work struct {
	Allowances []Allowance
	Corners    []Corner
	Holes      []Hole
}

// Allowance is how far the cut line of an edge lies from its finished edge.
type Allowance struct {
	Edge  [2]geom.Name
	By    unit.Length // outward: saw kerf, seam, planing; below zero inward: joint, clearance
	Text  string      // the token as written, single spaces between its words, for messages
	Where string      // file:line:column where it came from a job file, else empty
}

// Treatment of a corner.
type Treatment uint8

const (
	// Sharp: the edges run on to where they cross, and so do their cut lines.
	Sharp Treatment = iota

	// Cut straight across, by a set-back along both edges. The edge that this
	// makes has an allowance like any other: the one stated, else the larger of
	// its two neighbours', since what is left on can still be taken off. Where the
	// moved edge no longer reaches into the corner of its neighbours' cut lines,
	// that corner is sharp.
	Cut

	// Round by an arc that touches both edges. Its cut line is an arc that touches
	// both cut lines, of the radius plus the mean of their allowances (at a corner
	// that points inward: less it). Between like allowances that is the arc at just
	// that distance; between unlike ones its distance from the finished arc goes
	// steadily from the one to the other. With the radius plus the larger it would
	// come nearer than the smaller at corners under 90°, and even cut into the piece;
	// with that plus the smaller it would lie out farther than the larger. Where no
	// radius is left, the cut lines' corner is sharp.
	Round

	// Blunt leaves the finished corner sharp and cuts only what the cut lines
	// spare beyond it: straight across, square to the corner's bisector, so far
	// from the finished corner.
	Blunt

	// Mitre leaves the corner sharp: two parts meet there, one along each edge, and
	// the joint is what saw and square are set for.
	Mitre
)

// Corner is what is done to one corner.
type Corner struct {
	At     geom.Name
	Do     Treatment
	By     unit.Length // Cut: the set-back; Round: the radius; Blunt: the distance beyond the corner
	Allow  unit.Length // Cut: of the edge that the cut makes, where Stated
	Stated bool
	Parts  [2]Member // Mitre: how wide the parts are, where that is said

	Text, Where string
}

// Member of what a Mitre joins: its edge and how wide it is.
type Member struct {
	Edge [2]geom.Name
	Wide unit.Length
}

// Hole is a round hole.
type Hole struct {
	Diameter unit.Length
	Centre   Centre

	Text, Where string
}

// Centre says where the centre of a hole is: FromEdge or FromCorners. Distances
// are those of the finished edges; a corner that is cut or rounded is where its
// edges would cross.
type Centre interface{ centre() }

// FromEdge is a centre at a distance square to an edge, on its inner side, and
// at another along the edge from one of its ends.
type FromEdge struct {
	Edge   [2]geom.Name
	Square unit.Length
	From   geom.Name
	Along  unit.Length
}

// FromCorners is a centre where arcs about two corners cross: on the inner side
// where the corners are those of an edge, else inside the piece.
type FromCorners struct {
	Corners [2]geom.Name
	Arms    [2]unit.Length
}

func (FromEdge) centre()    {}
func (FromCorners) centre() {}

// Shape is a piece with everything done to it, in the plane of its outline.
type Shape struct {
	Sides   []Side   // in the outline's order: Sides[i] from Corners[i] to the next
	Corners []Vertex // in the outline's order
	Bores   []Bore   // in the order of Work.Holes

	Finished geom.Contour // starts with the first side, where anything is left of it
	Cut      geom.Contour // likewise

	Notes []Note // what is doubtful
}

// NoteCode tells notes apart.
type NoteCode uint8

const (
	RunsOut     NoteCode = iota // the cut lines of a sharp corner cross far from it
	ThinAtEdge                  // a hole leaves little beside an edge or a cut line
	ThinBetween                 // two holes leave little between them
)

// Note is one thing that is doubtful; which fields say something depends on its code.
type Note struct {
	Code    NoteCode
	Corner  geom.Name   // RunsOut
	Token   string      // RunsOut: what in corners would shorten it, or empty
	Hole    string      // ThinAtEdge, ThinBetween: its token
	Other   string      // ThinBetween: the token of the hole before it
	Near    Part        // ThinAtEdge
	CutLine bool        // ThinAtEdge: near its cut line
	Left    unit.Length // how far they run out, or what is left
	Least   unit.Length // ThinAtEdge, ThinBetween: there is a note where less is left
}

// Part is a part of a contour: an edge (Sharp), or what is done to a corner.
type Part struct {
	Do Treatment
	Of string // its edge or its corner
}

// Side is one edge of the outline.
type Side struct {
	Name     string // as its ends are named in the outline's order: AB
	Allow    unit.Length
	Whole    geom.Line // from corner to corner of the outline
	Finished geom.Line // what cuts and roundings leave of it; without length where two roundings meet on it
	Cut      geom.Line // the straight part of its cut line; likewise
}

// Vertex is one corner of the outline.
type Vertex struct {
	Name     geom.Name
	At       geom.Point // where the finished edges cross, whatever is done to the corner
	Do       Treatment
	By       unit.Length    // as of Corner
	Allow    unit.Length    // of the edge that a Cut makes
	Finished geom.Segment   // the cut or the rounding; nil where the finished corner is sharp
	Cut      geom.Segment   // the same on the cut contour; nil where that is sharp
	Widths   [2]unit.Length // of the parts that a Mitre joins: before the corner, behind it; 0: alike
}

// Bore is one hole.
type Bore struct {
	Hole   Hole
	Circle geom.Arc   // the whole circle
	Foot   geom.Point // FromEdge: where the square to the edge stands on it
}

// Spared says whether the cut contour is another than the finished one.
func (s Shape) Spared() bool {
	out, in := s.spared()
	return out || in
}

// spared says whether the cut line lies outside the finished one along some edges, and inside along some.
func (s Shape) spared() (out, in bool) {
	for _, e := range s.Sides {
		out, in = out || e.Allow > 0, in || e.Allow < 0
	}
	for _, c := range s.Corners {
		out, in = out || c.Allow > 0, in || c.Allow < 0
	}
	return out, in
}

// Areas of a shape.
type Areas struct {
	Finished unit.Area // inside the finished contour, holes not taken out
	Cut      unit.Area // inside the cut contour, holes not taken out
	Holes    unit.Area // of all holes
	Net      unit.Area // finished, less the holes
}

// Areas are each within 1e-12 of the larger of themselves and the square of the
// piece's longest edge.
func (s Shape) Areas() Areas {
	a := Areas{Finished: s.Finished.Area(), Cut: s.Cut.Area()}
	for _, b := range s.Bores {
		a.Holes += geom.Contour{b.Circle}.Area()
	}
	a.Net = a.Finished - a.Holes
	return a
}

// Cover is a polygon that holds both contours and is nowhere more than sag
// outside of the outer one; where the cut line lies outside along some edges and
// inside along others, it is the convex hull of both.
func (s Shape) Cover(sag unit.Length) geom.Polygon {
	switch out, in := s.spared(); {
	case !in:
		return s.Cut.Around(sag)
	case !out:
		return s.Finished.Around(sag)
	}
	return hull(append(s.Finished.Around(sag), s.Cut.Around(sag)...))
}

// hull is the convex hull, counter-clockwise (A. M. Andrew, Another Efficient
// Algorithm for Convex Hulls in Two Dimensions, 1979).
func hull(points []geom.Point) geom.Polygon {
	points = slices.Clone(points)
	slices.SortFunc(points, func(p, q geom.Point) int {
		return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
	})
	var h geom.Polygon
	half := func(least int, p geom.Point) {
		for n := len(h); n >= least && geom.VectorOf(h[n-1].Minus(h[n-2])).FineCross(geom.VectorOf(p.Minus(h[n-1]))) <= 0; n-- {
			h = h[:n-1]
		}
		h = append(h, p)
	}
	for _, p := range points {
		half(2, p)
	}
	below := len(h) + 1
	for _, p := range slices.Backward(points[:len(points)-1]) {
		half(below, p)
	}
	return h[:len(h)-1]
}
