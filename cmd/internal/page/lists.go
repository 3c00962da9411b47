package page

import (
	"runtime/debug"
	"strings"

	"trammel/cmd/internal/app"
	"trammel/geom/unit"
	"trammel/profiles"
)

// lists are what there is to choose from.
func (q question) lists() (r Reply, _ []byte, err error) {
	set, err := built()
	if err != nil {
		return r, nil, err
	}
	all, err := set.Entries()
	if err != nil {
		return r, nil, err
	}
	l := &Lists{Build: build(), Documents: []Document{}, Voices: profiles.Voices(), Layers: app.Layers(), Units: []string{}}
	for u := unit.MM; u <= unit.FT; u++ {
		l.Units = append(l.Units, u.String())
	}
	for _, k := range kinds() {
		l.Documents = append(l.Documents, Document{Name: k.Name, As: forms(k), Example: k.Example, Readings: k.Needs&app.Readings != 0, Printer: k.Needs&app.Printer != 0})
	}
	for _, e := range all {
		c := Choice{Name: e.Name, Says: entrySays(e)}
		switch e.Kind {
		case "paper":
			l.Papers = append(l.Papers, c)
		case "printer":
			l.Printers = append(l.Printers, c)
		case "trade":
			l.Trades = append(l.Trades, c)
		}
	}
	l.Default.Paper, _ = set.Default("paper")
	l.Default.Printer, _ = set.Default("printer")
	l.Default.Trade, _ = set.Default("trade")
	r.Lists = l
	return r, nil, nil
}

// entrySays is a profile in a few words: of paper its sides, of the others nothing.
func entrySays(e profiles.Entry) string {
	if e.Kind != "paper" {
		return ""
	}
	var sides []string
	for _, v := range e.Values {
		if v.Key == "width" || v.Key == "height" {
			sides = append(sides, v.Text)
		}
	}
	return strings.Join(sides, " x ")
}

// build is the state of the source that this was built of, as the compiler knows it.
func build() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			return s.Value[:min(12, len(s.Value))]
		}
	}
	return info.Main.Version
}
