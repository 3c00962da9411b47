// Package profiles holds papers, printers and trades: embedded defaults and the
// user's own over them. It is the only package that knows viper.
package profiles

import (
	"bytes"
	_ "embed"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/go-viper/mapstructure/v2"
	"github.com/spf13/viper"

	"trammel/profiles/strict"
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

// Set is all profiles, later files over earlier ones.
type Set struct {
	values content
	from   map[string]string // path of a value → where it was written
	names  map[string]string // path of a profile → its name as first written
	order  []string          // paths of the profiles as first met
}

// content is the form of a file, as viper hands it over.
type content struct {
	Defaults struct{ Paper, Printer, Trade string }
	Papers   map[string]paperText
	Printers map[string]printerText
	Trades   map[string]tradeText
}

type paperText struct{ Width, Height string }

type printerText struct{ Left, Top, Right, Bottom, Overlap string }

type tradeText struct {
	Unit, Fraction, Angles, Lettering string
	Show                              []string
	Compass, Protractor, Saw, Tape    string
	Hook, Instrument, Reading         string
}

// dot parts the words of a path. Not a point, which a name may hold: viper would
// read a.b as b within a.
const dot = "\x1f"

func path(words ...string) string { return strings.Join(words, dot) }

// Load reads the embedded profiles and then the files, each over those before.
// The errors are *unit.Fault that name file, line and key.
func Load(files ...File) (Set, error) {
	s := Set{from: map[string]string{}, names: map[string]string{}}
	all := viper.NewWithOptions(viper.KeyDelimiter(dot))
	for i, f := range append([]File{{BuiltIn, defaults}}, files...) {
		if i > 0 && len(bytes.TrimSpace(f.Data)) == 0 {
			continue // an empty file of one's own says nothing
		}
		root, err := strict.Parse(f.Name, f.Data)
		if err != nil {
			return s, err
		}
		if err := s.check(f.Name, root); err != nil {
			return s, err
		}
		one := viper.NewWithOptions(viper.KeyDelimiter(dot))
		one.SetConfigType("yaml")
		if err := one.ReadConfig(bytes.NewReader(f.Data)); err != nil {
			return s, root.Fault("cannot be read: "+strict.Shorten(err.Error()), "")
		}
		if err := all.MergeConfigMap(one.AllSettings()); err != nil {
			return s, root.Fault("cannot be read: "+strict.Shorten(err.Error()), "")
		}
	}
	// check has found whatever is wrong already, with its place; this is the
	// second fence: no key without a field, no number read as text.
	err := all.UnmarshalExact(&s.values, func(c *mapstructure.DecoderConfig) {
		c.WeaklyTypedInput = false
		c.DecodeHook = nil
	})
	if err != nil {
		return s, fmt.Errorf("profiles: %w", err)
	}
	return s, nil
}

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
	all := map[string]bool{}
	for _, p := range s.order {
		all[s.names[p]] = true
	}
	return slices.Sorted(maps.Keys(all))
}
