package app

import (
	"bytes"
	"io"
	"slices"
	"strings"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/pdf"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// over is what the options say over the job, as far as a job file can say it.
func over(j job.Job, o Options, bare unit.Unit, pieces []Piece) job.Over {
	v := job.Over{
		Unit: o.Unit.Text, Fraction: o.Fraction.Text, Angles: o.Angles.Text, Trade: o.Trade.Text, Paper: o.Paper.Text,
		Base: o.Base, With: o.With, Pick: o.Pick,
		Outline: o.Outline, Sides: o.Sides, Levels: o.Levels, Site: map[string]string{},
	}
	for key, s := range o.Site {
		v.Site[key] = s.Text
	}
	switch {
	case j.Unit.Text != "":
		v.Unit = "" // it keeps counting the job's bare numbers
	case v.Unit == "" && bare != unit.MM:
		v.Unit = bare.String() // from a profile that whoever opens the job may not have
	}
	for _, p := range pieces {
		if len(p.Solution.Answers) > 1 && !slices.Contains(v.PickedOf, p.Index) {
			v.PickedOf = append(v.PickedOf, p.Index)
		}
	}
	return v
}

// attachment is the job file that a document carries: the bytes as read, or where
// something was said over them, a job that says it, so that the document opened as
// a job gives the same triangles.
func (w Work) attachment() (*draw.Attachment, error) {
	data, err := job.Write(w.Job, w.over)
	if err != nil {
		return nil, err
	}
	name := w.Job.File[strings.LastIndexAny(w.Job.File, `/\`)+1:]
	if ending := strings.ToLower(name); !strings.HasSuffix(ending, ".yaml") && !strings.HasSuffix(ending, ".yml") && !strings.HasSuffix(ending, ".json") {
		name = "job.yaml" // measurements, standard input, a name that says nothing
	}
	return &draw.Attachment{Name: name, Data: data}, nil
}

// IsPDF says whether a file that begins so is a PDF.
func IsPDF(data []byte) bool { return bytes.HasPrefix(data, []byte(pdf.Magic)) }

// Carried is the job that one of trammel's own PDFs carries. The file is read at a
// few places only. Errors are *unit.Fault, those of the job with the places of
// both files: gusset.pdf (job.yaml:7:12).
func Carried(file string, r io.ReaderAt, size int64) (job.Job, error) {
	a, err := pdf.Attached(r, size)
	if err != nil {
		return job.Job{}, placed(err, file)
	}
	return job.ReadWithin(file, strict.Shorten(a.Name), a.Data)
}
