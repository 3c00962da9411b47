package draw

import (
	"reflect"
	"testing"
)

// A tag and a layer can be given to every kind of operation, and change nothing else.
func TestTagged(t *testing.T) {
	mine, other := &Tag{}, &Tag{Role: AsFigure}
	for _, op := range OpTypes() {
		tagged := Tagged(Drawing{op}, mine)[0]
		if tagged.Tag() != mine || op.Tag() != nil {
			t.Errorf("%T: tagged %v, was %v", op, tagged.Tag(), op.Tag())
		}
		if Tagged(Drawing{tagged}, other)[0].Tag() != mine {
			t.Errorf("%T lost its own tag", op)
		}
		moved := OnLayer(tagged, Joins)
		if moved.Tag() != mine || moved.Layer() != Joins || !reflect.DeepEqual(OnLayer(changed(moved, func(_ *Layer, of **Tag) { *of = nil }), op.Layer()), op) {
			t.Errorf("%T: %+v", op, moved)
		}
	}
	part := &Tag{Role: AsSection}
	d := Pictured(Drawing{Line{}, Text{}, Arc{}, Text{}}, "Two strokes.", part)
	figure, words := d[0].Tag(), d[1].Tag()
	if d[2].Tag() != figure || d[3].Tag() != words || figure.Role != AsFigure || figure.Alt != "Two strokes." || figure.In != part || words.In != part || words.Role != AsParagraph {
		t.Errorf("%+v %+v", figure, words)
	}
}
