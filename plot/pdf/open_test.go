package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"trammel/geom/unit"
	"trammel/plot/draw"
)

const slip = "job: Slip gate brace\npieces:\n  - measure: [AB=600, BC=450, CA=450]\n"

// carrier is a document of two pages that carries a file.
func carrier(t testing.TB, a *draw.Attachment) []byte {
	t.Helper()
	pages := func(yield func(draw.Page) bool) {
		for _, label := range []string{"A1", "A2"} {
			words := draw.Text{Height: 3.5, Words: "Gusset (plate) " + label, On: draw.Notes}
			if !yield(draw.Page{Label: label, Kind: draw.Template, Piece: "Gusset", Width: 210, Height: 297, Ops: []draw.Op{words}}) {
				return
			}
		}
	}
	var b bytes.Buffer
	if err := Write(&b, draw.Document{Title: "Slip (gate) brace", Language: "en", Date: "2031-04-30", Pages: pages, Attachment: a}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func attached(data []byte) (draw.Attachment, error) {
	return Attached(bytes.NewReader(data), int64(len(data)))
}

func TestAttached(t *testing.T) {
	for _, a := range []draw.Attachment{
		{Name: "gusset.yaml", Data: []byte(slip)},
		{Name: "Spant (größer) \\ 1.yaml", Data: []byte(strings.Repeat("# a remark\n", 90_000) + slip)},
		{Name: "empty.yaml", Data: []byte{}},
	} {
		got, err := attached(carrier(t, &a))
		if err != nil || got.Name != a.Name || !bytes.Equal(got.Data, a.Data) {
			t.Errorf("%q: %q with %d bytes, %v", a.Name, got.Name, len(got.Data), err)
		}
	}
}

// A PDF as a writer of another kind makes it, by hand after ISO 32000-1, annex H.2.
const minimal = "%PDF-1.4\n1 0 obj\n<< /Type /Catalog /Outlines 2 0 R /Pages 3 0 R >>\nendobj\n" +
	"2 0 obj\n<< /Type /Outlines /Count 0 >>\nendobj\n3 0 obj\n<< /Type /Pages /Kids [4 0 R] /Count 1 >>\nendobj\n" +
	"4 0 obj\n<< /Type /Page /Parent 3 0 R /MediaBox [0 0 612 792] /Contents 5 0 R /Resources << >> >>\nendobj\n" +
	"5 0 obj\n<< /Length 0 >>\nstream\n\nendstream\nendobj\nxref\n0 6\n0000000000 65535 f \n0000000009 00000 n \n0000000074 00000 n \n" +
	"0000000120 00000 n \n0000000179 00000 n \n0000000292 00000 n \ntrailer\n<< /Size 6 /Root 1 0 R >>\nstartxref\n341\n%%EOF\n"

const (
	notOurs  = "is a PDF, but not one that trammel wrote"
	anew     = "trammel's PDF, but another program has written it anew"
	tooLarge = "the job in it is larger than 1 MB"
	damaged  = "the job in it is damaged"
)

// inflating is a document whose attachment says 1,000 bytes and has 100 MB.
var inflating = sync.OnceValue(func() []byte { return bomb(nil, carried(1000, make([]byte, 100_000_000))) })

// bomb is a document as Write makes it, whose attachment says that it has so many
// bytes and has others.
func bomb(t testing.TB, packed func(f *file, r ref)) []byte {
	var b bytes.Buffer
	f := newFile(&b)
	catalog, data := f.reserve(), f.reserve()
	packed(f, data)
	spec := f.add("<< /Type /Filespec /F %s /UF %s /EF << /F %d 0 R >> >>", text("job.yaml"), wide("job.yaml"), data)
	f.object(catalog, fmt.Appendf(nil, "<< /Type /Catalog /Pages 1 0 R\n/Names << /EmbeddedFiles << /Names [(job.yaml) %d 0 R] >> >> >>", spec))
	info := f.add("<< /Producer (trammel) >>")
	if err := f.finish(catalog, info); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// carried is a stream that says so many bytes.
func carried(says int, data []byte) func(f *file, r ref) {
	return func(f *file, r ref) {
		f.stream(r, fmt.Sprintf("/Type /EmbeddedFile /Params << /Size %d >>", says), data)
	}
}

func TestAttachedRefuses(t *testing.T) {
	ours := carrier(t, &draw.Attachment{Name: "gusset.yaml", Data: []byte(slip)})
	large := make([]byte, 100_000_000)
	api.DisableConfigDir()
	conf := model.NewDefaultConfiguration()
	var pdfcpu bytes.Buffer
	if err := api.Optimize(bytes.NewReader(ours), &pdfcpu, conf); err != nil {
		t.Fatal(err)
	}
	cut := func(old, new string) []byte {
		if !bytes.Contains(ours, []byte(old)) {
			t.Fatalf("the file has no %q", old)
		}
		return bytes.Replace(ours, []byte(old), []byte(new), 1)
	}
	for _, c := range []struct {
		name string
		file []byte
		want string
	}{
		{"minimal", []byte(minimal), notOurs},
		{"magic alone", []byte(Magic), notOurs},
		{"words", []byte(Magic + " is how a PDF begins\nstartxref\n9\n%%EOF\n"), notOurs},
		{"without a job", carrier(t, nil), "holds no job"},
		{"by pdfcpu", pdfcpu.Bytes(), anew},
		{"added to", append(bytes.Clone(ours), "7 0 obj\nnull\nendobj\nxref\n0 0\ntrailer\n<< /Size 8 /Prev 9 >>\nstartxref\n9\n%%EOF\n"...), anew},
		{"shortened", ours[:len(ours)-3], anew},
		{"half", ours[:len(ours)/2], notOurs},
		{"a byte more", cut("\nxref\n", "\n\nxref\n"), anew},
		{"other line ends", cut("%%EOF\n", "%%EOF\r\n"), anew},
		{"an attachment of 100 MB", bomb(t, carried(len(large), large)), tooLarge},
		{"an attachment that inflates", inflating(), tooLarge},
		{"a size below what is there", bomb(t, carried(3, []byte(slip))), damaged},
		{"a size above what is there", bomb(t, carried(3000, []byte(slip))), damaged},
		{"not packed", bomb(t, func(f *file, r ref) {
			f.raw(r, "/Filter /FlateDecode /Type /EmbeddedFile /Params << /Size 9 >>", []byte("not zlib!"))
		}), damaged},
		{"another packing", bomb(t, func(f *file, r ref) {
			f.raw(r, "/Filter /LZWDecode /Type /EmbeddedFile /Params << /Size 9 >>", []byte("not zlib!"))
		}), anew},
		{"a reference to itself", bomb(t, func(f *file, r ref) { f.object(r, fmt.Appendf(nil, "%d 0 R", r)) }), anew},
		{"dictionaries without end", bomb(t, func(f *file, r ref) { f.object(r, bytes.Repeat([]byte("<< /A "), 100_000)) }), anew},
	} {
		_, err := attached(c.file)
		var f *unit.Fault
		if !errors.As(err, &f) || f.What != c.want || f.Hint == "" {
			t.Errorf("%s: %v, want %s", c.name, err, c.want)
		}
	}
}

// However a file of ours is shortened or changed, what is said is a fault, and a
// job that is read is the one that was written.
func TestAttachedFromDamaged(t *testing.T) {
	ours := carrier(t, &draw.Attachment{Name: "gusset.yaml", Data: []byte(slip)})
	check := func(data []byte, how string) {
		a, err := attached(data)
		var f *unit.Fault
		if err != nil && !errors.As(err, &f) {
			t.Fatalf("%s: %v", how, err)
		}
		if err == nil && string(a.Data) != slip {
			t.Fatalf("%s: read %q", how, a.Data)
		}
	}
	for n := range len(ours) {
		check(ours[:n], fmt.Sprintf("the first %d bytes", n))
		b := bytes.Clone(ours)
		b[n] ^= 1 << (n % 8)
		check(b, fmt.Sprintf("byte %d changed", n))
	}
}

// hollow is a large file that is not there: zeros.
type hollow struct{ size int64 }

func (h hollow) ReadAt(p []byte, at int64) (int, error) {
	clear(p)
	if rest := h.size - at; rest < int64(len(p)) {
		return int(max(rest, 0)), io.EOF
	}
	return len(p), nil
}

// What is read is bounded, whatever the size of the file and of what is in it:
// the whole of the allocations, let alone what is held at once, is under 10 MB.
func TestAttachedIsBounded(t *testing.T) {
	packed := inflating()
	for _, c := range []struct {
		r    io.ReaderAt
		size int64
		want string
	}{
		{hollow{1 << 40}, 1 << 40, "is larger than 512 MB"},
		{hollow{500 << 20}, 500 << 20, notOurs},
		{bytes.NewReader(packed), int64(len(packed)), tooLarge},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Attached(c.r, c.size)
		runtime.ReadMemStats(&after)
		if err == nil || err.Error() != c.want {
			t.Errorf("%d bytes: %v, want %s", c.size, err, c.want)
		}
		if n := after.TotalAlloc - before.TotalAlloc; n > 10<<20 {
			t.Errorf("%d bytes: %d bytes allocated", c.size, n)
		}
	}
}

var errDisk = errors.New("the disk is gone")

type broken struct{}

func (broken) ReadAt([]byte, int64) (int, error) { return 0, errDisk }

func TestAttachedPassesErrorsOn(t *testing.T) {
	if _, err := Attached(broken{}, 5000); err != errDisk {
		t.Errorf("%v", err)
	}
}

// FuzzOpen: whatever the bytes, an attachment within its limits or a fault of one line.
func FuzzOpen(f *testing.F) {
	ours := carrier(f, &draw.Attachment{Name: "gusset.yaml", Data: []byte(slip)})
	f.Add(ours)
	f.Add([]byte(minimal))
	f.Add(bomb(f, carried(1000, make([]byte, 2_000_000))))
	f.Add(bomb(f, carried(len(slip), []byte(slip))))
	f.Add(carrier(f, nil))
	f.Add(ours[:len(ours)-9])
	f.Add([]byte(head + "\n%%EOF\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		a, err := attached(data)
		if err == nil {
			if a.Name == "" || len(a.Data) > maxAttached {
				t.Fatalf("%q with %d bytes", a.Name, len(a.Data))
			}
			return
		}
		var fault *unit.Fault
		if !errors.As(err, &fault) || fault.What == "" || strings.Contains(fault.What+fault.Hint, "\n") {
			t.Fatalf("%T: %v", err, err)
		}
	})
}
