package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"trammel/cmd/internal/whole"
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Exit statuses.
const (
	done       = 0
	machine    = 1 // the machine failed: disk, permission
	words      = 2 // the words are wrong
	noTriangle = 3 // the measurements fix no single triangle
)

// console is what a command talks to and writes with.
type console struct {
	in       io.Reader
	out, err io.Writer
	keeper   *whole.Keeper
}

// run is the whole program: arguments in, exit status out.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	c := console{in, out, errs, &whole.Keeper{}}
	watch(c.keeper)
	root := rootCommand(c)
	root.SetArgs(args)
	err := root.Execute()
	if err == nil {
		return done
	}
	return report(errs, err)
}

func rootCommand(c console) *cobra.Command {
	root := &cobra.Command{
		Use:   "trammel",
		Short: "a measured triangle becomes a true-scale template on paper",
		Long: `Trammel turns a triangle that somebody measured into something that can be cut,
marked or pegged at full size: a true-scale template on ordinary printer paper,
and a setting-out sheet for what is larger than paper.

A JOB is a job file, or - for standard input. A MEASUREMENT is a token:
  AB=2400        the distance from A to B (mm unless a unit says otherwise)
  A=35deg        the angle at A; also 35°30', 1:12, 8.5%, 6in12
  C-AB=620       the height of C over the line AB
  AB=2400+-2     with its tolerance`,
		Example: `  trammel solve AB=600 BC=450 CA=450
  trammel template AB=600 BC=450 CA=450 -o brace.pdf`,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.ArbitraryArgs,
	}
	root.SetIn(c.in)
	root.SetOut(c.out)
	root.SetErr(c.err)
	root.SetFlagErrorFunc(flagFault)
	root.CompletionOptions.SetDefaultShellCompDirective(cobra.ShellCompDirectiveDefault)
	subs := []*cobra.Command{
		solveCommand(c), templateCommand(c), setoutCommand(c), previewCommand(c), profilesCommand(c), versionCommand(c),
	}
	root.AddCommand(subs...)
	root.RunE = func(cmd *cobra.Command, args []string) error {
		if len(args) == 0 {
			return cmd.Help()
		}
		return unknownCommand(args, subs)
	}
	return root
}

// unknownCommand says what was probably meant.
func unknownCommand(args []string, subs []*cobra.Command) error {
	if strings.Contains(args[0], "=") {
		return &unit.Fault{Where: args[0], What: "a measurement, but no command before it", Hint: "trammel solve " + strings.Join(args, " ")}
	}
	names := []string{"help", "completion"}
	for _, s := range subs {
		names = append(names, s.Name())
	}
	return &unit.Fault{What: fmt.Sprintf("%q is not a command", strict.Shorten(args[0])), Hint: strict.Suggest(args[0], names)}
}

// flagFault words what the flag reader found wrong.
func flagFault(cmd *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	var missing *pflag.ValueRequiredError
	var invalid *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		name := unknown.GetSpecifiedName()
		var known []string
		cmd.Flags().VisitAll(func(f *pflag.Flag) { known = append(known, f.Name) })
		fault := &unit.Fault{Where: dashed(name), What: "is not a flag of trammel " + cmd.Name(), Hint: "trammel " + cmd.Name() + " --help lists them"}
		if near := strict.Nearest(name, known); near != "" {
			fault.Hint = "did you mean " + dashed(near) + "?"
		}
		return fault
	case errors.As(err, &missing):
		return &unit.Fault{Where: dashed(missing.GetSpecifiedName()), What: "wants a value"}
	case errors.As(err, &invalid):
		f := invalid.GetFlag()
		return &unit.Fault{Where: dashed(f.Name), What: fmt.Sprintf("%q is not a value for it", strict.Shorten(invalid.GetValue())), Hint: f.Usage}
	}
	return &unit.Fault{What: strict.Shorten(err.Error()), Hint: "trammel " + cmd.Name() + " --help"}
}

func dashed(name string) string {
	if len([]rune(name)) == 1 {
		return "-" + name
	}
	return "--" + strict.Shorten(name)
}

// report prints an error as one line, with a hint below it where there is one,
// and says which status it means.
func report(w io.Writer, err error) int {
	status, line, hint := judge(err)
	fmt.Fprintln(w, "trammel: "+oneLine(line))
	if hint != "" {
		fmt.Fprintln(w, "  "+oneLine(hint))
	}
	return status
}

func judge(err error) (status int, line, hint string) {
	var fault *unit.Fault
	var none *geom.NoTriangle
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &none):
		return noTriangle, err.Error(), none.Hint
	case errors.As(err, &fault):
		return words, err.Error(), fault.Hint
	case errors.As(err, &path):
		return machine, path.Path + ": " + path.Err.Error(), ""
	case errors.As(err, &link):
		return machine, link.New + ": " + link.Err.Error(), ""
	}
	return machine, err.Error(), ""
}

// oneLine keeps what a terminal would obey out of a message.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\r' || r == '\t':
			return ' '
		case r < ' ' || r >= 0x7f && r < 0xa0 || r == 0x2028 || r == 0x2029:
			return '\uFFFD'
		}
		return r
	}, s)
}
