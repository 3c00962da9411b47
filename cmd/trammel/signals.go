package main

import (
	"os"
	"os/signal"
	"sync/atomic"

	"trammel/cmd/internal/output"
)

// interrupted is the status of a run that was stopped: 128 and the signal's
// number, as shells count it.
const interrupted = 130

// watcher hears when the run is stopped from outside.
type watcher struct{ own atomic.Pointer[func()] }

// instead lets a command that runs until it is stopped end by itself, the first time.
func (w *watcher) instead(stop func()) { w.own.Store(&stop) }

// watch takes work in progress away when the run is stopped from outside.
func watch(k *output.Keeper) *watcher {
	w := &watcher{}
	c := make(chan os.Signal, 1)
	signal.Notify(c, stops...)
	ignoreFileLimit()
	go func() {
		for range c {
			if stop := w.own.Swap(nil); stop != nil {
				(*stop)()
				continue
			}
			k.Stop()
			os.Exit(interrupted)
		}
	}()
	return w
}
