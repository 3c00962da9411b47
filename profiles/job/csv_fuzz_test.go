package job_test

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"trammel/geom/unit"
	"trammel/profiles/job"
)

// FuzzTable: whatever the bytes, a list of measurements or one located line; and
// what was read comes back from the job file that is made of it.
func FuzzTable(f *testing.F) {
	for _, s := range []string{
		"from,to,value,tolerance,note\nA,B,4510,3,along the quay\nC,AB,2105,,\nBAC,,35°30',,\n",
		"\ufefffrom;to;value\r\nA;B;\"4,51 m\"\r\n", "from\tto\tvalue\rA\tB\t7'-10 1/2\"\r", "# x\n\nAB=600\nBC=450 # y\n",
		"from,to,value\nA,B,\"94.5\"\"\"\n,,\n", "from,to,value,note\nA,B,1,\"a\nb\"\n", "from,to,value\nA,B,\"4", "AB", "A,B,1", "\xff", "to,from,value,,\n",
		"sep=;\nfrom;to;value\nA;B;2,400\n", "\"sep=\\t\"\nfrom\tto\tvalue\nA\tB\t2,400\n", "sep=|\n", "sep=",
		"from,to,value,note\nA,B,5,40\n", "from,to,value,tolerance\nA,B,5,2\nB,C,5,\n", "from,to,value\nA,B,1\u202e\n",
		"from,to,value,note\nA,B,1,'\"# x: y\u2028\u0085\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		list, err := job.ReadMeasurements("s.csv", data)
		j, again := job.ReadAny("s.csv", data)
		if (err == nil) != (again == nil) {
			t.Fatalf("%v and %v", err, again)
		}
		if err != nil {
			var bad *unit.Fault
			if !errors.As(err, &bad) || !strings.HasPrefix(bad.Where, "s.csv:") || !utf8.ValidString(bad.Error()+bad.Hint) || strings.ContainsAny(bad.Error()+bad.Hint, "\r\n") {
				t.Fatalf("%q", err)
			}
			return
		}
		if len(list) == 0 || len(list) != len(j.Pieces[0].Measure) {
			t.Fatalf("%d and %d measurements", len(list), len(j.Pieces[0].Measure))
		}
		text, err := job.Write(j, job.Overrides{Unit: job.Setting{Text: "mm"}})
		if err != nil {
			t.Fatal(err)
		}
		back, err := job.Read("job.yaml", text)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		for i, m := range back.Pieces[0].Measure {
			if want := strings.TrimSpace(strings.ReplaceAll(list[i].Text, "\t", " ")); m.Text != want {
				t.Fatalf("%q became %q", list[i].Text, m.Text)
			}
		}
	})
}
