//go:build othersoftware

package pdf_test

import (
	"bytes"
	"testing"

	"trammel/plot/pdf"
	"trammel/plot/readback"
)

// qpdf finds the attachment where Attached does; what qpdf writes anew, in its old
// form or its new one, is not read any more, and said to be so.
func TestAttachedAndQpdf(t *testing.T) {
	ours := write(t, boathouse())
	a, err := pdf.Attached(bytes.NewReader(ours), int64(len(ours)))
	if err != nil {
		t.Fatal(err)
	}
	if got := readback.Run(t, ours, "pdf", "qpdf", "--show-attachment="+a.Name, "FILE"); string(got) != string(a.Data) {
		t.Errorf("qpdf reads %q, we %q", got, a.Data)
	}
	for _, form := range []string{"disable", "generate"} {
		anew := readback.Run(t, ours, "pdf", "qpdf", "--object-streams="+form, "FILE", "-")
		_, err := pdf.Attached(bytes.NewReader(anew), int64(len(anew)))
		if err == nil || err.Error() != "trammel's PDF, but another program has written it anew" {
			t.Errorf("%s: %v", form, err)
		}
	}
}
