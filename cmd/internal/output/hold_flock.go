//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package output

import (
	"os"

	"golang.org/x/sys/unix"
)

// renamesOpen says that a file takes the place of its goal while it is open, so that
// it is held until then. One let go before looks as if a killed run had left it.
const renamesOpen = true

// hold marks work in progress as this process's own for as long as it lives. A
// file system without locks holds everything.
func hold(f *os.File) bool {
	err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
	return err == nil || err != unix.EWOULDBLOCK
}

// left says whether the process that made this work has ended.
func left(f *os.File) bool {
	return unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB) == nil
}
