package main

import (
	"io"
	"os"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"

	"trammel/cmd/internal/app"
)

// bar is the line on a terminal that says how far a long piece of work is. It comes
// after two seconds, goes before anything else is written, and has no colours.
type bar struct {
	to    io.Writer
	mutex sync.Mutex
	doing string
	done  int
	of    int
	shown *progressbar.ProgressBar
	clock *time.Timer // until it is drawn next; nil before the first word
	over  bool        // there is nothing more to say
}

// When the line comes, and how often it is drawn anew.
const (
	barAfter = 2 * time.Second
	barEvery = 200 * time.Millisecond
)

// terminal says whether somebody is looking at what is written there.
func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd())) && os.Getenv("TERM") != "dumb"
}

// progress is the bar's ear, nil where nobody would see it.
func (b *bar) progress() app.Progress {
	if b == nil {
		return nil
	}
	return b.tell
}

func (b *bar) tell(doing string, done, of int) {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	b.doing, b.done, b.of = doing, done, of
	if b.clock == nil {
		b.clock = time.AfterFunc(barAfter, b.draw)
	}
}

// draw draws the line, and again until all is over.
func (b *bar) draw() {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	if b.over {
		return
	}
	if b.shown == nil {
		b.shown = progressbar.NewOptions(1,
			progressbar.OptionSetWriter(b.to), progressbar.OptionEnableColorCodes(false), progressbar.OptionUseANSICodes(false),
			progressbar.OptionSetWidth(20), progressbar.OptionSetPredictTime(false), progressbar.OptionSetElapsedTime(true),
		)
	}
	b.shown.ChangeMax(max(1, b.of))
	b.shown.Describe(b.doing)
	_ = b.shown.Set(min(b.done, max(0, b.of-1))) // a line that cannot be drawn is no loss
	b.clock.Reset(barEvery)
}

// clear takes the line away for good.
func (b *bar) clear() {
	if b == nil {
		return
	}
	b.mutex.Lock()
	defer b.mutex.Unlock()
	if b.shown != nil && !b.over {
		_ = b.shown.Clear()
	}
	b.over = true
}

// clearing is a writer before whose words the line is taken away.
type clearing struct {
	to  io.Writer
	bar *bar
}

func (c clearing) Write(p []byte) (int, error) {
	c.bar.clear()
	return c.to.Write(p)
}
