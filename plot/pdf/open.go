package pdf

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Limits of what Attached reads.
const (
	maxFile     = 512 << 20 // bytes of the document; twenty thousand pages take about 60 MB
	maxAttached = 1_000_000 // bytes of the attachment, unpacked
	maxObject   = 1 << 16   // bytes of an object that is not a stream
)

// Magic is how every PDF begins.
const Magic = "%PDF-"

// head is the first bytes of a document that Write makes, before those of one that it made
// when pages were not told part by part.
const (
	head   = "%PDF-2.0\n%\xe2\xe3\xcf\xd3\n"
	before = "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"
)

// What Attached reads, in the form that file.finish and file.catalog write it. Strings
// hold no line end, and none that stands before a thing asked for begins a line.
var (
	trailerForm = regexp.MustCompile(`\ntrailer\n<< /Size (\d+) /Root (\d+) 0 R /Info (\d+) 0 R(?: /XRefStm \d+)? /ID \[[^\n]*\] >>\nstartxref\n(\d+)\n%%EOF\n$`)
	catalogForm = regexp.MustCompile(`^<< /Type /Catalog [^\x00]*?\nendobj\n`)
	namesForm   = regexp.MustCompile(`\n/Names << /EmbeddedFiles << /Names \[.* (\d+) 0 R\] >> >>`)
	infoForm    = regexp.MustCompile(`^<< /Producer \(trammel\)`)
	specForm    = regexp.MustCompile(`^<< /Type /Filespec /F .* /UF <FEFF((?:[0-9A-F]{4})+)> /EF << /F (\d+) 0 R >> >>\nendobj\n`)
	dataForm    = regexp.MustCompile(`^<< /Filter /FlateDecode /Type /EmbeddedFile /Params << /Size (\d+) >> /Length (\d+) >>\nstream\n`)
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
	a, err := (&document{r: r, size: size}).attached()
	if errors.Is(err, errForm) {
		err = (&document{r: r, size: size}).foreign()
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
func (d *document) foreign() error {
	const near = 1 << 16
	for _, at := range []int64{max(0, d.size-near), 0} {
		b := d.read(at, near)
		if d.err != nil {
			return d.err
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

// document is the file from outside. After the first thing that it does not know, or
// cannot read, err is set and nothing more is read.
type document struct {
	r    io.ReaderAt
	size int64
	xref int64 // where the first line of the table of objects stands
	n    int64 // objects in it, the free one included
	err  error
}

func (d *document) attached() (a draw.Attachment, err error) {
	root, info := d.open()
	d.object(info, infoForm)
	catalog, _ := d.object(root, catalogForm)
	if d.err != nil {
		return a, d.err
	}
	names := namesForm.FindStringSubmatch(catalog[0])
	if names == nil {
		return a, &unit.Fault{What: "holds no job", Hint: "name the job file itself"}
	}
	spec, _ := d.object(d.whole(names[1]), specForm)
	a.Name = narrow(spec[1])
	data, at := d.object(d.whole(spec[2]), dataForm)
	said, length := d.whole(data[1]), d.whole(data[2])
	if d.err != nil || length > d.size-at {
		return a, cmp.Or(d.err, errForm)
	}
	a.Data, err = unpacked(io.NewSectionReader(d.r, at, length), said)
	return a, err
}

// open reads head and tail, finds the table of objects, and says which the catalog and
// the Info dictionary are.
func (d *document) open() (root, info int64) {
	const end = 1024
	at := max(0, d.size-end)
	begin, b := d.read(0, len(head)), d.read(at, end)
	m := trailerForm.FindSubmatchIndex(b)
	if d.err != nil || string(begin) != head && string(begin) != before || m == nil {
		d.fail(errForm)
		return 0, 0
	}
	number := func(i int) int64 { return d.whole(string(b[m[2*i]:m[2*i+1]])) }
	root, info, d.xref = number(2), number(3), number(4)
	d.n = (at + int64(m[0]) + 1 - d.xref) / entry // what is packed has a table of its own
	first := fmt.Sprintf("xref\n0 %d\n", d.n)
	if string(d.read(d.xref, len(first))) != first {
		d.fail(errForm)
	}
	d.xref += int64(len(first))
	if d.n > d.size/entry || d.xref+d.n*entry != at+int64(m[0])+1 {
		d.fail(errForm)
	}
	return root, info
}

// entry is the length of one line of the table of objects.
const entry = 20

// read is so many bytes from a place, fewer at the end of the document.
func (d *document) read(at int64, n int) []byte {
	if d.err != nil || at > d.size {
		d.fail(errForm)
		return nil
	}
	b := make([]byte, min(int64(n), d.size-at))
	if k, err := d.r.ReadAt(b, at); k < len(b) {
		if err == nil || errors.Is(err, io.EOF) {
			err = errForm // it was shortened meanwhile
		}
		d.fail(err)
		return nil
	}
	return b
}

// object is what the form finds at the beginning of the body of object r, one string
// more than it has groups, and where what comes behind it stands.
func (d *document) object(r int64, form *regexp.Regexp) (found []string, behind int64) {
	if r < 1 || r >= d.n {
		d.fail(errForm)
	}
	offset, ok := bytes.CutSuffix(d.read(d.xref+r*entry, entry), []byte(" 00000 n \n"))
	if !ok {
		d.fail(errForm)
	}
	at := d.whole(strings.TrimLeft(string(offset), "0"))
	first := fmt.Sprintf("%d 0 obj\n", r)
	body, ok := bytes.CutPrefix(d.read(at, maxObject), []byte(first))
	m := form.FindSubmatch(body)
	if !ok || m == nil {
		d.fail(errForm)
		return make([]string, form.NumSubexp()+1), 0
	}
	for _, b := range m {
		found = append(found, string(b))
	}
	return found, at + int64(len(first)+len(m[0]))
}

// unpacked is the data of the attachment, which is said to have so many bytes.
func unpacked(packed io.Reader, said int64) ([]byte, error) {
	tooLarge := &unit.Fault{What: "the job in it is larger than 1 MB", Hint: "the largest job that trammel reads is 1 000 000 bytes"}
	if said > maxAttached {
		return nil, tooLarge
	}
	damaged := &unit.Fault{What: "the job in it is damaged", Hint: "get the PDF again, or name the job file itself"}
	z, err := zlib.NewReader(packed)
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

// whole is a number in digits alone.
func (d *document) whole(s string) int64 {
	n, err := strconv.ParseUint(s, 10, 63)
	if err != nil {
		d.fail(errForm)
	}
	return int64(n)
}

func (d *document) fail(err error) { d.err = cmp.Or(d.err, err) }
