package page

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the replies anew, to be read before they are kept")

// golden are asks, one a file in testdata/asks, each with the reply that was read and
// found right: long values and files are told by their beginning.
func golden(t *testing.T) []string {
	files, err := filepath.Glob("testdata/asks/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d asks, %v", len(files), err)
	}
	return files
}

func TestAnswers(t *testing.T) {
	for _, file := range golden(t) {
		ask, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		got := legible(t, Answer(ask))
		want := strings.TrimSuffix(file, ".json") + ".txt"
		if *update {
			if err := os.WriteFile(want, []byte(got), 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		text, err := os.ReadFile(want)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(text) {
			t.Errorf("%s:\n%s\nwant\n%s", file, got, text)
		}
	}
}

// legible is a reply as a person reads it.
func legible(t testing.TB, reply []byte) string {
	t.Helper()
	line, file, ok := bytes.Cut(reply, []byte("\n"))
	if !ok {
		t.Fatalf("a reply without a line: %.100q", reply)
	}
	var v map[string]any
	if err := json.Unmarshal(line, &v); err != nil {
		t.Fatalf("%v in %.200s", err, line)
	}
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	if err := e.Encode(short(v)); err != nil {
		t.Fatal(err)
	}
	if len(file) > 0 {
		fmt.Fprintf(&b, "and a file that begins %.4q\n", file)
	}
	return b.String()
}

// short leaves out what other tests hold: pictures, reports, and most of long lists.
func short(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			switch k {
			case "svg", "report", "tags", "edges", "spots":
				v[k] = "…"
			case "build":
				delete(v, k)
			default:
				v[k] = short(x)
			}
		}
	case []any:
		const most = 12
		for i := range v {
			v[i] = short(v[i])
		}
		if len(v) > most {
			return append(v[:most:most], fmt.Sprintf("and %d more", len(v)-most))
		}
	}
	return v
}

func answer(t testing.TB, ask string) (r Reply, file []byte) {
	t.Helper()
	line, file, _ := bytes.Cut(Answer([]byte(ask)), []byte("\n"))
	d := json.NewDecoder(bytes.NewReader(line))
	d.DisallowUnknownFields()
	if err := d.Decode(&r); err != nil {
		t.Fatalf("%s: %v in %.300s", ask, err, line)
	}
	return r, file
}

// What stops is stopped between two pages, and the next ask is answered.
func TestStopped(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	const ask = `{"version":1,"do":"make","what":"template","as":"pdf","job":{"pieces":[{"measure":["AB=8m","BC=6m","CA=5m"]}]}}`
	if got := string(AnswerUntil(ctx, []byte(ask))); !strings.Contains(got, `"kind":"stopped"`) || strings.Count(got, "\n") != 1 {
		t.Errorf("%.200s", got)
	}
	if _, file := answer(t, ask); !bytes.HasPrefix(file, []byte("%PDF-")) {
		t.Errorf("%.60q", file)
	}
}

// Every document that there is can be asked for, in each form it has.
func TestEveryDocument(t *testing.T) {
	lists, _ := answer(t, `{"version":1,"do":"lists"}`)
	wanted := map[string]string{"floor": `,"tiles":{"size":"600x300","joint":"3"}`} // what a piece must say besides
	names := map[string]bool{}
	for _, d := range lists.Lists.Documents {
		names[d.Name] = true
		for _, as := range d.As {
			ask := fmt.Sprintf(`{"version":1,"do":"make","what":%q,"as":%q,"found":["AB=1600"],"calibrate":{"printer":"shed"},"job":{"tasks":{"pupils":2,"kinds":["SSS"]},"pieces":[{"measure":["AB=1600","BC=1450","CA=1450"]%s}]}}`, d.Name, as, wanted[d.Name])
			r, file := answer(t, ask)
			if r.Fault != nil || len(file) == 0 || r.File == "" || r.Type == "" {
				t.Errorf("%s as %s: %+v, %d bytes of %q", d.Name, as, r.Fault, len(file), r.File)
			}
		}
	}
	for _, want := range []string{"template", "whole", "setout", "check", "calibrate"} {
		if !names[want] {
			t.Errorf("no %s among %v", want, names)
		}
	}
}

