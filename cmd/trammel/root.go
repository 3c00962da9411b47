package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"runtime"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"trammel/cmd/internal/output"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

const (
	statusDone       = 0
	statusMachine    = 1 // the machine failed: disk, permission
	statusWords      = 2 // the words are wrong
	statusNoTriangle = 3 // the measurements fix no single triangle
	statusNotPassed  = 4 // trammel check: what was found lies outside what is accepted
)

// console is what a command talks to and writes with.
type console struct {
	in       io.Reader
	out, err io.Writer
	keeper   *output.Keeper
	bar      *bar // nil where nobody would see it
	stops    *watcher
}

// run is the whole program: arguments in, exit status out.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	var b *bar
	if terminal(errs) {
		b = &bar{to: errs}
		out, errs = clearing{out, b}, clearing{errs, b}
	}
	defer b.clear()
	said := &sayer{to: out}
	keeper := &output.Keeper{}
	c := console{in, said, errs, keeper, b, watch(keeper)}
	root := rootCommand(c)
	root.SetArgs(args)
	err := root.Execute()
	if err == nil {
		err = said.err
	}
	switch {
	case err == nil:
		return statusDone
	case errors.Is(err, errNotPassed):
		return statusNotPassed
	}
	return complain(errs, err)
}

// sayer remembers that standard output could not be written: help and lists are
// written by those who do not look.
type sayer struct {
	to  io.Writer
	err error
}

func (s *sayer) Write(p []byte) (int, error) {
	n, err := s.to.Write(p)
	if s.err == nil {
		s.err = err
	}
	return n, err
}

func rootCommand(c console) *cobra.Command {
	root := &cobra.Command{
		Use:   "trammel",
		Short: "a measured triangle becomes a true-scale template on paper",
		Long: `Trammel turns a triangle that somebody measured into something that can be cut,
marked or pegged at full size: a true-scale template on ordinary printer paper,
and a setting-out sheet for what is larger than paper.

A JOB is a job file, a PDF that trammel made, or - for standard input.
A MEASUREMENT is a token:
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
	root.PersistentPreRunE = func(cmd *cobra.Command, args []string) error { return refuseInvisible(cmd.Flags(), args) }
	root.SetIn(c.in)
	root.SetOut(c.out)
	root.SetErr(c.err)
	root.SetFlagErrorFunc(flagFault)
	root.CompletionOptions.SetDefaultShellCompDirective(cobra.ShellCompDirectiveDefault)
	subs := []*cobra.Command{
		solveCommand(c), templateCommand(c), setoutCommand(c), floorCommand(c), checkCommand(c), tasksCommand(c), previewCommand(c), calibrateCommand(c), browserCommand(c), profilesCommand(c), versionCommand(c),
	}
	root.AddCommand(subs...)
	root.SetHelpCommand(helpCommand(root))
	completion(root)
	root.RunE = func(cmd *cobra.Command, args []string) error {
		if len(args) == 0 {
			return cmd.Help()
		}
		return unknownCommand(args, root.Commands())
	}
	return root
}

func refuseInvisible(flags *pflag.FlagSet, args []string) error {
	for _, a := range args {
		if f := unit.HiddenFault(a); f != nil {
			return f.In(unit.Quote(a))
		}
	}
	var err error
	flags.Visit(func(flag *pflag.Flag) {
		if f := unit.HiddenFault(flag.Value.String()); f != nil && err == nil {
			err = f.In(dashed(flag.Name))
		}
	})
	return err
}

// completion gives the command that comes with the library an example, and
// makes it refuse a shell that it does not know.
func completion(root *cobra.Command) {
	root.InitDefaultCompletionCmd()
	for _, c := range root.Commands() {
		if c.Name() != "completion" {
			continue
		}
		c.Short = "print a script that completes commands and flags in your shell"
		c.Example = "  trammel completion bash > ~/.local/share/bash-completion/completions/trammel"
		shells := c.Commands()
		c.Args = cobra.ArbitraryArgs
		c.RunE = func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return c.Help()
			}
			return &unit.Fault{What: fmt.Sprintf("%q is not a shell that is known", strict.Shorten(args[0])), Hint: likely(args[0], shells)}
		}
	}
}

func helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:     "help [COMMAND]",
		Short:   "help for a command",
		Example: "  trammel help template",
		RunE: func(_ *cobra.Command, args []string) error {
			found, left, err := root.Find(args)
			switch {
			case len(left) > 0 && found.HasParent():
				return &unit.Fault{What: fmt.Sprintf("%q is not a command of %s", strict.Shorten(left[0]), found.CommandPath()), Hint: "such as: trammel help " + found.Name()}
			case err != nil || len(left) > 0:
				return unknownCommand(args, root.Commands())
			}
			return found.Help()
		},
	}
}

func unknownCommand(args []string, subs []*cobra.Command) error {
	if strings.Contains(args[0], "=") {
		return &unit.Fault{Where: strict.Shorten(args[0]), What: "is a measurement, and no command stands before it", Hint: "such as: trammel solve " + strict.Shorten(args[0]) + " …"}
	}
	return &unit.Fault{What: fmt.Sprintf("%q is not a command", strict.Shorten(args[0])), Hint: likely(args[0], subs)}
}

// likely suggests one of the commands for a word.
func likely(word string, of []*cobra.Command) string {
	var names []string
	for _, c := range of {
		names = append(names, c.Name())
	}
	return strict.Suggest(word, names)
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
		fault := &unit.Fault{Where: dashed(name), What: "is not a flag of " + cmd.CommandPath(), Hint: cmd.CommandPath() + " --help lists them"}
		if near := strict.Nearest(name, known); near != "" {
			fault.Hint = "did you mean " + dashed(near) + "?"
		}
		return fault
	case errors.As(err, &missing):
		return &unit.Fault{Where: dashed(missing.GetSpecifiedName()), What: "wants a value"}
	case errors.As(err, &invalid):
		f := invalid.GetFlag()
		return &unit.Fault{Where: dashed(f.Name), What: fmt.Sprintf("%q is not a value for it", strict.Shorten(invalid.GetValue())), Hint: strings.ReplaceAll(f.Usage, "`", "")}
	}
	return &unit.Fault{What: strict.Shorten(err.Error()), Hint: cmd.CommandPath() + " --help"}
}

