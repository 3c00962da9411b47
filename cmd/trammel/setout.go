package main

import (
	"errors"

	"github.com/spf13/cobra"
)

func setoutCommand(c console) *cobra.Command {
	return &cobra.Command{Use: "setout", RunE: func(*cobra.Command, []string) error { return errors.New("not yet") }}
}