// A job that a PDF carries comes back from it, and makes the same PDF again.
func TestPDFComesBack(t *testing.T) {
	job := `{"job":"Slip hoist","paper":"A4","pieces":[{"name":"Gusset","measure":["AB=600","BC=450","CA=450"]}],"made_with":{"pages":"outline"}}`
	ask := func(job string) string {
		return `{"version":1,"do":"make","what":"template","as":"pdf","job":` + job + `}`
	}
	_, first := answer(t, ask(job))
	r, _ := answer(t, `{"version":1,"do":"open","name":"template.pdf"}`+"\n"+string(first))
	if r.Fault != nil || r.Job == nil {
		t.Fatalf("%+v", r.Fault)
	}
	_, again := answer(t, ask(string(*r.Job)))
	back, _ := answer(t, `{"version":1,"do":"open","name":"template.pdf"}`+"\n"+string(again))
	if back.Job == nil || string(*back.Job) != string(*r.Job) {
		t.Errorf("%s\nand then\n%v", *r.Job, back.Job)
	}
}

// Places in a job become pointers: of values, of keys that nobody knows, beyond letters
// of more than one byte, over several lines.
func TestPointers(t *testing.T) {
	for _, c := range []struct{ job, where, what string }{
		{`{"pieces":[{"measure":["AB=600","BC=45O","CA=450"]}]}`, "/pieces/0/measure/1", "is not a length"},
		{"{\"job\":\"Stägsträsse\",\n \"pieces\":[{\"measure\":[\"AB=600\",\"BC=450\",\"CA=45O\"]}]}", "/pieces/0/measure/2", "is not a length"},
		{`{"pieces":[{"measure":["AB=600","BC=450","CA=450"]}],"colour":"red"}`, "/colour", "colour"},
		{`{"pieces":[{"measure":["AB=600","BC=450","CA=450"]},{"measure":["AB=1","BC=450","CA=450"],"base":"XY"}]}`, "/pieces/1/base", "XY"},
		{`{"paper":"A44","pieces":[{"measure":["AB=600","BC=450","CA=450"]}]}`, "/paper", "A44"},
		{`{"pieces":[{"measure":["AB=600","BC=100","CA=100"]}]}`, "/pieces/0", "short of reaching"},
	} {
		r, _ := answer(t, `{"version":1,"do":"solve","job":`+strings.ReplaceAll(c.job, "\n", " ")+`}`)
		if r.Fault == nil || r.Fault.Where != c.where || !strings.Contains(r.Fault.What, c.what) {
			t.Errorf("%s: %+v", c.job, r.Fault)
		}
	}
	if got := pointerAt([]byte("{\"a\":1,\n\"b/c\":[1,\"ä\",{\"d\":2}]}"), 2, 17); got != "/b~1c/2/d" {
		t.Error(got)
	}
	for _, text := range []string{"", "[1,2", "not json"} {
		if got := pointerAt([]byte(text), 9, 9); got != "" {
			t.Errorf("%q: %q", text, got)
		}
	}
}

var commands = regexp.MustCompile(`trammel (template|setout|solve|preview|profiles)`)

// No hint of a page names a flag: whoever reads it has no command line.
func TestNoFlags(t *testing.T) {
	for w, say := range remedies {
		if strings.Contains(say, "--") {
			t.Errorf("%v: %s", w, say)
		}
	}
	for _, file := range golden(t) {
		ask, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		line, _, _ := strings.Cut(string(Answer(ask)), "\n")
		if strings.Contains(line, " --") || commands.MatchString(line) {
			t.Errorf("%s: %.300s", file, line)
		}
	}
}

// FuzzAnswer asks anything: there is always a line, it is always JSON of this contract.
func FuzzAnswer(f *testing.F) {
	files, _ := filepath.Glob("testdata/asks/*.json")
	for _, file := range files {
		ask, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(ask)
	}
	f.Fuzz(func(t *testing.T, ask []byte) {
		line, _, ok := bytes.Cut(Answer(ask), []byte("\n"))
		var r Reply
		if err := json.Unmarshal(line, &r); err != nil || !ok || r.Version != Version {
			t.Fatalf("%v in %.300s", err, line)
		}
		if r.Fault != nil && (r.Fault.Kind == Broken || r.Fault.What == "") {
			t.Fatalf("%+v", r.Fault)
		}
	})
}
