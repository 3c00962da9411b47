package unit

// Says is how the one who asks would say something in words, in a sentence that tells
// what to write: the unit m is "--unit m" on a command line, "unit: m" in a job file,
// and may be a button of a page. Nil says it as a job file does.
type Says func(of Subject, value string, inFile bool) string

// Of says it.
func (s Says) Of(of Subject, value string, inFile bool) string {
	switch {
	case s != nil:
		return s(of, value, inFile)
	case value == "":
		return of.String()
	}
	return of.String() + ": " + value
}
