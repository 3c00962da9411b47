package job

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"
)

// Whatever the form of a job, what it was made with goes into it and comes out of it:
// the pieces and their places stay, written again it is the same, JSON stays JSON.
func FuzzOver(f *testing.F) {
	f.Add([]byte(good))
	for _, text := range forms {
		f.Add([]byte(text))
	}
	f.Add([]byte("made_with: {unit: in}\npieces: [{measure: [AB=1]}]\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := Read("job.yaml", data)
		if err != nil {
			return
		}
		o := full
		o.Piece.Found, o.Piece.Fixed, o.FoundOf = nil, nil, 0
		text, err := Write(j, o)
		if err != nil {
			if strings.Contains(err.Error(), "is too large") {
				return
			}
			t.Fatalf("%q: %v", data, err)
		}
		got, err := Read("job.yaml", text)
		if err != nil {
			t.Fatalf("%q became %q: %v", data, text, err)
		}
		if !reflect.DeepEqual(got.MadeWith.bare(), o.bare()) {
			t.Fatalf("%q: made with %+v", data, got.MadeWith.bare())
		}
		if reflect.DeepEqual(j.MadeWith, Overrides{}) && !reflect.DeepEqual(got.Pieces, j.Pieces) {
			t.Fatalf("%q became %q", data, text)
		}
		if json.Valid(data) && !json.Valid(text) {
			t.Fatalf("%q is no JSON: %q", data, text)
		}
		if again, err := Write(got, o); err != nil || string(again) != string(text) {
			t.Fatalf("%q became %q, then %q: %v", data, text, again, err)
		}
	})
}
