package readback

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/webassembly"
	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/experimental"

	"trammel/geom"
	"trammel/geom/unit"
)

// reader is the one PDFium of a test binary: it takes a while to start.
type reader struct {
	mu     sync.Mutex
	pdfium pdfium.Pdfium
	err    error
}

var theReader = sync.OnceValue(func() *reader {
	config := wazero.NewRuntimeConfig().WithCoreFeatures(
		api.CoreFeaturesV2 | experimental.CoreFeaturesExceptionHandling) // as the library has it
	// Compiled once for all test binaries of this machine; without a place to keep
	// it, it is compiled again.
	if dir, err := os.UserCacheDir(); err == nil {
		if cache, err := wazero.NewCompilationCacheWithDir(filepath.Join(dir, "trammel-readback")); err == nil {
			config = config.WithCompilationCache(cache)
		}
	}
	pool, err := webassembly.Init(webassembly.Config{
		MinIdle: 1, MaxIdle: 1, MaxTotal: 1,
		RuntimeConfig: config,
		FSConfig:      wazero.NewFSConfig(), // it gets bytes and no files
	})
	if err != nil {
		return &reader{err: err}
	}
	p, err := pool.GetInstance(time.Minute)
	return &reader{pdfium: p, err: err}
})

// Open reads a PDF with PDFium, whole. Anything that PDFium refuses ends the test.
func Open(t testing.TB, file []byte) []Page {
	t.Helper()
	o, done := open(t, file)
	defer done()
	pages := make([]Page, o.count())
	for i := range pages {
		pages[i] = o.page(i)
	}
	return pages
}

// opened is a document while it is open.
type opened struct {
	t testing.TB
	pdfium.Pdfium
	document references.FPDF_DOCUMENT
}

// open keeps other tests from PDFium until done is called.
func open(t testing.TB, file []byte) (o opened, done func()) {
	t.Helper()
	r := theReader()
	if r.err != nil {
		t.Fatalf("pdfium: %v", r.err)
	}
	r.mu.Lock()
	d, err := r.pdfium.OpenDocument(&requests.OpenDocument{File: &file})
	if err != nil {
		r.mu.Unlock()
		t.Fatalf("pdfium: %v", err)
	}
	return opened{t, r.pdfium, d.Document}, func() {
		r.pdfium.FPDF_CloseDocument(&requests.FPDF_CloseDocument{Document: d.Document})
		r.mu.Unlock()
	}
}

func (o opened) count() int {
	return must(o.FPDF_GetPageCount(&requests.FPDF_GetPageCount{Document: o.document}))(o).PageCount
}

func must[T any](v *T, err error) func(opened) *T {
	return func(o opened) *T {
		o.t.Helper()
		if err != nil {
			o.t.Fatalf("pdfium: %v", err)
		}
		return v
	}
}

const mmPerPoint = 25.4 / 72

func mm(points float64) unit.Length { return unit.Length(points * mmPerPoint) }

func (o opened) page(i int) Page {
	size := must(o.FPDF_GetPageSizeByIndexF(&requests.FPDF_GetPageSizeByIndexF{Document: o.document, Index: i}))(o).Size
	p := Page{Width: mm(float64(size.Width)), Height: mm(float64(size.Height))}

	ref := must(o.FPDF_LoadPage(&requests.FPDF_LoadPage{Document: o.document, Index: i}))(o).Page
	defer o.FPDF_ClosePage(&requests.FPDF_ClosePage{Page: ref})
	page := requests.Page{ByReference: &ref}
	text := must(o.FPDFText_LoadPage(&requests.FPDFText_LoadPage{Page: page}))(o).TextPage
	defer o.FPDFText_ClosePage(&requests.FPDFText_ClosePage{TextPage: text})

	n := must(o.FPDFPage_CountObjects(&requests.FPDFPage_CountObjects{Page: page}))(o).Count
	for j := range n {
		obj := must(o.FPDFPage_GetObject(&requests.FPDFPage_GetObject{Page: page, Index: j}))(o).PageObject
		m := o.matrix(obj)
		switch kind := must(o.FPDFPageObj_GetType(&requests.FPDFPageObj_GetType{PageObject: obj}))(o).Type; kind {
		case enums.FPDF_PAGEOBJ_PATH:
			p.Paths = append(p.Paths, o.paths(obj, m)...)
		case enums.FPDF_PAGEOBJ_TEXT:
			p.Words = append(p.Words, o.words(obj, m, text))
		default:
			o.t.Fatalf("page %d has an object of a kind (%d) that trammel does not write", i+1, kind)
		}
	}
	return p
}

// matrix is that of an object: its own places to points of the page.
type matrix [6]float64

func (o opened) matrix(obj references.FPDF_PAGEOBJECT) matrix {
	m := must(o.FPDFPageObj_GetMatrix(&requests.FPDFPageObj_GetMatrix{PageObject: obj}))(o).Matrix
	return matrix{float64(m.A), float64(m.B), float64(m.C), float64(m.D), float64(m.E), float64(m.F)}
}

