package geom

import "trammel/geom/unit"

// Kind says what a measurement measures.
type Kind uint8

const (
	Distance Kind = iota // AB=2400: At[0] to At[1]
	Angle                // BAC=35deg: the angle at At[1] between At[0] and At[2]; A=35deg: At[1] alone
	Height               // C-AB=620: At[0] to the line At[1] At[2], square to it
)

// Measurement is one thing measured, as one token of text says it.
type Measurement struct {
	Kind  Kind
	At    [3]Name
	Value unit.Reading
	Text  string // the whole token as written, for messages
	Where string // file:line:column where it came from a job file, else empty
}
