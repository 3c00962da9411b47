package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

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
