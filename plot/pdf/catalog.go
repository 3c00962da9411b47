package pdf

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
	"strings"
	"time"

	"trammel/plot/draw"
)

// name is what is kept of a page once it is written.
type name struct {
	page  ref
	label string
	kind  draw.Kind
	piece string
}

// group is a layer that a viewer can switch off.
type group struct {
	layer draw.Layer
	ref   ref
}

func (f *file) layers(used map[draw.Layer]bool) []group {
	var g []group
	for _, l := range draw.Layers() {
		if used[l] {
			g = append(g, group{l, f.add("<< /Type /OCG /Name %s >>", text(l.String()))})
		}
	}
	return g
}

// trees that the catalog leads to: of the pages, and of what they say.
type trees struct{ pages, says ref }

// catalog writes what belongs to the whole document and returns the place of the
// Info dictionary.
//
// /PrintScaling /None asks the print dialogue for actual size, and /Enforce that it
// insists (ISO 32000-2, 12.2).
func (f *file) catalog(r ref, t trees, d draw.Document, names []name, groups []group) ref {
	b := fmt.Appendf(nil, "<< /Type /Catalog /Pages %d 0 R", t.pages)
	b = append(b, "\n/ViewerPreferences << /PrintScaling /None /Enforce [/PrintScaling] /Duplex /Simplex /PickTrayByPDFSize true /DisplayDocTitle true >>"...)
	b = fmt.Appendf(b, "\n/MarkInfo << /Marked true >> /StructTreeRoot %d 0 R", t.says)
	if d.Language != "" {
		b = append(b, "\n/Lang "+text(d.Language)...)
	}
	b = fmt.Appendf(b, "\n/PageLabels %d 0 R", f.labels(names))
	b = fmt.Appendf(b, "\n/Outlines %d 0 R", f.bookmarks(d.Title, names))
	if len(names) > 1 {
		b = append(b, "\n/PageMode /UseOutlines"...)
	}
	if len(groups) > 0 {
		var all []ref
		for _, g := range groups {
			all = append(all, g.ref)
		}
		b = fmt.Appendf(b, "\n/OCProperties << /OCGs [%s] /D << /Order [%s] /ON [%s] >> >>", refs(all), refs(all), refs(all))
	}
	if a := d.Attachment; a != nil {
		data := f.reserve()
		f.stream(data, fmt.Sprintf("/Type /EmbeddedFile /Params << /Size %d >>", len(a.Data)), a.Data)
		spec := f.add("<< /Type /Filespec /F %s /UF %s /EF << /F %d 0 R >> >>", text(a.Name), wide(a.Name), data)
		b = fmt.Appendf(b, "\n/Names << /EmbeddedFiles << /Names [%s %d 0 R] >> >>", text(a.Name), spec)
	}
	metadata := f.reserve()
	f.raw(metadata, "/Type /Metadata /Subtype /XML", xmp(d)) // not packed, so that any program finds it
	b = fmt.Appendf(b, "\n/Metadata %d 0 R", metadata)
	f.object(r, append(b, " >>"...))

	i := []byte("<< /Producer (trammel)")
	if d.Title != "" {
		i = append(i, " /Title "+text(d.Title)...)
	}
	if d.Subject != "" {
		i = append(i, " /Subject "+text(d.Subject)...)
	}
	if t, ok := day(d.Date); ok {
		i = append(i, " /CreationDate (D:"+t.Format("20060102150405")+"+00'00')"...)
	}
	info := f.reserve()
	f.object(info, append(i, " >>"...))
	return info
}

// day reads a date as a job states it, as the beginning of that day: some readers
// insist on a time. One written otherwise stays off the
// document's properties: it is on the pages, in the job's own words.
func day(date string) (time.Time, bool) {
	t, err := time.Parse(time.DateOnly, date)
	return t, err == nil
}

