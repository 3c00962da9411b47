package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"trammel/cmd/internal/calibration"
	"trammel/cmd/internal/config"
	"trammel/cmd/internal/lines"
	"trammel/geom/unit"
	"trammel/profiles"
	"trammel/profiles/strict"
)

const profilesWords = `Profiles lists papers, printers and trades with where each value was written: built
in, your own file, the one named by --config (or the variable TRAMMEL_CONFIG), and for
what is taken by default TRAMMEL_PAPER, TRAMMEL_PRINTER and TRAMMEL_TRADE; later ones
count, flags over all. Last come the printers that are calibrated (trammel calibrate),
each from a file of its own.

Your own file is $XDG_CONFIG_HOME/trammel/config.yaml, else
~/.config/trammel/config.yaml, on Windows %AppData%\trammel\config.yaml. It need hold
only what differs:

  defaults: {paper: Letter, printer: shed}
  printers:
    shed: {left: 4 mm, right: 4 mm, overlap: 12 mm}
  trades:
    thatcher: {unit: cm, lettering: 5 mm, show: [lengths, steps]}
    joiner: {saw: 50deg}   # how far the mitre saw turns to each side of square

Each value is read as the text that stands there, and a length has its unit.

A PDF that trammel made carries its job, and under made_with all settings that it was
made with. Opened as a job it goes by those, and by nobody's profiles: it is the same
job everywhere. Flags go over them; that another paper or printer was asked for, and
that a printer's correction is not known here, is said.`

func profilesCommand(c console) *cobra.Command {
	r := &request{console: c, command: "profiles"}
	list := &cobra.Command{
		Use:   "profiles [show NAME]",
		Short: "papers, printers, trades, and where each value comes from",
		Long:  profilesWords,
		Example: `  trammel profiles
  trammel profiles show joiner`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return &unit.Fault{What: fmt.Sprintf("%q is not a command of trammel profiles", strict.Shorten(args[0])), Hint: "trammel profiles show NAME"}
			}
			return r.profiles("")
		},
		Args: cobra.ArbitraryArgs,
	}
	show := &cobra.Command{
		Use:     "show NAME",
		Short:   "one paper, printer or trade",
		Example: "  trammel profiles show joiner\n  trammel profiles show A4 --json",
		Args:    cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return &unit.Fault{What: "one name of a profile is wanted", Hint: "trammel profiles show joiner"}
			}
			if strings.TrimSpace(args[0]) == "" {
				return &unit.Fault{What: "the name of the profile is empty", Hint: "trammel profiles lists them"}
			}
			return r.profiles(args[0])
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			set, err := config.Profiles(r.text("config"), readFile)
			if err != nil {
				return nil, cobra.ShellCompDirectiveError
			}
			return append(set.Names(), calibrated()...), cobra.ShellCompDirectiveNoFileComp
		},
	}
	r.flags = list.PersistentFlags()
	addFlags(r.flags, []option{{"json", false, "print them as JSON"}, {"config", "", "profiles `file` over your own"}})
	list.AddCommand(show)
	return list
}

// profiles lists all profiles, or those of one name, and what is known of printers.
func (r *request) profiles(name string) error {
	set, err := config.Profiles(r.text("config"), readFile)
	if err != nil {
		return err
	}
	show, printers := func() ([]profiles.Entry, error) { return set.Show(name) }, []string{name}
	if name == "" {
		show, printers = set.Entries, calibrated()
	}
	entries, err := show()
	for _, printer := range printers {
		c, broken := kept(printer)
		if broken != nil {
			return broken
		}
		if c != nil {
			entries = append(entries, calibration.Entry(*c))
		}
	}
	if err != nil && (name == "" || len(entries) == 0) {
		return err
	}
	if r.on("json") {
		return writeJSON(r.out, struct {
			Version  int              `json:"version"`
			Profiles []profiles.Entry `json:"profiles"`
		}{1, entries})
	}
	var b strings.Builder
	lines.Table(profileRows(entries, name == "")).Write(&b, "l l l l l")
	_, err = fmt.Fprint(r.out, b.String())
	return err
}

// profileRows is a row for each value, kind and name only where they change. In a
// list of all a paper has one row for both its sides.
func profileRows(entries []profiles.Entry, all bool) [][]string {
	rows := [][]string{{"kind", "name", "key", "value", "from"}}
	kind := ""
	for _, e := range entries {
		values := e.Values
		if all && e.Kind == "paper" && len(values) == 2 && values[0].From == values[1].From {
			values = []profiles.Item{{Key: "width x height", Text: values[0].Text + " x " + values[1].Text, From: values[0].From}}
		}
		for i, v := range values {
			row := []string{e.Kind, e.Name, v.Key, v.Text, v.From}
			if e.Kind == kind {
				row[0] = ""
			}
			if i > 0 {
				row[1] = ""
			}
			kind = e.Kind
			rows = append(rows, row)
		}
	}
	return rows
}
