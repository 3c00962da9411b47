package page

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"sync"

	"trammel/cmd/internal/app"
	"trammel/geom/unit"
	"trammel/profiles"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// question is an ask with what came behind it.
type question struct {
	Ask
	file []byte
	ctx  context.Context
}

var errStopped = errors.New("stopped")

// built are the profiles that are built in: nobody's own are known here.
var built = sync.OnceValues(func() (profiles.Set, error) { return profiles.Load() })

// jobFile is the name of the job, for messages and for what a PDF carries.
func (q question) jobFile() string {
	name := strict.Shorten(q.Name[strings.LastIndexAny(q.Name, `/\\`)+1:])
	switch {
	case q.Do == "open":
		return cmp.Or(name, "the file")
	case strings.HasSuffix(name, ".json"):
		return name
	}
	return "job.json"
}

// job reads the job of the ask.
func (q question) job() (job.Job, error) {
	if len(q.Job) == 0 {
		return job.Job{}, &unit.Fault{Where: "ask:/job", What: "no job is asked about", Hint: "load the page again"}
	}
	j, err := job.Read(q.jobFile(), q.Job)
	if err != nil {
		for i, p := range q.pieces() {
			if p.empty() { // no fault of anybody's while it is being measured
				return j, &unit.Fault{Where: fmt.Sprintf("ask:/job/pieces/%d/measure", i), What: "nothing is measured yet", Advice: unit.Advice{Code: unit.Wanting}}
			}
		}
	}
	return j, err
}

// mostLooked pieces are looked through for one that is not measured yet.
const mostLooked = 100

// said is what can be read of a piece whatever else is wrong with it.
type said struct {
	Name    string    `json:"name"`
	Measure *[]string `json:"measure"`
	Outline []string  `json:"outline"`
	text    json.RawMessage
}

func (p said) empty() bool { return p.Measure != nil && len(*p.Measure) == 0 }

func (q question) pieces() (all []said) {
	var whole struct {
		Pieces []json.RawMessage `json:"pieces"`
	}
	if json.Unmarshal(q.Job, &whole) != nil || len(whole.Pieces) > mostLooked {
		return nil
	}
	for _, text := range whole.Pieces {
		p := said{text: text}
		if json.Unmarshal(text, &p) != nil {
			p = said{text: text}
		}
		all = append(all, p)
	}
	return all
}

// merged is a job with what counts for it.
func (q question) merged(j job.Job) (job.Merged, error) {
	set, err := built()
	if err != nil {
		return job.Merged{}, err
	}
	over := job.Overrides{}
	if q.Voice != "" {
		over.Voice = job.Setting{Text: q.Voice, Where: "ask:/voice"}
	}
	return job.Merge(j, over, set, q.calibration, says)
}

// work is the whole job, solved.
func (q question) work() (app.Work, error) {
	j, err := q.job()
	if err != nil {
		return app.Work{}, err
	}
	return q.workOf(j)
}

func (q question) workOf(j job.Job) (app.Work, error) {
	m, err := q.merged(j)
	if err != nil {
		return app.Work{}, err
	}
	return app.Open(m, q.goOn)
}

// goOn hears how far the work is, and ends it where nobody waits for it any more. It is
// called on the goroutine that answers, so that the panic ends there.
func (q question) goOn(string, int, int) {
	if q.ctx.Err() != nil {
		panic(errStopped)
	}
}

// wanted says whether a piece of the job was asked for.
func (q question) wanted(piece int) bool { return q.Piece == nil || *q.Piece == piece }

// says is how a page says something to trammel: in the words of its own fields, else by a
// key of the job.
func says(of unit.Subject, value string, _ bool) string {
	switch {
	case of == unit.Cover && value == "outline":
		return "the edges alone"
	case of == unit.Again:
		return "“corrected” ticked"
	case of == unit.Closeness && value == "":
		return "how closely you read"
	case of == unit.Paper, of == unit.Printer, of == unit.Scale:
		return strings.TrimSpace(string(of) + " " + value)
	}
	return unit.Says(nil).Of(of, value, true)
}

// calibration is what the page keeps of a printer, nil for nothing.
func (q question) calibration(printer string) (*profiles.Calibration, error) {
	id, err := profiles.PrinterID(printer)
	if err != nil {
		return nil, nil
	}
	for name, text := range q.Printers {
		if of, err := profiles.PrinterID(name); err != nil || of != id {
			continue
		}
		c, err := profiles.ReadCalibration(strict.Shorten(name)+".yaml", []byte(text))
		if err != nil {
			return nil, unit.Placed(err, "ask:/printers")
		}
		return &c, nil
	}
	return nil, nil
}
