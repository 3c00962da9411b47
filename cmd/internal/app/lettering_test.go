package app

import (
	"reflect"
	"testing"

	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Large print: all that is read on the sheets follows the figures in their ratio, and
// nothing of the shape moves by a hair.
func TestLargePrintLeavesTheShape(t *testing.T) {
	for _, text := range []string{
		"pieces: [{measure: [AB=120, BC=90, CA=100]}]",
		"pieces: [{measure: [AB=620, BC=490, CA=500]}]",
		"trade: joiner\npieces: [{measure: [AB=160, BC=140, CA=150], edges: [AB allow 3], corners: [B round 12]}]",
	} {
		var shapes [2][]draw.Op
		var least [2]unit.Length
		for k, height := range []unit.Length{draw.FigureHeight, draw.TitleHeight} {
			w := mustOpen(t, text, Options{})
			w.Trade.Lettering = height
			made, err := w.template()
			if err != nil {
				t.Fatal(err)
			}
			for p := range made.pages() {
				if p.Kind != draw.Template {
					continue
				}
				for _, op := range p.Ops {
					switch o := op.(type) {
					case draw.Text:
						// Joins have their own sizes: their words stand in the strip that they share.
						if o.On != draw.Joins && (least[k] == 0 || o.Height < least[k]) {
							least[k] = o.Height
						}
					default:
						if op.Layer() == draw.Outline {
							shapes[k] = append(shapes[k], op)
						}
					}
				}
			}
		}
		if len(shapes[0]) == 0 || !reflect.DeepEqual(shapes[0], shapes[1]) {
			t.Errorf("%s: the outline differs with the lettering: %v and %v", text, shapes[0], shapes[1])
		}
		if want := least[0] * draw.TitleHeight / draw.FigureHeight; least[0] != draw.NoteHeight || least[1] < want-1e-9 {
			t.Errorf("%s: the smallest words are %v and %v high, want %v", text, least[0], least[1], want)
		}
	}
}
