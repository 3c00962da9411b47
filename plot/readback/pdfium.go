package readback

import (
	"bytes"
	"image"
	"image/draw"
	"math"
	"os"
	"os/exec"
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
	o, done := Read(t, file)
	defer done()
	pages := make([]Page, o.Count())
	for i := range pages {
		pages[i] = o.page(i)
	}
	return pages
}

// Opened is a document while it is open, for what Open does not ask of it.
type Opened struct {
	t testing.TB
	pdfium.Pdfium
	Document references.FPDF_DOCUMENT
}

// Read opens a PDF and keeps other tests from PDFium until done is called.
func Read(t testing.TB, file []byte) (o Opened, done func()) {
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
	return Opened{t, r.pdfium, d.Document}, func() {
		r.pdfium.FPDF_CloseDocument(&requests.FPDF_CloseDocument{Document: d.Document})
		r.mu.Unlock()
	}
}

func (o Opened) Count() int {
	return Must(o.FPDF_GetPageCount(&requests.FPDF_GetPageCount{Document: o.Document}))(o).PageCount
}

// Must is what PDFium answers; a refusal ends the test.
func Must[T any](v *T, err error) func(Opened) *T {
	return func(o Opened) *T {
		if err != nil {
			o.t.Helper() // not before: it looks up who called, thousands of times a page
			o.t.Fatalf("pdfium: %v", err)
		}
		return v
	}
}

