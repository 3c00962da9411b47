// Package words says everything that goes on paper, on a phone or into a page in the
// browser: whole sentences, made from typed values. Callers glue no fragments
// together and need no grammar; geom knows facts and codes and says nothing.
//
// A Language has its subjects, each an interface of its own. English is the one that
// there is; its Voice is where the work is done, and picks the words. Another language
// is another type with the same subjects.
//
// Files, from the top floor to the ground: words.go, checks.go, heads.go, setout_short.go,
// setout_steps.go, setout_doubts.go, setout_avoided.go, setout_sure.go, setout_taping.go,
// setout.go, nets.go, calibration.go, verdicts.go, onpages.go, templates.go,
// templates_joined.go, steps.go, pieces.go, cautions.go, lessons.go, aloud.go.
package words

import (
	"slices"

	"trammel/geom/pegging"
	"trammel/plot/words/checked"
	"trammel/plot/words/laying"
	"trammel/plot/words/phrase"
)

// Remark is a sentence as it stands behind a lead.
type Remark = phrase.Remark

// Voice is the place that a sentence is said for: its tools, its words.
type Voice uint8

const (
	Bench  Voice = iota // joiner: straight edge, trammel, bevel
	Class               // pupil: ruler, compasses, protractor
	Floor               // tiler: chalk line, pin and batten
	Ground              // site: pegs, tapes, string
)

// Voices are all of them.
func Voices() []Voice { return []Voice{Bench, Class, Floor, Ground} }

// String is the name of the voice.
func (v Voice) String() string {
	return [...]string{"bench", "class", "floor", "ground"}[min(v, Ground)]
}

// Named is the voice of that name; the bench's where there is none.
func Named(name string) Voice {
	return Voice(max(0, slices.IndexFunc(Voices(), func(v Voice) bool { return v.String() == name })))
}

// Language says all that is said, subject by subject.
type Language interface {
	Checks() Checks
	Nets() Nets
	Steps() Steps
	Pieces() Pieces
	SetOut(pegging.Layout) SetOut
	Heads(pegging.Layout) Heads // of a check's sheet the layout is not looked at
	Calibration() Calibration
	Pages() Pages
	Cautions() Cautions
	Templates() Templates
	Aloud() Aloud
	Tasks() Tasks
	Marking() Marking
	Models() Models
	Verdicts() Verdicts
	Laying() Laying
}

// Laying tells how a floor is tiled; in English the same in every voice, the tiler's.
type Laying = laying.Says

// English, in the voice of a place.
type English struct {
	Voice      Voice
	Instrument string // how a theodolite is said to the program; empty: as a job says it
}

// In is the language that a document was given; nil: English at the bench.
func In(l Language) Language {
	if l == nil {
		return English{}
	}
	return l
}

func (e English) Checks() Checks                 { return checked.Checks{Marks: e.Voice == Floor} }
func (e English) Nets() Nets                     { return nets{e} }
func (e English) Steps() Steps                   { return stepsOf(e.Voice) }
func (e English) Calibration() Calibration       { return calibration{e.Voice} }
func (e English) Pages() Pages                   { return pages{e.Voice} }
func (e English) Pieces() Pieces                 { return pieces{} }
func (e English) SetOut(l pegging.Layout) SetOut { return setOut{l, e} }
func (e English) Heads(l pegging.Layout) Heads   { return heads{setOut{l, e}} }
func (e English) Cautions() Cautions             { return cautions{e.Voice} }
func (e English) Templates() Templates           { return templates{e.Voice} }
func (e English) Laying() Laying                 { return laying.English{} }
func (e English) Aloud() Aloud                   { return aloud{} }
func (e English) Verdicts() Verdicts             { return verdicts{e.Voice} }
