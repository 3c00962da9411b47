package pdf

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"fmt"
	"hash"
	"io"
	"strconv"
)

// ref is the number of an object; all are of generation 0.
type ref int

// file writes objects one after the other and remembers where each begins. After
// the first error it writes no more; finish returns it.
type file struct {
	w       io.Writer
	at      int64   // bytes written
	offsets []int64 // of object i+1; 0 while it is only reserved
	sum     hash.Hash
	err     error
	packed  bytes.Buffer
	zip     *zlib.Writer
}

// level of compression: the smallest files that cost no time worth naming. It is
// fixed so that the same input gives the same bytes.
const level = zlib.DefaultCompression

func newFile(w io.Writer) *file {
	f := &file{w: w, sum: sha256.New()}
	f.zip, f.err = zlib.NewWriterLevel(&f.packed, level)
	// The comment of bytes above 127 tells transfer programs that this is not text.
	f.write([]byte(head))
	return f
}

func (f *file) write(b []byte) {
	if f.err != nil {
		return
	}
	f.sum.Write(b)
	n, err := f.w.Write(b)
	f.at += int64(n)
	f.err = err
}

// reserve gives a number to an object that is written later.
func (f *file) reserve() ref {
	f.offsets = append(f.offsets, 0)
	return ref(len(f.offsets))
}

// object writes the body as the object of that number.
func (f *file) object(r ref, body []byte) {
	f.offsets[r-1] = f.at
	b := make([]byte, 0, len(body)+32)
	b = strconv.AppendInt(b, int64(r), 10)
	b = append(b, " 0 obj\n"...)
	b = append(b, body...)
	f.write(append(b, "\nendobj\n"...))
}

// add writes the body as an object of the next number.
func (f *file) add(format string, a ...any) ref {
	r := f.reserve()
	f.object(r, fmt.Appendf(nil, format, a...))
	return r
}

// stream writes a compressed stream; entries are more of its dictionary.
func (f *file) stream(r ref, entries string, data []byte) {
	f.packed.Reset()
	f.zip.Reset(&f.packed)
	f.zip.Write(data) // into memory: no error
	f.zip.Close()
	f.raw(r, "/Filter /FlateDecode "+entries, f.packed.Bytes())
}

// raw writes a stream as it is.
func (f *file) raw(r ref, entries string, data []byte) {
	f.offsets[r-1] = f.at
	f.write(fmt.Appendf(nil, "%d 0 obj\n<< %s /Length %d >>\nstream\n", r, entries, len(data)))
	f.write(data)
	f.write([]byte("\nendstream\nendobj\n"))
}

// finish writes the table of objects and the trailer.
func (f *file) finish(catalog, info ref) error {
	id := f.sum.Sum(nil)[:16] // of everything so far: the same content, the same name
	table := f.at
	b := fmt.Appendf(nil, "xref\n0 %d\n0000000000 65535 f \n", len(f.offsets)+1)
	for _, at := range f.offsets {
		b = fmt.Appendf(b, "%010d 00000 n \n", at)
	}
	b = fmt.Appendf(b, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R /ID [<%X> <%X>] >>\nstartxref\n%d\n%%%%EOF\n",
		len(f.offsets)+1, catalog, info, id, id, table)
	f.write(b)
	return f.err
}
