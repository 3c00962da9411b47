package task

import "fmt"

// Short says that the rules leave too few tasks for a class.
type Short struct {
	Pupil, Number int // the first that got none, and the number of the task, from 1
	Stock         Stock
	Alone         bool // there was no rule of neighbours
	Low           bool // two tasks were to share a page
}

// Most is the rule that leaves out most of what the others keep, of those that a class can
// loosen; Kept where none of them leaves out any.
func (s *Short) Most() Rule {
	most := Kept
	for _, r := range []Rule{Reach, Room} {
		if s.Stock.Fell[r] > 0 && (most == Kept || s.Stock.Fell[r] > s.Stock.Fell[most]) {
			most = r
		}
	}
	return most
}

func (s *Short) Error() string {
	return fmt.Sprintf("no %s is left for pupil %d: %d of level %d keep all rules", s.Stock.Kind, s.Pupil, len(s.Stock.Kept), s.Stock.Level)
}
