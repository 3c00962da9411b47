package calibration

import (
	"errors"
	"strings"
	"testing"

	"trammel/geom/unit"
	"trammel/profiles"
)

func TestParseFound(t *testing.T) {
	for text, want := range map[string]Found{
		"width=190.25,height=277.5,diagonal=336,diagonal=336.25":                         {AB: 190.25, AD: 277.5, AC: 336, BD: 336.25},
		" BD = 336.25 , ac=336mm, height=27.75cm, AB=0.19025m ":                          {AB: 190.25, AD: 277.5, AC: 336, BD: 336.25},
		"edges=4,5.5,4,12,width=190,height=277,diagonal=336,diagonal=335":                {AB: 190, AD: 277, AC: 336, BD: 335, Edges: &profiles.Edges{Left: 4, Top: 5.5, Right: 4, Bottom: 12}},
		"width=7.5in,height=11in,diagonal=13 5/16in,diagonal=13.3in,edges=0,0, 0 ,0.5in": {AB: 190.5, AD: 279.4, AC: 13.3125 * 25.4, BD: 13.3 * 25.4, Edges: &profiles.Edges{Bottom: 12.7}},
	} {
		got, err := ParseFound(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		if (got.Edges == nil) != (want.Edges == nil) || got.Edges != nil && *got.Edges != *want.Edges {
			t.Errorf("%s: edges %v", text, got.Edges)
		}
		got.Edges, want.Edges = nil, nil
		if got != want {
			t.Errorf("%s: %+v", text, got)
		}
	}
}

// Whatever is typed is read, or refused in one line with what to do.
func FuzzParseFound(f *testing.F) {
	for _, s := range []string{"width=190.25,height=277.5,diagonal=336,diagonal=336.25,edges=4,5,4,12", "edges=,,,", "=,=,=", "AB=1e9,\x00", strings.Repeat("a=1,", 200)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		found, err := ParseFound(text)
		if err == nil {
			for _, l := range []unit.Length{found.AB, found.AD, found.AC, found.BD} {
				if !(l >= unit.Shortest && l <= 10160) {
					t.Fatalf("%q: %+v", text, found)
				}
			}
			return
		}
		var fault *unit.Fault
		if !errors.As(err, &fault) || strings.ContainsAny(err.Error()+fault.Hint, "\n\r\x00") || len(err.Error()) > 400 {
			t.Fatalf("%q: %v", text, err)
		}
	})
}
