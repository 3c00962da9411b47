package pdf

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"strconv"

	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Limits of what Attached reads.
const (
	maxFile     = 512 << 20 // bytes of the document; twenty thousand pages take about 60 MB
	maxAttached = 1_000_000 // bytes of the attachment, unpacked
	maxObject   = 1 << 16   // bytes of an object that is not a stream
	maxDepth    = 8         // of dictionaries within each other; the writer makes four
)

// Magic is how every PDF begins.
const Magic = "%PDF-"

// The first bytes of a document that Write makes, and the last ones.
const (
	head   = "%PDF-2.0\n%\xe2\xe3\xcf\xd3\n"
	before = "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n" // what it wrote before pages were told part by part
	tail   = "\n%%EOF\n"
)

// Attached is the file that Write attached to a document. It reads what Write
// writes and nothing else: where another program has written the file anew, or it
// was never ours, it says so. It looks at a few places of the document alone and
// holds at most the attachment, 1 MB. Its errors are *unit.Fault without a place,
// but for those of r itself.
func Attached(r io.ReaderAt, size int64) (draw.Attachment, error) {
	if size > maxFile {
		return draw.Attachment{}, &unit.Fault{What: "is larger than 512 MB", Hint: "no PDF that trammel makes is: name the job file itself"}
	}
	d := document{r: r, size: size}
	a, err := d.attached()
	if errors.Is(err, errForm) {
		err = d.foreign()
	}
	if err != nil {
		return draw.Attachment{}, err
	}
	return a, nil
}

// errForm says that something is not of the form that Write gives it.
var errForm = errors.New("not as written")

// foreign says what kind of stranger the document is. What names its maker stands
// unpacked in Write's documents, not far from the end, and many programs that
// write a document anew leave it as it was.
func (d document) foreign() error {
	const near = 1 << 16
	for _, at := range []int64{max(0, d.size-near), 0} {
		b, err := d.read(at, near)
		if err != nil {
			return err
		}
		for _, maker := range []string{"/Producer (trammel)", "<pdf:Producer>trammel</pdf:Producer>"} {
			if bytes.Contains(b, []byte(maker)) {
				return &unit.Fault{What: "trammel's PDF, but another program has written it anew",
					Hint: "name the PDF as trammel wrote it, or save the attached job from a PDF viewer and name that"}
			}
		}
	}
	return &unit.Fault{What: "is a PDF, but not one that trammel wrote", Hint: "a job is a job file, or a PDF as trammel wrote it"}
}

// document is the file from outside.
type document struct {
	r    io.ReaderAt
	size int64
	xref int64 // where the first line of the table of objects stands
	n    int64 // objects in it, the free one included
}

func (d *document) attached() (a draw.Attachment, err error) {
	trailer, err := d.open()
	if err != nil {
		return a, err
	}
	catalog, err := d.dict(trailer["Root"])
	if err != nil {
		return a, err
	}
	info, err := d.dict(trailer["Info"])
	if err != nil {
		return a, err
	}
	if s, _ := info["Producer"].(str); string(s) != "trammel" {
		return a, errForm
	}
	names, _ := catalog["Names"].(dict)
	if names == nil {
		return a, &unit.Fault{What: "holds no job", Hint: "name the job file itself"}
	}
	files, _ := names["EmbeddedFiles"].(dict)
	list, _ := files["Names"].([]any)
	if len(list) != 2 {
		return a, errForm
	}
	spec, err := d.dict(list[1])
	if err != nil {
		return a, err
	}
	name, _ := spec["UF"].(str)
	if a.Name = name.text(); a.Name == "" {
		return a, errForm
	}
	ef, _ := spec["EF"].(dict)
	a.Data, err = d.unpacked(ef["F"])
	return a, err
}