func (o Opened) page(i int) Page {
	size := Must(o.FPDF_GetPageSizeByIndexF(&requests.FPDF_GetPageSizeByIndexF{Document: o.Document, Index: i}))(o).Size
	p := Page{Width: MM(float64(size.Width)), Height: MM(float64(size.Height))}

	ref := Must(o.FPDF_LoadPage(&requests.FPDF_LoadPage{Document: o.Document, Index: i}))(o).Page
	defer o.FPDF_ClosePage(&requests.FPDF_ClosePage{Page: ref})
	page := requests.Page{ByReference: &ref}
	text := Must(o.FPDFText_LoadPage(&requests.FPDFText_LoadPage{Page: page}))(o).TextPage
	defer o.FPDFText_ClosePage(&requests.FPDFText_ClosePage{TextPage: text})

	n := Must(o.FPDFPage_CountObjects(&requests.FPDFPage_CountObjects{Page: page}))(o).Count
	for j := range n {
		obj := Must(o.FPDFPage_GetObject(&requests.FPDFPage_GetObject{Page: page, Index: j}))(o).PageObject
		m := o.placed(obj)
		switch kind := Must(o.FPDFPageObj_GetType(&requests.FPDFPageObj_GetType{PageObject: obj}))(o).Type; kind {
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

// Render draws a page, counted from 0, on white.
func Render(t testing.TB, file []byte, page, dpi int) *image.Gray {
	t.Helper()
	o, done := Read(t, file)
	defer done()
	r := Must(o.RenderPageInDPI(&requests.RenderPageInDPI{
		Page: requests.Page{ByIndex: &requests.PageByIndex{Document: o.Document, Index: page}}, DPI: dpi,
	}))(o)
	defer r.Cleanup()
	out := image.NewGray(r.Result.RenderedImage.Bounds())
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(out, out.Bounds(), r.Result.RenderedImage, r.Result.RenderedImage.Bounds().Min, draw.Over)
	return out
}

// placed is the map of an object from its own places to those of the page.
func (o Opened) placed(obj references.FPDF_PAGEOBJECT) geom.Affine {
	m := Must(o.FPDFPageObj_GetMatrix(&requests.FPDFPageObj_GetMatrix{PageObject: obj}))(o).Matrix
	return Map([6]float64{float64(m.A), float64(m.B), float64(m.C), float64(m.D), float64(m.E), float64(m.F)})
}

func (o Opened) paths(obj references.FPDF_PAGEOBJECT, m geom.Affine) []Path {
	mode := Must(o.FPDFPath_GetDrawMode(&requests.FPDFPath_GetDrawMode{PageObject: obj}))(o)
	pen := Path{
		Filled: !mode.Stroke && mode.FillMode != enums.FPDF_FILLMODE_NONE,
		Width:  Stretch(m, Must(o.FPDFPageObj_GetStrokeWidth(&requests.FPDFPageObj_GetStrokeWidth{PageObject: obj}))(o).StrokeWidth),
		Layer:  o.layer(obj),
	}
	if Must(o.FPDFPageObj_GetDashCount(&requests.FPDFPageObj_GetDashCount{PageObject: obj}))(o).DashCount > 0 {
		for _, v := range Must(o.FPDFPageObj_GetDashArray(&requests.FPDFPageObj_GetDashArray{PageObject: obj}))(o).DashArray {
			pen.Dashes = append(pen.Dashes, Stretch(m, v))
		}
		pen.Phase = Stretch(m, Must(o.FPDFPageObj_GetDashPhase(&requests.FPDFPageObj_GetDashPhase{PageObject: obj}))(o).DashPhase)
	}

	var paths []Path
	var controls []geom.Point
	n := Must(o.FPDFPath_CountSegments(&requests.FPDFPath_CountSegments{PageObject: obj}))(o).Count
	for i := range n {
		s := Must(o.FPDFPath_GetPathSegment(&requests.FPDFPath_GetPathSegment{PageObject: obj, Index: i}))(o).PathSegment
		at := Must(o.FPDFPathSegment_GetPoint(&requests.FPDFPathSegment_GetPoint{PathSegment: s}))(o)
		q := m.Apply(geom.Point{X: unit.Length(at.X), Y: unit.Length(at.Y)})
		kind := Must(o.FPDFPathSegment_GetType(&requests.FPDFPathSegment_GetType{PathSegment: s}))(o).Type
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
		if Must(o.FPDFPathSegment_GetClose(&requests.FPDFPathSegment_GetClose{PathSegment: s}))(o).IsClose {
			p.Closed = true
		}
	}
	return paths
}

func (o Opened) words(obj references.FPDF_PAGEOBJECT, m geom.Affine, page references.FPDF_TEXTPAGE) Words {
	font := Must(o.FPDFTextObj_GetFont(&requests.FPDFTextObj_GetFont{PageObject: obj}))(o).Font
	box := Must(o.FPDFPageObj_GetBounds(&requests.FPDFPageObj_GetBounds{PageObject: obj}))(o)
	return Words{
		Bounds: geom.Rect{
			Min: geom.Point{X: MM(float64(box.Left)), Y: MM(float64(box.Bottom))},
			Max: geom.Point{X: MM(float64(box.Right)), Y: MM(float64(box.Top))},
		},
		Text:  strings.TrimRight(Must(o.FPDFTextObj_GetText(&requests.FPDFTextObj_GetText{PageObject: obj, TextPage: page}))(o).Text, " "),
		At:    m.Apply(geom.Point{}),
		Turn:  unit.Angle(math.Atan2(m[1], m[0])),
		Em:    Stretch(m, Must(o.FPDFTextObj_GetFontSize(&requests.FPDFTextObj_GetFontSize{PageObject: obj}))(o).FontSize),
		Font:  Must(o.FPDFFont_GetBaseFontName(&requests.FPDFFont_GetBaseFontName{Font: font}))(o).BaseFontName,
		Layer: o.layer(obj),
	}
}

// layer is the name of the optional content group that the object lies in.
func (o Opened) layer(obj references.FPDF_PAGEOBJECT) string {
	n := Must(o.FPDFPageObj_CountMarks(&requests.FPDFPageObj_CountMarks{PageObject: obj}))(o).Count
	for i := range n {
		mark := Must(o.FPDFPageObj_GetMark(&requests.FPDFPageObj_GetMark{PageObject: obj, Index: uint64(i)}))(o).Mark
		if Must(o.FPDFPageObjMark_GetName(&requests.FPDFPageObjMark_GetName{PageObjectMark: mark}))(o).Name == "OC" {
			return Must(o.FPDFPageObjMark_GetParamStringValue(&requests.FPDFPageObjMark_GetParamStringValue{PageObjectMark: mark, Key: "Name"}))(o).Value
		}
	}
	return ""
}

// Run runs a program on the file, whose name takes the place of FILE among the
// arguments and ends as given, and returns what it prints. Anything but success
// ends the test.
func Run(t testing.TB, file []byte, ending, program string, args ...string) []byte {
	t.Helper()
	name := filepath.Join(t.TempDir(), "file."+ending)
	if err := os.WriteFile(name, file, 0o600); err != nil {
		t.Fatal(err)
	}
	for i := range args {
		if args[i] == "FILE" {
			args[i] = name
		}
	}
	c := exec.Command(program, args...)
	var stderr bytes.Buffer
	c.Stderr = &stderr
	out, err := c.Output()
	if err != nil {
		t.Fatalf("%s: %v\n%s%s", program, err, out, stderr.Bytes())
	}
	return out
}
