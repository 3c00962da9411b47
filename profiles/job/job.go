// Package job reads the job file: what a person writes. It is strict, and every
// error has a line and a column.
//
// Files, from the top floor to the ground: merge.go (with profiles and flags), csv.go,
// job.go, tasks.go, doubt.go, overrides.go, piece.go, write.go, shape.go, tiles.go, site.go, lines.go, points.go,
// csv_doubt.go, csv_fields.go, keys.go (reading and writing by tables).
package job

import (
	"fmt"
	"time"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Limits of one job.
const (
	MaxPieces       = 1000
	MaxQuantity     = 1000
	MaxMeasurements = 2000 // of one piece: geom/net takes no more
	MaxName         = 80   // letters of a job's or a piece's name: more does not fit a title line
)

// Job is a job file as written. What it does not say is empty or zero.
type Job struct {
	File   string // the name in messages; empty: no file
	Within string // the file that carries this one; empty: none
	Raw    []byte // the bytes as read
	Name   Setting

	Unit, Fraction, Angles, Voice, Trade, Paper, Printer Setting

	BothHands Setting // yes: of a pair each hand has its own template

	Date     string             // YYYY-MM-DD
	Site     map[string]Setting // by the words of siteKeys: the ground, the tools and the day
	Pieces   []Piece
	Tasks    *Tasks    // what a class is to draw by hand; nil: nothing
	MadeWith Overrides // what a document was made with that carries the job

	empty *unit.Fault // the list of pieces is there and holds none
}

var jobKeys = []key[Job]{
	{"job", func(j *Job, v strict.Value) error { return readName(&j.Name.Text, &j.Name.Where, v, "the job's name") }, nil},
	word("unit", func(j *Job) *Setting { return &j.Unit }),
	word("fraction", func(j *Job) *Setting { return &j.Fraction }),
	word("angles", func(j *Job) *Setting { return &j.Angles }),
	word("voice", func(j *Job) *Setting { return &j.Voice }),
	word("trade", func(j *Job) *Setting { return &j.Trade }),
	word("paper", func(j *Job) *Setting { return &j.Paper }),
	word("printer", func(j *Job) *Setting { return &j.Printer }),
	{"both_hands", func(j *Job, v strict.Value) error { return parseYes(v, "both_hands", &j.BothHands) }, nil},
	{"date", func(j *Job, v strict.Value) (err error) { j.Date, err = date(v); return err }, nil},
	{"site", func(j *Job, v strict.Value) (err error) { j.Site, err = site(v); return err }, nil},
	{"tasks", func(j *Job, v strict.Value) (err error) { j.Tasks, err = tasksOf(v); return err }, nil},
	{"pieces", func(j *Job, v strict.Value) (err error) {
		if items, ok := v.Items(); ok && len(items) == 0 {
			j.empty = v.Fault("the job has no pieces", "- measure: [AB=600, BC=450, CA=450]")
			return nil
		}
		j.Pieces, err = pieces(v)
		return err
	}, nil},
}

// Read reads a job file whole. Its errors are *unit.Fault with file:line:column.
func Read(file string, data []byte) (Job, error) { return ReadWithin("", file, data) }

// ReadWithin is Read of a job file that another file carries.
func ReadWithin(within, file string, data []byte) (Job, error) {
	j := Job{File: file, Within: within, Raw: data}
	root, err := strict.ParseWithin(within, file, data)
	if err != nil {
		return j, err
	}
	made, root, carried := root.Take(madeWith)
	if carried {
		if j.MadeWith, err = readOverrides(made); err != nil {
			return j, err
		}
	}
	if err := readKeys(&j, root, "the job", jobKeys); err != nil {
		return j, err
	}
	switch {
	case len(j.Pieces) > 0 || j.Tasks != nil:
	case j.empty != nil:
		return j, j.empty
	default:
		return j, root.Fault("the job has no pieces", "pieces: and below it  - measure: [AB=600, BC=450, CA=450]")
	}
	return j, j.settle(made)
}

func readName(to, at *string, v strict.Value, what string) (err error) {
	*at = v.Where()
	*to, err = v.Text(what)
	if err == nil && len([]rune(*to)) > MaxName {
		err = v.Fault(fmt.Sprintf("%s is longer than %d letters", what, MaxName), "")
	}
	return err
}

// parseYes reads what is either said or left out.
func parseYes(v strict.Value, key string, to *Setting) (err error) {
	if *to, err = setting(v, key); err == nil && to.Text != "yes" && to.Text != "no" {
		err = v.Fault(fmt.Sprintf("%s: %q is neither yes nor no", key, strict.Shorten(to.Text)), "write yes, or take the line out")
	}
	return err
}

func date(v strict.Value) (string, error) {
	s, err := v.Text("date")
	if err != nil {
		return "", err
	}
	if _, err := time.Parse(time.DateOnly, s); err != nil {
		return "", v.Fault(fmt.Sprintf("%q is not a date", strict.Shorten(s)), "write year-month-day, such as 2031-04-30")
	}
	return s, nil
}

func pieces(v strict.Value) ([]Piece, error) {
	items, ok := v.Items()
	switch {
	case !ok:
		return nil, v.Fault("pieces is not a list", "begin each piece with a dash: - measure: [AB=600, BC=450, CA=450]")
	case len(items) > MaxPieces:
		return nil, items[MaxPieces].Fault(fmt.Sprintf("more than %d pieces", MaxPieces), "make several jobs of it")
	}
	list := make([]Piece, len(items))
	for i, item := range items {
		list[i] = Piece{Where: item.Where()}
		if err := readKeys(&list[i], item, "the piece", pieceKeys); err != nil {
			return nil, err
		}
		if list[i].Measure == nil {
			return nil, item.Fault("the piece has no measurements", "measure: [AB=600, BC=450, CA=450]")
		}
		if err := list[i].count(); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// settle gives what was found to the piece that it was found of, and the pegs that
// are known to stand right to every piece that was measured back.
func (j *Job) settle(at strict.Value) error {
	o := j.MadeWith
	if of := max(o.FoundOf, 1) - 1; len(o.Piece.Found) > 0 {
		if of >= len(j.Pieces) {
			return at.Fault(fmt.Sprintf("found_of: there is no piece %d", of+1), fmt.Sprintf("the job has %d", len(j.Pieces)))
		}
		p := &j.Pieces[of]
		if len(p.Found) > 0 {
			return at.Fault("found: the piece says as well what was found: "+p.FoundAt, "leave one of the two out")
		}
		p.Found, p.FoundAt = o.Piece.Found, o.Piece.FoundAt
	}
	if len(o.Piece.Fixed) == 0 {
		return nil
	}
	for i := range j.Pieces {
		p := &j.Pieces[i]
		switch {
		case len(p.Found) == 0 || o.FoundOf > 0 && i != o.FoundOf-1:
		case len(p.Fixed) > 0:
			return at.Fault("fixed: the piece says as well which pegs are fixed: "+p.FixedAt, "leave one of the two out")
		default:
			p.Fixed, p.FixedAt = o.Piece.Fixed, o.Piece.FixedAt
		}
	}
	return nil
}
