// Package screen makes of a piece a picture for a screen that is touched: lines and shapes
// as SVG without words in it, and what can be tapped as data: each length, angle and height
// with the box that its figure stands in, placed for the width given so that no box lies
// on another. How lines look is the style sheet's; the classes say what they are. Lengths
// are the screen's, in pixels of the letters' usual size; y points down.
//
// Files, from the top floor to the ground: sketch.go, hand.go, paint.go, pull.go, map.go, draw.go, things.go, tags.go, rows.go,
// gap.go, rough.go, view.go, write.go, screen.go.
package screen

import (
	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Piece is what is shown of a piece of work.
type Piece struct {
	Construction construct.Construction
	Measured     []triangle.Measurement
	Figures      unit.Style   // of what is computed
	Doubtful     []string     // what may hold a slip, as triangle.Measurement.Subject has it
	Finished     geom.Contour // after allowances and corners, where it differs from the outline
}

// Kind says what a tag is of.
type Kind string

const (
	Side     Kind = "side"     // of the outline
	Diagonal Kind = "diagonal" // any other length
	Height   Kind = "height"
	Angle    Kind = "angle"
)

// Tag is the figure of one thing that can be measured, and where it stands.
type Tag struct {
	Of    string  `json:"of"` // as a job says it: AB, A, BAC, C-AB
	Kind  Kind    `json:"kind"`
	Say   string  `json:"say"`   // its figure; empty where nobody knows it yet
	Given bool    `json:"given"` // it was measured; else it is worked out, or unknown
	Doubt bool    `json:"doubt"` // it may hold a slip
	Row   bool    `json:"row"`   // it found no room beside its line and stands below the shape
	X     float64 `json:"x"`     // its box, from the left and from above
	Y     float64 `json:"y"`
	W     float64 `json:"w"`
	H     float64 `json:"h"`
}

// Edge is a line that can be tapped.
type Edge struct {
	Of   string `json:"of"`
	Kind Kind   `json:"kind"`
	From string `json:"from"`
	To   string `json:"to"`
}

// Picture is a piece on a screen.
type Picture struct {
	SVG    string                `json:"svg"`
	Width  float64               `json:"width"`
	Height float64               `json:"height"`
	Spots  map[string][2]float64 `json:"spots"` // where each point lies
	Edges  []Edge                `json:"edges"`
	Tags   []Tag                 `json:"tags"`
	Steps  int                   `json:"steps"` // groups of lines drawn by hand
	Rough  bool                  `json:"rough"` // nothing is to scale
	Gap    float64               `json:"gap"`   // mm by which what was measured does not meet; 0: it does, or nobody can tell
}

// Sizes on the screen.
const (
	Target    unit.Length = 44 // what a finger meets
	letter    unit.Length = 26 // box of a corner's letter
	character unit.Length = 9.6
	beside    unit.Length = 20  // of a tag's words, both sides together
	Narrowest unit.Length = 160 // half of a phone, where letters are twice as large
	Widest    unit.Length = 2000
)
