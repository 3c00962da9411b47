package page

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"io"
	"slices"
	"strings"

	"trammel/cmd/internal/app"
	"trammel/geom/unit"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// types of the files that are made, by their forms.
var types = map[string]string{
	"pdf": "application/pdf", "svg": "image/svg+xml", "csv": "text/csv; charset=utf-8", "txt": "text/plain; charset=utf-8", "json": "application/json", "zip": "application/zip",
}

// forms of a kind of document, as a page can ask for them. A picture is painted by the
// page itself, from what it shows.
func forms(k app.Kind) (all []string) {
	for _, e := range k.Endings {
		if e != "" && types[e] != "" {
			all = append(all, e)
		}
	}
	if k.Needs&app.Job != 0 && len(all) > 0 {
		all = append(all, "json")
	}
	return all
}

// kinds are the documents that a page can ask for.
func kinds() []app.Kind {
	return slices.DeleteFunc(app.Kinds(), func(k app.Kind) bool { return len(forms(k)) == 0 })
}

// make makes a document.
func (q question) make() (r Reply, file []byte, err error) {
	k, err := documentKind(q)
	if err != nil {
		return r, nil, err
	}
	o, err := q.order(k)
	if err != nil {
		return r, nil, err
	}
	d, err := k.Make(o)
	if err != nil {
		return r, nil, err
	}
	name := strings.TrimSuffix(k.Example, "."+ending(k.Example))
	if file, r.File, r.Type, err = formOf(q, d, name); err != nil {
		return r, nil, err
	}
	r.Warnings = d.Warnings
	if d.Summary != nil {
		r.Summary = d.Summary()
	}
	if q.As == "pdf" {
		r.Travels = d.Travels
	}
	if k.Needs&app.Readings != 0 {
		passed := !d.Failed
		r.Passed = &passed
	}
	return r, file, nil
}

func ending(name string) string { return name[strings.LastIndexByte(name, '.')+1:] }

// kind is the document that is asked for, in a form that it has.
func documentKind(q question) (app.Kind, error) {
	all := kinds()
	i := slices.IndexFunc(all, func(k app.Kind) bool { return k.Name == q.Document })
	if i < 0 {
		return app.Kind{}, &unit.Fault{Where: "ask:/what", What: unit.Quote(strict.Shorten(q.Document)) + " is no document", Hint: "load the page again"}
	}
	if !slices.Contains(forms(all[i]), q.As) {
		return app.Kind{}, &unit.Fault{Where: "ask:/as", What: "a document of this kind is not written as " + unit.Quote(strict.Shorten(q.As)), Hint: "choose " + strings.Join(forms(all[i]), ", ")}
	}
	return all[i], nil
}

// order is what the document is made of.
func (q question) order(k app.Kind) (o app.Order, err error) {
	if k.Needs&app.Printer != 0 {
		return calibratedOrder(q)
	}
	if k.Needs&app.Tasks != 0 {
		return q.class()
	}
	if o.Work, err = q.work(); err != nil {
		return o, err
	}
	o.Findings = findingsOf(q)
	if q.Piece != nil {
		o.Findings.Piece, o.Findings.PieceAt = titleOf(q, o.Work), "ask:/piece"
	}
	return o, nil
}

// class is what the tasks of the job are made of.
func (q question) class() (o app.Order, err error) {
	j, err := q.job()
	if err != nil {
		return o, err
	}
	m, err := q.merged(j)
	if err != nil {
		return o, err
	}
	o.Work = app.OpenClass(m, q.goOn)
	o.Class.Sheets = job.Setting{Text: q.Sheets, Where: "ask:/sheets"}
	return o, nil
}

// titleOf is the title of the piece that was asked for.
func titleOf(q question, w app.Work) string {
	for _, p := range w.Pieces {
		if q.Piece != nil && p.Index == *q.Piece {
			return p.Title()
		}
	}
	return ""
}

// form is the document as a file: its bytes, its name and its type. Several drawings are
// one file, a folder packed.
func formOf(q question, d *app.Document, name string) (file []byte, called, kind string, err error) {
	var b bytes.Buffer
	if q.As == "json" {
		if err := d.Seen(); err != nil {
			return nil, "", "", err
		}
		e := json.NewEncoder(&b)
		e.SetEscapeHTML(false)
		e.SetIndent("", "  ")
		err = e.Encode(d.Report())
		return b.Bytes(), name + ".json", types["json"], err
	}
	out, err := d.As(q.As)
	if err != nil {
		return nil, "", "", err
	}
	if out.File != nil {
		err = out.File(untilStopped{&b, q})
		return b.Bytes(), name + "." + q.As, types[q.As], err
	}
	z := zip.NewWriter(&b)
	err = out.Folder(func(file string, write func(io.Writer) error) error {
		w, err := z.CreateHeader(&zip.FileHeader{Name: file, Method: zip.Deflate})
		if err != nil {
			return err
		}
		return write(untilStopped{w, q})
	})
	if err == nil {
		err = z.Close()
	}
	return b.Bytes(), name + ".zip", types["zip"], err
}

// untilStopped writes as long as somebody waits for it.
type untilStopped struct {
	io.Writer
	q question
}

func (u untilStopped) Write(p []byte) (int, error) {
	u.q.goOn("", 0, 0)
	return u.Writer.Write(p)
}

// calibrated is what a calibration sheet is made of.
func calibratedOrder(q question) (o app.Order, err error) {
	if o.Profiles, err = built(); err != nil {
		return o, err
	}
	o.Calibration, err = calibrationOptions(q)
	return o, err
}
