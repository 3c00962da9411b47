package pdf_test

import (
	"testing"

	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/responses"

	"trammel/plot/readback"
)

// properties is what PDFium says of a file as a whole.
type properties struct {
	Title, Subject, Producer, Created, Language string
	ActualSize                                  bool // the print dialogue is asked not to scale
	Simplex                                     bool
	Labels                                      []string // of the pages
	Bookmarks                                   []bookmark
	Attachments                                 map[string][]byte
	ID                                          string
}

// bookmark leads to a page, counted from 0.
type bookmark struct {
	Title string
	Page  int
	Below []bookmark
}

// describe reads what belongs to the whole of a PDF.
func describe(t testing.TB, file []byte) properties {
	t.Helper()
	o, done := readback.Read(t, file)
	defer done()
	d := o.Document
	meta := func(tag string) string {
		return readback.Must(o.FPDF_GetMetaText(&requests.FPDF_GetMetaText{Document: d, Tag: tag}))(o).Value
	}
	doc := properties{
		Title: meta("Title"), Subject: meta("Subject"), Producer: meta("Producer"), Created: meta("CreationDate"),
		Language:   readback.Must(o.FPDFCatalog_GetLanguage(&requests.FPDFCatalog_GetLanguage{Document: d}))(o).Language,
		ActualSize: !readback.Must(o.FPDF_VIEWERREF_GetPrintScaling(&requests.FPDF_VIEWERREF_GetPrintScaling{Document: d}))(o).PreferPrintScaling,
		Simplex:    readback.Must(o.FPDF_VIEWERREF_GetDuplex(&requests.FPDF_VIEWERREF_GetDuplex{Document: d}))(o).DuplexType == enums.FPDF_DUPLEXTYPE_SIMPLEX,
		ID:         string(readback.Must(o.FPDF_GetFileIdentifier(&requests.FPDF_GetFileIdentifier{Document: d}))(o).Identifier),
	}
	for i := range o.Count() {
		doc.Labels = append(doc.Labels, readback.Must(o.FPDF_GetPageLabel(&requests.FPDF_GetPageLabel{Document: d, Page: i}))(o).Label)
	}
	doc.Bookmarks = bookmarks(readback.Must(o.GetBookmarks(&requests.GetBookmarks{Document: d}))(o).Bookmarks)
	for _, a := range readback.Must(o.GetAttachments(&requests.GetAttachments{Document: d}))(o).Attachments {
		if doc.Attachments == nil {
			doc.Attachments = map[string][]byte{}
		}
		doc.Attachments[a.Name] = append([]byte{}, a.Content...)
	}
	return doc
}

func bookmarks(list []responses.GetBookmarksBookmark) []bookmark {
	var b []bookmark
	for _, m := range list {
		k := bookmark{Title: m.Title, Page: -1, Below: bookmarks(m.Children)}
		if m.DestInfo != nil {
			k.Page = m.DestInfo.PageIndex
		}
		b = append(b, k)
	}
	return b
}
