package app

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
)

// Large print: all that is read, on sheets and on the pages before them, is of the sizes of its roles in the
// ratio of the figures, nothing touches, and nothing of the shape moves by a hair.
func TestLargePrintLeavesTheShape(t *testing.T) {
	roles := []unit.Length{draw.NoteHeight, draw.FigureHeight, draw.TitleHeight, draw.CornerHeight, draw.LabelHeight}
	for _, text := range []string{
		"trade: joiner\npieces: [{measure: [AB=120, BC=90, CA=100]}]",
		"trade: joiner\npieces: [{measure: [AB=620, BC=490, CA=500], quantity: 2}]",
		"trade: joiner\npieces: [{measure: [AB=160, BC=140, CA=150], edges: [AB allow 3], corners: [B round 12]}]",
		"trade: tiler\npaper: Letter\npieces: [{measure: [AB=1ft 4 1/2in, A=52deg, CA=11 3/4in]}]",
		"trade: teacher\npieces: [{measure: [AB=90, BC=80, CA=60]}, {measure: [DE=85, D=50deg, FD=70]}]",
	} {
		var shapes [3][]draw.Op
		for k, height := range []unit.Length{draw.FigureHeight, draw.TitleHeight, draw.CornerHeight} {
			w := mustOpen(t, text, Options{})
			w.Trade.Lettering = height
			made, err := w.template()
			if err != nil {
				t.Fatal(err)
			}
			seen := map[unit.Length]bool{}
			for p := range made.pages() {
				for i, op := range p.Ops {
					o, is := op.(draw.Text)
					if !is {
						if b := op.Bounds(lettering.Go()); p.Kind == draw.Index && b.Max.X > p.Width-9 {
							t.Errorf("%s: lettering %v: a %T of the index is off the page", text, height, op)
						}
						if p.Kind == draw.Template && op.Layer() == draw.Outline && len(p.Places) == 1 {
							shapes[k] = append(shapes[k], op)
						}
						continue
					}
					if b := o.Bounds(lettering.Go()); b.Min.X < 9 || b.Min.Y < 9 || b.Max.X > p.Width-9 || b.Max.Y > p.Height-9 {
						t.Errorf("%s: lettering %v: %q is off the page", text, height, o.Words)
					}
					ratio := o.Height * draw.FigureHeight / height
					role := slices.IndexFunc(roles, func(h unit.Length) bool { return max(h-ratio, ratio-h) < 1e-9 })
					if role >= 0 {
						seen[roles[role]] = true
					} else if o.On != draw.Joins || o.Height < draw.NoteHeight-1e-9 { // a strip holds no larger words
						t.Errorf("%s: lettering %v: %q is %v high", text, height, o.Words, o.Height)
					}
					if near := nearWords(p, i, o); near != "" && o.On == draw.Dimension {
						t.Errorf("%s: lettering %v: %s", text, height, near)
					}
				}
			}
			if !seen[draw.NoteHeight] || !seen[draw.FigureHeight] || !seen[draw.CornerHeight] {
				t.Errorf("%s: lettering %v: only the sizes %v", text, height, seen)
			}
		}
		if strings.HasPrefix(text, "trade: joiner") && (len(shapes[0]) == 0 || !reflect.DeepEqual(shapes[0], shapes[1]) || !reflect.DeepEqual(shapes[0], shapes[2])) {
			t.Errorf("%s: the outline differs with the lettering: %v", text, shapes)
		}
	}
}
