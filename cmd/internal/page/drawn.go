package page

import (
	"trammel/cmd/internal/app"
	"trammel/cmd/internal/solved"
	"trammel/profiles/job"
)

// picture is a piece for the screen.
func (q question) picture(w app.Work, p solved.Piece, l Look) any { return nil }

// sketched is a rough shape of what is measured so far.
func (q question) sketched(m job.Merged, p job.Piece) any { return nil }