// labels are the names of the pages in the viewer's page field: the page's own,
// or its number.
func (f *file) labels(names []name) ref {
	b := []byte("<< /Nums [")
	numbered := false
	for i, n := range names {
		label := n.label
		if label == "" && n.kind == draw.Index {
			label = string(draw.Index)
		}
		switch {
		case label != "":
			b = fmt.Appendf(b, "%d << /P %s >>\n", i, text(label))
		case !numbered:
			b = fmt.Appendf(b, "%d << /S /D /St %d >>\n", i, i+1)
		}
		numbered = label == ""
	}
	return f.add("%s] >>", b)
}

// item is a bookmark.
type item struct {
	title string
	page  ref
	below []item
}

// bookmarked are the pieces, and below each its pages.
func bookmarked(document string, names []name) (pieces []item) {
	for i, n := range names {
		if i == 0 || n.piece != names[i-1].piece {
			pieces = append(pieces, item{title: cmp.Or(n.piece, document, title(n.label, i+1)), page: n.page})
		}
		t := n.label
		if t == "" && n.kind == draw.Index {
			t = string(draw.Index)
		}
		p := &pieces[len(pieces)-1]
		p.below = append(p.below, item{title: cmp.Or(t, fmt.Sprint(i+1)), page: n.page})
	}
	return pieces
}

// bookmarks are one a piece, and below it one a page where it has several.
func (f *file) bookmarks(document string, names []name) ref {
	pieces := bookmarked(document, names)
	root := f.reserve()
	// Numbers of one row of items follow each other, so that next and previous are
	// one more and one less.
	var row func(parent ref, items []item) (first, last ref)
	row = func(parent ref, items []item) (first, last ref) {
		for i := range items {
			r := f.reserve()
			if i == 0 {
				first = r
			}
			last = r
		}
		for i, it := range items {
			r := first + ref(i)
			b := fmt.Appendf(nil, "<< /Title %s /Parent %d 0 R /Dest [%d 0 R /Fit]", text(it.title), parent, it.page)
			if r > first {
				b = fmt.Appendf(b, " /Prev %d 0 R", r-1)
			}
			if r < last {
				b = fmt.Appendf(b, " /Next %d 0 R", r+1)
			}
			if len(it.below) > 1 {
				c1, c2 := row(r, it.below)
				// Negative: the row below is folded in.
				b = fmt.Appendf(b, " /First %d 0 R /Last %d 0 R /Count %d", c1, c2, -len(it.below))
			}
			f.object(r, append(b, " >>"...))
		}
		return first, last
	}
	first, last := row(root, pieces)
	f.object(root, fmt.Appendf(nil, "<< /Type /Outlines /First %d 0 R /Last %d 0 R /Count %d >>", first, last, len(pieces)))
	return root
}

// xmp says the same as the Info dictionary, in XML (ISO 16684-1).
func xmp(d draw.Document) []byte {
	escape := func(s string) string {
		var b bytes.Buffer
		xml.EscapeText(&b, []byte(s)) // into memory: no error
		return b.String()
	}
	var b strings.Builder
	b.WriteString("<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		"<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n" +
		"<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">\n" +
		"<dc:format>application/pdf</dc:format>\n<pdf:Producer>trammel</pdf:Producer>\n")
	for _, e := range [...][2]string{{"title", d.Title}, {"description", d.Subject}} {
		if e[1] != "" {
			fmt.Fprintf(&b, "<dc:%s><rdf:Alt><rdf:li xml:lang=\"x-default\">%s</rdf:li></rdf:Alt></dc:%[1]s>\n", e[0], escape(e[1]))
		}
	}
	if d.Language != "" {
		fmt.Fprintf(&b, "<dc:language><rdf:Bag><rdf:li>%s</rdf:li></rdf:Bag></dc:language>\n", escape(d.Language))
	}
	if t, ok := day(d.Date); ok {
		fmt.Fprintf(&b, "<xmp:CreateDate>%s</xmp:CreateDate>\n", t.Format(time.RFC3339))
	}
	b.WriteString("</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>")
	return []byte(b.String())
}

func title(label string, number int) string {
	if label != "" {
		return "page " + label
	}
	return fmt.Sprintf("page %d", number)
}
