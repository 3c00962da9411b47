package readback

import (
	"image"
	"image/draw"
	"testing"

	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/responses"
)

// Document is what PDFium says of a file as a whole.
type Document struct {
	Title, Subject, Producer, Created, Language string
	ActualSize                                  bool // the print dialogue is asked not to scale
	Simplex                                     bool
	Labels                                      []string // of the pages
	Bookmarks                                   []Bookmark
	Attachments                                 map[string][]byte
	ID                                          string
}

// Bookmark leads to a page, counted from 0.
type Bookmark struct {
	Title string
	Page  int
	Below []Bookmark
}

// Describe reads what belongs to the whole of a PDF.
func Describe(t testing.TB, file []byte) Document {
	t.Helper()
	o, done := open(t, file)
	defer done()
	d := o.document
	meta := func(tag string) string {
		return must(o.FPDF_GetMetaText(&requests.FPDF_GetMetaText{Document: d, Tag: tag}))(o).Value
	}
	doc := Document{
		Title: meta("Title"), Subject: meta("Subject"), Producer: meta("Producer"), Created: meta("CreationDate"),
		Language:   must(o.FPDFCatalog_GetLanguage(&requests.FPDFCatalog_GetLanguage{Document: d}))(o).Language,
		ActualSize: !must(o.FPDF_VIEWERREF_GetPrintScaling(&requests.FPDF_VIEWERREF_GetPrintScaling{Document: d}))(o).PreferPrintScaling,
		Simplex:    must(o.FPDF_VIEWERREF_GetDuplex(&requests.FPDF_VIEWERREF_GetDuplex{Document: d}))(o).DuplexType == enums.FPDF_DUPLEXTYPE_SIMPLEX,
		ID:         string(must(o.FPDF_GetFileIdentifier(&requests.FPDF_GetFileIdentifier{Document: d}))(o).Identifier),
	}
	for i := range o.count() {
		doc.Labels = append(doc.Labels, must(o.FPDF_GetPageLabel(&requests.FPDF_GetPageLabel{Document: d, Page: i}))(o).Label)
	}
	doc.Bookmarks = bookmarks(must(o.GetBookmarks(&requests.GetBookmarks{Document: d}))(o).Bookmarks)
	for _, a := range must(o.GetAttachments(&requests.GetAttachments{Document: d}))(o).Attachments {
		if doc.Attachments == nil {
			doc.Attachments = map[string][]byte{}
		}
		doc.Attachments[a.Name] = append([]byte{}, a.Content...)
	}
	return doc
}

func bookmarks(list []responses.GetBookmarksBookmark) []Bookmark {
	var b []Bookmark
	for _, m := range list {
		k := Bookmark{Title: m.Title, Page: -1, Below: bookmarks(m.Children)}
		if m.DestInfo != nil {
			k.Page = m.DestInfo.PageIndex
		}
		b = append(b, k)
	}
	return b
}

// Render draws a page, counted from 0, on white.
func Render(t testing.TB, file []byte, page, dpi int) *image.Gray {
	t.Helper()
	o, done := open(t, file)
	defer done()
	r := must(o.RenderPageInDPI(&requests.RenderPageInDPI{
		Page: requests.Page{ByIndex: &requests.PageByIndex{Document: o.document, Index: page}}, DPI: dpi,
	}))(o)
	defer r.Cleanup()
	out := image.NewGray(r.Result.RenderedImage.Bounds())
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(out, out.Bounds(), r.Result.RenderedImage, r.Result.RenderedImage.Bounds().Min, draw.Over)
	return out
}
