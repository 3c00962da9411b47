package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"trammel/cmd/internal/app"
	"trammel/geom/unit"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// command is what there is to say of one. What it runs sees its flags by their names.
type command struct {
	use, short, long, example string
	flags                     [][]option // of one name the last usage counts
	output                    string     // what -o writes; empty: nothing
	run                       func(*request, []string) error
}

// option is a flag of a command: its name, what it holds where it is not given, and its line
// of help, without which it is an older word.
type option struct {
	name  string
	value any // a text, yes or no, a number, or texts
	usage string
}

// request is what the flags and arguments of a command ask for.
type request struct {
	console
	command string
	flags   *pflag.FlagSet
}

func (c console) command(d command) *cobra.Command {
	cmd := &cobra.Command{Use: d.use, Short: d.short, Long: d.long, Example: d.example}
	r := &request{c, cmd.Name(), cmd.Flags()}
	addFlags(r.flags, d.flags...)
	if d.output != "" {
		r.flags.StringP("output", "o", "", "`file` to write: "+d.output)
	}
	cmd.RunE = func(_ *cobra.Command, args []string) error { return d.run(r, args) }
	return cmd
}

func addFlags(to *pflag.FlagSet, groups ...[]option) {
	for _, group := range groups {
		for _, f := range group {
			if known := to.Lookup(f.name); known != nil {
				known.Usage = f.usage
				continue
			}
			switch v := f.value.(type) {
			case string:
				to.String(f.name, v, f.usage)
			case bool:
				to.Bool(f.name, v, f.usage)
			case int:
				to.Int(f.name, v, f.usage)
			case []string:
				to.StringArray(f.name, v, f.usage)
			}
			to.Lookup(f.name).Hidden = f.usage == ""
		}
	}
}

var jobFlags = []option{
	{"json", false, "print the report as JSON on standard output; every other word goes to standard error"},
	{"unit", "", "`unit` of bare numbers and of figures: mm, cm, m, in or ft"},
	{"fraction", "", "finest `fraction` of an inch that is written: 1/8, 1/16, 1/32 or 1/64"},
	{"angles", "", "`form` of angles: decimal or minutes"},
	{"trade", "", "`trade` profile: joiner, tiler, teacher or one of your own"},
	{"voice", "", "`place` whose words the pages speak: class, bench, floor or ground; else the trade's, and ground or floor for setting out"},
	{"pick", "", "`which` triangle where two fit: 1, 2 or both"},
	{"base", "", "the baseline by its two `ends`, such as AB"},
	{"with", "", "`way` to construct it, whatever was measured: arcs, angle or square"},
	{"outline", "", "`corners` of the piece in the order of walking round, such as A,B,C,D, where more than three points were measured"},
	{"side", "", "`side` on which points lie where two places fit: left, right, or D left, E right of AB"},
	{"name", "", "`name` of the piece that the measurements make"},
	{"config", "", "profiles `file` over your own"},
}

// paperFlags say what it is printed on.
var paperFlags = []option{
	{"paper", "", "`paper`: A4, Letter, Arch D …, or a size such as 300x500, 12x18in, or 914xany off a roll"},
	{"landscape", false, "paper lying on its side"},
	{"printer", "", "`printer` profile or one that is calibrated: margins, overlap and correction"},
	{"margin", "", "`width` of all four margins, such as 10mm or 1/2in; a bare number counts mm, and is refused where bare numbers count another unit"},
	{"overlap", "", "`width` of what neighbouring pages show twice, written like a margin"},
}

// pageFlags say what comes on the pages of a template.
var pageFlags = []option{
	{"pages", "", "`which` pages: full for every page of the piece, outline for only those that carry its edges"},
	{"turn", "", "`angle` of the baseline on the paper, 0 along its lower edge; else the turn with the fewest pages"},
	{"copies", "", "`how often` each template is printed; how many pieces are marked from one is the job's quantity"},
	{"both-hands", false, "of a pair each hand has its own template, instead of one that is turned over"},
	{"apart", false, "small pieces do not share pages: each has its own"},
	{"without", "", "`layers` to leave out: " + strings.Join(app.Layers(), ",")},
}

// toolFlags say what it was measured with, which measurements to spare are weighed by.
var toolFlags = []option{
	{"tape", "", "accuracy `class` of the tape that measured: I, II or III (OIML R 35)"},
	{"instrument", "", "`what` angles were measured with: protractor or theodolite"},
}

// siteFlags say of the ground, the tools and the day what a job says under site:.
var siteFlags = []option{
	{"tape", "", "accuracy `class` of the tape: I, II or III (OIML R 35)"},
	{"instrument", "", "`what` angles are set out with: none, square, protractor or theodolite"},
	{"permitted", "", "`K` in mm of the permitted deviation ±K√L, L in metres, 2K under 5 m"},
	{"every", "", "`distance` from mark to mark along each edge"},
	{"boards", "", "`distance` by which profile boards stand clear of the digging"},
	{"origin", "", "`place` of the end of the baseline that is named first: easting,northing; beyond 100000 with its unit"},
	{"bearing", "", "`angle` of the baseline, clockwise from north"},
	{"temperature", "", "`temperature` of the tape when it is used, such as 31C or 88F: its readings are corrected"},
	{"pull", "", "`force` it is pulled with, such as 50N or 12lb"},
	{"span", "", "`distance` between its supports, where it hangs"},
}

// groundFlags are those of a site whose pegs stand at different heights.
var groundFlags = []option{
	{"levels", "", "`heights` of pegs, such as \"A 0, B 320\": the tape's readings follow the ground"},
	{"walls", "", "`walls` that no tape goes through: AB,BC, or outline for all edges of the piece"},
	{"blocked", "", "`lines` that something stands on, such as AC,BD: they are not pulled"},
	{"slope", "", ""}, // an older word, refused with what to write
}

// text is a flag's text, as it was written; empty where there is no such flag.
func (r *request) text(name string) string {
	if f := r.flags.Lookup(name); f != nil {
		return f.Value.String()
	}
	return ""
}

// on says whether a flag of yes or no was given.
func (r *request) on(name string) bool { return r.text(name) == "true" }

// said is a flag's setting where the flag was given. It wants a value then.
func (r *request) said(name string) (job.Setting, error) {
	if !r.flags.Changed(name) {
		return job.Setting{}, nil
	}
	s := job.Setting{Text: unit.Composed(r.text(name)), Where: "--" + name}
	if strings.TrimSpace(s.Text) == "" {
		return s, &unit.Fault{Where: s.Where, What: "wants a value"}
	}
	return s, nil
}

func noArguments(command string, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return &unit.Fault{Where: strict.Shorten(args[0]), What: fmt.Sprintf("trammel %s takes no arguments", command)}
}

// swallowed finds a flag whose value was forgotten, so that it took the next flag
// for its value, or nothing where only a value makes sense.
func swallowed(flags *pflag.FlagSet) error {
	var err error
	flags.Visit(func(f *pflag.Flag) {
		v := f.Value.String()
		if f.Name == "config" && strings.TrimSpace(v) == "" && err == nil {
			err = &unit.Fault{Where: "--config", What: "wants a value"}
		}
		if f.Value.Type() == "string" && len(v) > 1 && v[0] == '-' && err == nil && (v[1] == '-' || flags.ShorthandLookup(v[1:2]) != nil) {
			err = &unit.Fault{Where: dashed(f.Name), What: fmt.Sprintf("wants a value, and %q stands there", strict.Shorten(v))}
		}
	})
	return err
}
