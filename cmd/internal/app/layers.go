package app

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// Layers are the names of the layers that can be left out.
func Layers() []string {
	var names []string
	for _, l := range draw.Layers() {
		if l != draw.Outline && !l.Fixed() {
			names = append(names, l.String())
		}
	}
	return names
}

// without reads a list of layers to be left out: construction,notes.
func without(t job.Setting) ([]draw.Layer, error) {
	if t.Text == "" {
		return nil, nil
	}
	var hide []draw.Layer
	for _, name := range strings.Split(t.Text, ",") {
		name = strings.TrimSpace(name)
		i := slices.IndexFunc(draw.Layers(), func(l draw.Layer) bool { return l.String() == name })
		switch {
		case name == draw.Outline.String():
			return nil, &unit.Fault{Where: t.Where, What: "the outline is what is cut, and stays", Hint: "layers: " + strings.Join(Layers(), ", ")}
		case i < 0 || draw.Layers()[i].Fixed():
			return nil, &unit.Fault{Where: t.Where, What: fmt.Sprintf("%q is not a layer", strict.Shorten(name)), Hint: strict.Suggest(name, Layers())}
		}
		hide = append(hide, draw.Layers()[i])
	}
	return hide, nil
}

// shown is a page without the layers that are left out.
func (w Work) shown(p draw.Page) draw.Page {
	if len(w.hide) > 0 {
		p.Ops = slices.DeleteFunc(slices.Clone(p.Ops), func(op draw.Op) bool { return slices.Contains(w.hide, op.Layer()) && !op.Layer().Fixed() })
	}
	return p
}