// open reads head and tail and finds the table of objects.
func (d *document) open() (dict, error) {
	b, err := d.read(0, len(head))
	if err != nil {
		return nil, err
	}
	if string(b) != head && string(b) != before {
		return nil, errForm
	}
	const end = 1024
	at := max(0, d.size-end)
	if b, err = d.read(at, end); err != nil {
		return nil, err
	}
	b, ok := bytes.CutSuffix(b, []byte(tail))
	if !ok {
		return nil, errForm
	}
	k := bytes.LastIndex(b, []byte("\nstartxref\n"))
	if k < 0 {
		return nil, errForm
	}
	if d.xref, err = whole(string(b[k+len("\nstartxref\n"):]), d.size); err != nil {
		return nil, err
	}
	k = bytes.LastIndex(b, []byte("\ntrailer\n"))
	if k < 0 {
		return nil, errForm
	}
	p := parser{b: b[k+len("\ntrailer\n"):]}
	trailer, _ := p.value(0).(dict)
	if p.err || trailer == nil || trailer["Prev"] != nil || !bytes.HasPrefix(p.b, []byte("\nstartxref\n")) {
		return nil, errForm
	}
	// What is packed has a table of its own.
	n := (at + int64(k) + 1 - d.xref) / entry
	first := fmt.Sprintf("xref\n0 %d\n", n)
	if b, err = d.read(d.xref, len(first)); err != nil {
		return nil, err
	}
	if string(b) != first {
		return nil, errForm
	}
	d.xref, d.n = d.xref+int64(len(first)), n
	if n > d.size/entry || d.xref+n*entry != at+int64(k)+1 {
		return nil, errForm
	}
	return trailer, nil
}

// entry is the length of one line of the table of objects.
const entry = 20

// read is so many bytes from a place, fewer at the end of the document.
func (d document) read(at int64, n int) ([]byte, error) {
	if at < 0 || at > d.size {
		return nil, errForm
	}
	b := make([]byte, min(int64(n), d.size-at))
	k, err := d.r.ReadAt(b, at)
	if k < len(b) {
		if err == nil || errors.Is(err, io.EOF) {
			err = errForm // it was shortened meanwhile
		}
		return nil, err
	}
	return b, nil
}

// object is the beginning of the object that v refers to and where its body begins.
func (d document) object(v any) (body []byte, at int64, err error) {
	r, ok := v.(ref)
	if !ok || r < 1 || int64(r) >= d.n {
		return nil, 0, errForm
	}
	line, err := d.read(d.xref+int64(r)*entry, entry)
	if err != nil {
		return nil, 0, err
	}
	offset, ok := bytes.CutSuffix(line, []byte(" 00000 n \n"))
	if !ok {
		return nil, 0, errForm
	}
	if at, err = whole(string(bytes.TrimLeft(offset, "0")), d.size); err != nil {
		return nil, 0, err
	}
	b, err := d.read(at, maxObject)
	if err != nil {
		return nil, 0, err
	}
	first := fmt.Appendf(nil, "%d 0 obj\n", r)
	body, ok = bytes.CutPrefix(b, first)
	if !ok {
		return nil, 0, errForm
	}
	return body, at + int64(len(first)), nil
}

// dict is the object that v refers to, which is a dictionary and no more.
func (d document) dict(v any) (dict, error) {
	b, _, err := d.object(v)
	if err != nil {
		return nil, err
	}
	p := parser{b: b}
	m, _ := p.value(0).(dict)
	if p.err || m == nil || !bytes.HasPrefix(p.b, []byte("\nendobj\n")) {
		return nil, errForm
	}
	return m, nil
}

// unpacked is the data of the stream that v refers to.
func (d document) unpacked(v any) ([]byte, error) {
	b, at, err := d.object(v)
	if err != nil {
		return nil, err
	}
	p := parser{b: b}
	m, _ := p.value(0).(dict)
	const begin = "\nstream\n"
	if p.err || m == nil || m["Type"] != word("EmbeddedFile") || m["Filter"] != word("FlateDecode") || !bytes.HasPrefix(p.b, []byte(begin)) {
		return nil, errForm
	}
	at += int64(len(b)-len(p.b)) + int64(len(begin))
	length, _ := m["Length"].(int64)
	params, _ := m["Params"].(dict)
	said, ok := params["Size"].(int64)
	if !ok || length < 0 || length > d.size-at {
		return nil, errForm
	}
	tooLarge := &unit.Fault{What: "the job in it is larger than 1 MB", Hint: "the largest job that trammel reads is 1 000 000 bytes"}
	if said > maxAttached {
		return nil, tooLarge
	}
	damaged := &unit.Fault{What: "the job in it is damaged", Hint: "get the PDF again, or name the job file itself"}
	z, err := zlib.NewReader(io.NewSectionReader(d.r, at, length))
	if err != nil {
		return nil, damaged
	}
	data, err := io.ReadAll(io.LimitReader(z, maxAttached+1))
	switch {
	case len(data) > maxAttached:
		return nil, tooLarge
	case err != nil || int64(len(data)) != said:
		return nil, damaged
	}
	return data, nil
}

// whole is a number from 0 to the most, in digits alone.
func whole(s string, most int64) (int64, error) {
	n, err := strconv.ParseUint(s, 10, 63)
	if err != nil || int64(n) > most {
		return 0, errForm
	}
	return int64(n), nil
}
