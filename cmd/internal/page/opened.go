package page

import (
	"bytes"
	"encoding/json"

	"trammel/cmd/internal/app"
	"trammel/geom/unit"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// open reads a job, a table of measurements or a PDF that carries a job, and gives the job
// in JSON. Remarks are left behind: the file still has them.
func (q question) open() (r Reply, _ []byte, err error) {
	name := q.jobFile()
	if f := unit.HiddenFault(q.Name); f != nil {
		return r, nil, f.In("ask:/name")
	}
	j, err := opened(name, q.file)
	if err != nil {
		return r, nil, err
	}
	text := j.Raw
	if text == nil || !json.Valid(text) {
		if text == nil {
			if text, err = job.Write(j, job.Overrides{}); err != nil {
				return r, nil, err
			}
		}
		v, err := strict.Parse(name, text)
		if err != nil {
			return r, nil, err
		}
		text = v.JSON()
	}
	var b bytes.Buffer
	if err := json.Compact(&b, text); err != nil {
		return r, nil, err
	}
	if _, err := job.Read("job.json", b.Bytes()); err != nil { // what is given back can be asked about
		return r, nil, err
	}
	model := json.RawMessage(b.Bytes())
	r.Job = &model
	return r, nil, nil
}

// opened is the job of a file.
func opened(name string, data []byte) (job.Job, error) {
	switch {
	case len(data) == 0:
		return job.Job{}, &unit.Fault{Where: name, What: "the file is empty", Hint: "open a job, a table of measurements or a PDF that trammel made"}
	case app.IsPDF(data):
		return app.Carried(name, bytes.NewReader(data), int64(len(data)))
	case len(data) > strict.MaxBytes:
		return job.Job{}, &unit.Fault{Where: name, What: "the file is larger than a job can be", Hint: "open a job, a table of measurements or a PDF that trammel made"}
	}
	return job.ReadAny(name, data)
}