func dashed(name string) string {
	if len([]rune(name)) == 1 {
		return "-" + name
	}
	return "--" + strict.Shorten(name)
}

// complain prints an error as one line, with a hint below it where there is one,
// and says which status it means.
func complain(w io.Writer, err error) int {
	status, line, hint := judge(err)
	fmt.Fprintln(w, "trammel: "+oneLine(line))
	if hint != "" {
		fmt.Fprintln(w, "  "+oneLine(hint))
	}
	return status
}

func judge(err error) (status int, line, hint string) {
	var fault *unit.Fault
	var none *triangle.NoTriangle
	var path *fs.PathError
	switch {
	case errors.As(err, &none):
		return statusNoTriangle, err.Error(), hinted(none.Subject, none.Advice, none.Hint)
	case errors.As(err, &fault):
		return statusWords, located(fault), hinted(fault.Subject, fault.Advice, fault.Hint)
	case errors.As(err, &path):
		return statusMachine, path.Path + ": " + path.Err.Error(), ""
	}
	return statusMachine, err.Error(), ""
}

// oneLine removes control characters, which a terminal would obey.
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

func versionCommand(c console) *cobra.Command {
	return &cobra.Command{
		Use:     "version",
		Short:   "print the version",
		Example: "  trammel version",
		Args:    func(_ *cobra.Command, args []string) error { return noArguments("version", args) },
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintln(c.out, version())
			return err
		},
	}
}

// version as the build knows it: nothing is written by hand that could be wrong.
func version() string {
	v, revision, changed := "devel", "", ""
	if info, ok := debug.ReadBuildInfo(); ok {
		if info.Main.Version != "" && info.Main.Version != "(devel)" {
			v = info.Main.Version
		}
		for _, s := range info.Settings {
			switch {
			case s.Key == "vcs.revision":
				revision = " " + s.Value[:min(12, len(s.Value))]
			case s.Key == "vcs.modified" && s.Value == "true":
				changed = " with changes"
			}
		}
	}
	return fmt.Sprintf("trammel %s%s%s, %s %s/%s", v, revision, changed, runtime.Version(), runtime.GOOS, runtime.GOARCH)
}
