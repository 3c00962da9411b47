package page

import (
	"bytes"
	"encoding/json"
	"testing"

	"trammel/cmd/internal/app"
	"trammel/plot/pdf"
	"trammel/profiles"
	"trammel/profiles/job"
)

// A job in JSON that is printed with flags over it is carried as JSON, however it is laid
// out, and the page opens the PDF again.
func TestJobInJSONIsCarriedAsJSON(t *testing.T) {
	set, err := profiles.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{
		`{"pieces":[{"measure":["AB=600","BC=450","CA=450"]}]}`,
		`{"paper": "A3", "pieces": [{"name": "Pete's \"cut\": #1", "measure": ["AB=600", "BC=450", "CA=450"]}]}` + "\n",
		"{\n \"job\": \"Slip\",\n \"pieces\": [\n  {\n   \"measure\": [\n    \"AB=600\",\n    \"BC=450\",\n    \"CA=450\"\n   ]\n  }\n ]\n}\n",
		`{"pieces":[{"measure":["AB=600","BC=450","CA=450"]}],"made_with":{"pages":"outline"}}`,
	} {
		j, err := job.Read("job.json", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		over := job.Overrides{Landscape: job.Setting{Text: "yes", Where: "--landscape"}}
		over.Paper.Name = job.Setting{Text: "A4", Where: "--paper"}
		m, err := job.Merge(j, over, set, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		w, err := app.Open(m, nil)
		if err != nil {
			t.Fatal(err)
		}
		d, err := app.MakeTemplate(app.Order{Work: w})
		if err != nil {
			t.Fatal(err)
		}
		out, err := d.As("pdf")
		if err != nil {
			t.Fatal(err)
		}
		var file bytes.Buffer
		if err := out.File(&file); err != nil {
			t.Fatal(err)
		}
		a, err := pdf.Attached(bytes.NewReader(file.Bytes()), int64(file.Len()))
		if err != nil {
			t.Fatal(err)
		}
		if !json.Valid(a.Data) {
			t.Errorf("%s is carried as\n%s", text, a.Data)
		}
		r, _ := answer(t, `{"version":1,"do":"open","name":"x.pdf"}`+"\n"+file.String())
		var back struct {
			Made struct {
				Paper     struct{ Name string }
				Landscape string
			} `json:"made_with"`
		}
		if r.Fault != nil || r.Job == nil || json.Unmarshal(*r.Job, &back) != nil || back.Made.Paper.Name != "A4" || back.Made.Landscape != "yes" {
			t.Errorf("%s comes back as %+v, %v", text, r.Fault, back)
		}
	}
}
