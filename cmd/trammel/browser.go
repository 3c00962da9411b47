package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strconv"

	open "github.com/cli/browser"
	"github.com/spf13/cobra"

	"trammel/cmd/internal/page/serve"
	"trammel/geom/unit"
)

const browserWords = `Browser opens the page of trammel in your browser: measure on a sketch, see the sheets,
print, follow the construction step by step, peg out. The page and what reckons for it
are within this program; it is reached from this computer alone, and nothing leaves it.
What was typed is kept by the browser. Ctrl-C ends it.`

func browserCommand(c console) *cobra.Command {
	return c.command(command{
		use:   "browser",
		short: "the page: measure, see, print and peg without a command line",
		long:  browserWords,
		example: `  trammel browser
  trammel browser --no-open --port 8044`,
		flags: [][]option{{
			{"port", 0, "`number` of the port on this computer; else a free one"},
			{"no-open", false, "say the address and open no browser"},
		}},
		run: (*request).browser,
	})
}

func (r *request) browser(args []string) error {
	if err := noArguments(r.command, args); err != nil {
		return err
	}
	port, _ := r.flags.GetInt("port")
	if port < 0 || port > 65535 {
		return &unit.Fault{Where: "--port", What: fmt.Sprintf("%d is not from 1 to 65535", port), Hint: "leave --port out: a free one is found"}
	}
	s, err := serve.Listen(port)
	if err != nil {
		return portFault(port, err)
	}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	r.stops.instead(stop) // from outside: this is how it ends, and nothing is wrong then
	if _, err := fmt.Fprintf(r.out, "The page is at %s - Ctrl-C ends it.\n", s.Address()); err != nil {
		return err
	}
	if !r.on("no-open") {
		go openPage(r, s.Address())
	}
	return s.Run(ctx)
}

// openPage opens the browser, or says that there is none. What the browser's starter
// writes is nothing for this terminal.
func openPage(r *request, address string) {
	open.Stdout, open.Stderr = io.Discard, io.Discard
	if open.OpenURL(address) != nil {
		fmt.Fprintln(r.err, "No browser could be opened from here: open that address in yours.")
	}
}

// portFault says why a port is not to be had.
func portFault(port int, err error) error {
	if port == 0 {
		return err
	}
	f := &unit.Fault{Where: "--port " + strconv.Itoa(port), What: "is taken by another program", Hint: "leave --port out: a free one is found"}
	if errors.Is(err, fs.ErrPermission) {
		f.What = "belongs to the system"
	}
	return f
}
