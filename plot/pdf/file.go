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
	hidden  []hidden // objects after those, in the order of their numbers
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

// hidden is an object that lies packed with others in a stream: where in which.
type hidden struct {
	stream ref
	index  int
}

// perPack is how many objects lie in one stream.
const perPack = 200

// pack writes objects of the next numbers, none of which is reserved any more, in
// streams of many (ISO 32000-1, 7.5.7 and 7.5.8.4). They are small and alike. A reader
// that knows no such streams misses them and nothing else.
func (f *file) pack(bodies [][]byte) {
	first := int(f.firstPacked(len(bodies)))
	for from := 0; from < len(bodies); from += perPack {
		part := bodies[from:min(from+perPack, len(bodies))]
		var index, all []byte
		r := f.reserve()
		for i, b := range part {
			index = fmt.Appendf(index, "%d %d ", first+from+i, len(all))
			all = append(append(all, b...), '\n')
			f.hidden = append(f.hidden, hidden{r, i})
		}
		f.stream(r, fmt.Sprintf("/Type /ObjStm /N %d /First %d", len(part), len(index)), append(index, all...))
	}
}

// firstPacked is the number of the first of n packed objects: behind their streams and
// the table of them.
func (f *file) firstPacked(n int) ref {
	return ref(len(f.offsets) + 1 + (n+perPack-1)/perPack + 1)
}

// table writes where the packed objects lie, and is where it begins.
func (f *file) table(catalog ref) int64 {
	r := f.reserve()
	var b []byte
	for _, h := range f.hidden {
		b = append(b, 2, byte(h.stream>>24), byte(h.stream>>16), byte(h.stream>>8), byte(h.stream), byte(h.index))
	}
	at := f.at
	n := len(f.offsets) + 1
	f.stream(r, fmt.Sprintf("/Type /XRef /Size %d /Index [%d %d] /W [1 4 1] /Root %d 0 R", n+len(f.hidden), n, len(f.hidden), catalog), b)
	return at
}

// finish writes the table of objects and the trailer.
func (f *file) finish(catalog, info ref) error {
	packed := ""
	if len(f.hidden) > 0 {
		packed = fmt.Sprintf(" /XRefStm %d", f.table(catalog))
	}
	id := f.sum.Sum(nil)[:16] // of everything so far: the same content, the same name
	table := f.at
	b := fmt.Appendf(nil, "xref\n0 %d\n0000000000 65535 f \n", len(f.offsets)+1)
	for _, at := range f.offsets {
		b = fmt.Appendf(b, "%010d 00000 n \n", at)
	}
	b = fmt.Appendf(b, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R%s /ID [<%X> <%X>] >>\nstartxref\n%d\n%%%%EOF\n",
		len(f.offsets)+1+len(f.hidden), catalog, info, packed, id, id, table)
	f.write(b)
	return f.err
}
