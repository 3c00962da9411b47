package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// noArguments refuses any.
func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return &unit.Fault{Where: strict.Shorten(args[0]), What: fmt.Sprintf("trammel %s takes no arguments", cmd.Name())}
}