func (m matrix) apply(x, y float64) geom.Point {
	return geom.Point{X: mm(m[0]*x + m[2]*y + m[4]), Y: mm(m[1]*x + m[3]*y + m[5])}
}

// scale of lengths, for a matrix that does not distort.
func (m matrix) scale(v float32) unit.Length { return mm(float64(v) * math.Hypot(m[0], m[1])) }

func (o opened) paths(obj references.FPDF_PAGEOBJECT, m matrix) []Path {
	mode := must(o.FPDFPath_GetDrawMode(&requests.FPDFPath_GetDrawMode{PageObject: obj}))(o)
	pen := Path{
		Filled: !mode.Stroke && mode.FillMode != enums.FPDF_FILLMODE_NONE,
		Width:  m.scale(must(o.FPDFPageObj_GetStrokeWidth(&requests.FPDFPageObj_GetStrokeWidth{PageObject: obj}))(o).StrokeWidth),
		Layer:  o.layer(obj),
	}
	if must(o.FPDFPageObj_GetDashCount(&requests.FPDFPageObj_GetDashCount{PageObject: obj}))(o).DashCount > 0 {
		for _, v := range must(o.FPDFPageObj_GetDashArray(&requests.FPDFPageObj_GetDashArray{PageObject: obj}))(o).DashArray {
			pen.Dashes = append(pen.Dashes, m.scale(v))
		}
		pen.Phase = m.scale(must(o.FPDFPageObj_GetDashPhase(&requests.FPDFPageObj_GetDashPhase{PageObject: obj}))(o).DashPhase)
	}

	var paths []Path
	var controls []geom.Point
	n := must(o.FPDFPath_CountSegments(&requests.FPDFPath_CountSegments{PageObject: obj}))(o).Count
	for i := range n {
		s := must(o.FPDFPath_GetPathSegment(&requests.FPDFPath_GetPathSegment{PageObject: obj, Index: i}))(o).PathSegment
		at := must(o.FPDFPathSegment_GetPoint(&requests.FPDFPathSegment_GetPoint{PathSegment: s}))(o)
		q := m.apply(float64(at.X), float64(at.Y))
		kind := must(o.FPDFPathSegment_GetType(&requests.FPDFPathSegment_GetType{PathSegment: s}))(o).Type
		if kind == enums.FPDF_SEGMENT_MOVETO {
			start := pen
			start.Start = q
			paths = append(paths, start)
			continue
		}
		p := &paths[len(paths)-1]
		switch {
		case kind == enums.FPDF_SEGMENT_LINETO:
			p.Segments = append(p.Segments, Segment{To: q})
		case len(controls) < 2:
			controls = append(controls, q)
		default:
			p.Segments = append(p.Segments, Segment{Curved: true, Control1: controls[0], Control2: controls[1], To: q})
			controls = controls[:0]
		}
		if must(o.FPDFPathSegment_GetClose(&requests.FPDFPathSegment_GetClose{PathSegment: s}))(o).IsClose {
			p.Closed = true
		}
	}
	return paths
}

func (o opened) words(obj references.FPDF_PAGEOBJECT, m matrix, page references.FPDF_TEXTPAGE) Words {
	font := must(o.FPDFTextObj_GetFont(&requests.FPDFTextObj_GetFont{PageObject: obj}))(o).Font
	box := must(o.FPDFPageObj_GetBounds(&requests.FPDFPageObj_GetBounds{PageObject: obj}))(o)
	return Words{
		Bounds: geom.Rect{
			Min: geom.Point{X: mm(float64(box.Left)), Y: mm(float64(box.Bottom))},
			Max: geom.Point{X: mm(float64(box.Right)), Y: mm(float64(box.Top))},
		},
		Text:  strings.TrimRight(must(o.FPDFTextObj_GetText(&requests.FPDFTextObj_GetText{PageObject: obj, TextPage: page}))(o).Text, " "),
		At:    m.apply(0, 0),
		Turn:  unit.Angle(math.Atan2(m[1], m[0])),
		Em:    m.scale(must(o.FPDFTextObj_GetFontSize(&requests.FPDFTextObj_GetFontSize{PageObject: obj}))(o).FontSize),
		Font:  must(o.FPDFFont_GetBaseFontName(&requests.FPDFFont_GetBaseFontName{Font: font}))(o).BaseFontName,
		Layer: o.layer(obj),
	}
}

// layer is the name of the optional content group that the object lies in.
func (o opened) layer(obj references.FPDF_PAGEOBJECT) string {
	n := must(o.FPDFPageObj_CountMarks(&requests.FPDFPageObj_CountMarks{PageObject: obj}))(o).Count
	for i := range n {
		mark := must(o.FPDFPageObj_GetMark(&requests.FPDFPageObj_GetMark{PageObject: obj, Index: uint64(i)}))(o).Mark
		if must(o.FPDFPageObjMark_GetName(&requests.FPDFPageObjMark_GetName{PageObjectMark: mark}))(o).Name == "OC" {
			return must(o.FPDFPageObjMark_GetParamStringValue(&requests.FPDFPageObjMark_GetParamStringValue{PageObjectMark: mark, Key: "Name"}))(o).Value
		}
	}
	return ""
}
