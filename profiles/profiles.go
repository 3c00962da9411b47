// Package profiles holds papers, printers and trades: embedded defaults and the
// user's own over them, as values: where the files lie is not its business.
//
// Files, from the top floor to the ground: list.go, calibration.go, lookup.go, load.go,
// keys.go, profiles.go.
package profiles

import (
	_ "embed"
	"maps"
	"slices"
	"strings"
)

//go:embed defaults.yaml
var defaults []byte

// BuiltIn is where the embedded values come from.
const BuiltIn = "built in"

// File is a file of profiles, already read.
type File struct {
	Name string // as messages name it
	Data []byte
}

// Set is all profiles, later files over earlier ones. A path is a kind, the id of a
// profile and a key, or "defaults" and a key.
type Set struct {
	values map[string]value  // by path
	names  map[string]string // path of a profile → its name as first written
	order  []string          // paths of the profiles as first met
}

// value is the text that was written, of a list its words with a space between them, and
// the file and line where it was; at has the column as well, for faults.
type value struct{ text, from, at string }

// dot parts the words of a path. Not a point, which a name may hold.
const dot = "\x1f"

func path(words ...string) string { return strings.Join(words, dot) }

// id is how a profile is found: small letters, and a hyphen for a space.
func id(name string) string {
	return strings.NewReplacer(" ", "-", "_", "-").Replace(strings.ToLower(strings.TrimSpace(name)))
}

// nameOf is the name as people read it.
func (s Set) nameOf(kind, id string) string {
	return strings.ReplaceAll(s.names[path(kind, id)], "-", " ")
}

// ids of a kind, as first met.
func (s Set) ids(kind string) []string {
	var ids []string
	for _, p := range s.order {
		if k, i, _ := strings.Cut(p, dot); k == kind {
			ids = append(ids, i)
		}
	}
	return ids
}

// Names lists the profiles of all kinds by name, for completion.
func (s Set) Names() []string {
	return slices.Compact(slices.Sorted(maps.Values(s.names)))
}
