package unit

// Fault is something wrong in what a person wrote: where, what, and what to do.
// Every package below the command line reports bad words as a *Fault, so that
// the command line can print "trammel: WHERE: WHAT" and the hint below it.
type Fault struct {
	Where string // "job.yaml:7:12: CA=12OO", "CA=12OO", "--margin"; empty when nothing more is known
	What  string // lower case, no full stop: `"12OO" is not a length`
	Hint  string // what to do, one line; empty when there is nothing to add
}

// Error is the one line without the hint.
func (f *Fault) Error() string {
	if f.Where == "" {
		return f.What
	}
	return f.Where + ": " + f.What
}

// In returns the same fault seen from further out: where is put in front.
func (f *Fault) In(where string) *Fault {
	g := *f
	if g.Where == "" {
		g.Where = where
	} else {
		g.Where = where + ": " + g.Where
	}
	return &g
}
