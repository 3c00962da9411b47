package job

import (
	"reflect"
	"strings"
	"testing"

	"trammel/geom"
)

// plain is a job without its places and bytes, to compare what it says.
func plain(t *testing.T, data []byte) Job {
	t.Helper()
	j, err := ReadWithin("gusset.pdf", "job.yaml", data)
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	j.File, j.Within, j.Raw = "", "", nil
	for _, s := range []*Setting{&j.Name, &j.Unit, &j.Fraction, &j.Angles, &j.Trade, &j.Paper, &j.Printer} {
		s.Where = ""
	}
	for i := range j.Pieces {
		p := &j.Pieces[i]
		p.Where, p.NameAt, p.PickAt, p.BaseAt = "", "", "", ""
		for k := range p.Measure {
			p.Measure[k].Where = ""
		}
	}
	return j
}

func TestWriteAsRead(t *testing.T) {
	j, err := Read("slip.yaml", []byte(good))
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range []Over{{}, {Pick: Both}} { // a pick for no piece says nothing
		if got, err := Write(j, o); err != nil || string(got) != good {
			t.Errorf("%v\n%s", err, got)
		}
	}
}

// What is said over a job is in what is written, and nothing else has changed.
func TestWriteOver(t *testing.T) {
	json := "{\n\t\"job\": \"Gate\", \"paper\": \"A4\",\n\t\"pieces\": [\n\t\t{\"measure\": [\"AB=1\", \"BC=1\", \"CA=1\"]}, {\"measure\": [\"KL=2,4m\"], \"pick\": 1}\n\t]\n}\n"
	over := Over{Unit: "in", Fraction: "1/8", Angles: "minutes", Trade: "no", Paper: "12x18in", Base: [2]geom.Name{"A", "B2"}, With: geom.BySquare, Pick: Second, PickedOf: []int{1}}
	for _, text := range []string{good, json} {
		j, err := Read("slip.yaml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		data, err := Write(j, over)
		if err != nil {
			t.Fatal(err)
		}
		want := plain(t, []byte(text))
		want.Unit.Text, want.Fraction.Text, want.Angles.Text, want.Trade.Text, want.Paper.Text = "in", "1/8", "minutes", "no", "12x18in"
		for i := range want.Pieces {
			want.Pieces[i].Base, want.Pieces[i].With = over.Base, over.With
		}
		want.Pieces[1].Pick = Second
		if got := plain(t, data); !reflect.DeepEqual(got, want) {
			t.Errorf("written\n%s\nsays %+v\nwant %+v", data, got, want)
		}
		if strings.Contains(text, "# for the slip") != strings.Contains(string(data), "# for the slip") {
			t.Errorf("the remark is gone:\n%s", data)
		}
	}
}

// Measurements from the command line, with whatever YAML could take for its own.
func TestWriteMeasurements(t *testing.T) {
	j := Job{Pieces: []Piece{{Name: "Pete's: #1 - {x}", Quantity: 3}, {Quantity: 1}}}
	for _, m := range []string{"AB=2400+-2", `BC=7'-10 1/2"`, "CA=2,4m", "A=35°30'", "B=1:12", "C-AB=12\u2009345", "CA=7′ 10½″", "AB= 3\tm"} {
		for i := range j.Pieces {
			j.Pieces[i].Measure = append(j.Pieces[i].Measure, Setting{Text: m})
		}
	}
	data, err := Write(j, Over{})
	if err != nil {
		t.Fatal(err)
	}
	want := j
	for i := range want.Pieces {
		want.Pieces[i].Measure[7].Text = "AB= 3 m"
	}
	if got := plain(t, data); !reflect.DeepEqual(got, want) {
		t.Errorf("written\n%s\nsays %+v", data, got)
	}
}

func TestReadWithin(t *testing.T) {
	_, err := ReadWithin("gusset.pdf", "job.yaml", []byte("job: x\npieces:\n  - measure: [AB=60, BC]\n"))
	if err == nil || err.Error() != `gusset.pdf (job.yaml:3:22): "BC" is not a measurement: it has no =` {
		t.Error(err)
	}
	j, err := ReadWithin("gusset.pdf", "job.yaml", []byte(good))
	if err != nil || j.File != "job.yaml" || j.Within != "gusset.pdf" || j.Pieces[0].Where != "gusset.pdf (job.yaml:7:5)" || string(j.Raw) != good {
		t.Errorf("%v: %+v", err, j)
	}
}
