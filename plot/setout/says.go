package setout

import "trammel/plot/words"

// says tells in sentences what a layout is.
type says struct {
	written
	Language words.Language // nil: English at the bench
}
