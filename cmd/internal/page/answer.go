package page

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"trammel/geom/unit"
	"trammel/plot/words"
	"trammel/profiles/strict"
)

// Answer answers one ask. It never panics and never returns nothing.
func Answer(ask []byte) []byte { return AnswerUntil(context.Background(), ask) }

// AnswerUntil is Answer, given up when the context ends: between one page and the next,
// or between two looks of a search.
func AnswerUntil(ctx context.Context, ask []byte) (reply []byte) {
	defer func() {
		switch broke := recover(); {
		case broke == nil:
		case broke == any(errStopped):
			reply = written(Reply{Fault: &Fault{Kind: Stopped, What: "it was stopped"}}, nil)
		default:
			reply = written(Reply{Fault: &Fault{Kind: Broken, What: words.In(nil).Verdicts().Went(), Hint: fmt.Sprint(broke)}}, nil)
		}
	}()
	a, err := asked(ctx, ask)
	if err != nil {
		return written(Reply{Fault: a.fault(err)}, nil)
	}
	r, file, err := deeds[a.Do](a)
	if err != nil {
		r.Fault, file = a.fault(err), nil
	}
	return written(r, file)
}

// deeds are what can be asked.
var deeds map[string]func(question) (Reply, []byte, error)

func init() { // the table names lists, which asks the table
	deeds = map[string]func(question) (Reply, []byte, error){
		"lists": question.lists, "solve": question.solve, "pages": question.pages, "look": question.look, "sketch": question.solve, "steps": question.steps,
		"setout": question.setout, "judge": question.judge, "check": question.check, "make": question.make, "open": question.open, "learn": question.learn,
	}
}

// asked reads an ask. Keys that nobody knows are refused, so that a page and a carrier of
// two builds find out.
func asked(ctx context.Context, ask []byte) (q question, err error) {
	line, file, _ := bytes.Cut(ask, []byte("\n"))
	q = question{file: file, ctx: ctx}
	wrong := func(what, hint string) (question, error) {
		return q, &unit.Fault{Where: "ask:", What: what, Hint: hint}
	}
	const reload = "load the page again"
	switch {
	case len(line) > MostLine:
		return wrong("what is asked is longer than one megabyte", "make several jobs of it")
	case len(file) > MostFile:
		return wrong("the file is larger than 64 megabytes", "open a job, a table or a PDF that trammel made")
	}
	d := json.NewDecoder(bytes.NewReader(line))
	d.DisallowUnknownFields()
	if err := d.Decode(&q.Ask); err != nil {
		return wrong("what the page asks cannot be read: "+strict.Shorten(plainError(err)), reload)
	}
	if _, err := d.Token(); err != io.EOF {
		return wrong("what the page asks cannot be read: more stands behind it", reload)
	}
	if q.Version != Version {
		return wrong("the page and the program are of two builds", reload)
	}
	if len(q.Job) > 0 { // as the page saves it, so that what a PDF carries is that file
		var b bytes.Buffer
		if err := json.Indent(&b, q.Job, "", " "); err != nil {
			return wrong("what the page asks cannot be read: "+strict.Shorten(plainError(err)), reload)
		}
		q.Job = append(b.Bytes(), '\n')
	}
	if deeds[q.Do] == nil {
		return wrong(unit.Quote(strict.Shorten(q.Do))+" is nothing that can be asked", reload)
	}
	return q, nil
}

// plainError is what the JSON reader says, without its own name.
func plainError(err error) string { return strings.TrimPrefix(err.Error(), "json: ") }

// written is a reply as bytes. A letter of a job must not end it: bidirectional and
// control characters are escaped by the encoder's caller where they are shown.
func written(r Reply, file []byte) []byte {
	r.Version = Version
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(r); err != nil {
		b.Reset()
		fmt.Fprintf(&b, `{"version":%d,"fault":{"kind":%q,"what":%q}}`+"\n", Version, Broken, words.In(nil).Verdicts().Went())
		return b.Bytes()
	}
	b.Write(file)
	return b.Bytes()
}
