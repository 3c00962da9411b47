package app

import (
	"bytes"
	"io"
	"slices"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/pdf"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// attachment is the job file that a document carries: the bytes as read, and under
// them what it was made with, so that the document opened as a job gives the same
// pages, whatever whoever opens it has for profiles.
func (w Work) attachment() (*draw.Attachment, error) {
	data, err := job.Write(w.Job, w.Carries)
	if err != nil {
		return nil, err
	}
	return &draw.Attachment{Name: job.FileName(w.Job.File), Data: data}, nil
}

func (w Work) travels() string {
	j := w.Job
	what := "the job file " + job.FileName(j.File)
	noted := func(p job.Piece) bool { return slices.ContainsFunc(p.Notes, func(s string) bool { return s != "" }) }
	switch {
	case j.Raw == nil && slices.ContainsFunc(j.Pieces, noted):
		what = "the measurements with their notes"
	case j.Raw == nil, j.MadeWith.Source.Text == job.CommandLine:
		what = "the measurements"
	case j.Remarks():
		what += " with its remarks"
	}
	return what + " and the settings travel inside the PDF; whoever gets it can read them"
}

// IsPDF says whether a file that begins so is a PDF.
func IsPDF(data []byte) bool { return bytes.HasPrefix(data, []byte(pdf.Magic)) }

// Carried is the job that one of trammel's own PDFs carries. The file is read at a
// few places only. Errors are *unit.Fault, those of the job with the places of
// both files: gusset.pdf (job.yaml:7:12).
func Carried(file string, r io.ReaderAt, size int64) (job.Job, error) {
	a, err := pdf.Attached(r, size)
	if err != nil {
		return job.Job{}, unit.Placed(err, file)
	}
	if f := unit.HiddenFault(a.Name); f != nil {
		return job.Job{}, &unit.Fault{Where: file, What: "the name of the job that it carries " + f.What, Hint: "make the PDF anew, of a job whose name holds none"}
	}
	return job.ReadWithin(file, strict.Shorten(a.Name), a.Data)
}
