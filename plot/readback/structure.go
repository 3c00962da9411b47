package readback

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// Part is an element of the tree of what a document says.
type Part struct {
	Role, Alt string
	Said      []string // the words of its own marks, one mark after the other
	Parts     []Part
}

// Walk calls visit for the part and all below it, in the order of reading.
func (p Part) Walk(visit func(p Part, depth int)) { p.walk(visit, 0) }

func (p Part) walk(visit func(Part, int), depth int) {
	visit(p, depth)
	for _, q := range p.Parts {
		q.walk(visit, depth+1)
	}
}

// mark is marked content: its page, from 1, and its number there.
type mark struct{ page, id int }

// tagged is a document while its tree is read.
type tagged struct {
	t     testing.TB
	ctx   *model.Context
	words map[mark]string
	owner map[mark]int // the object of the part that has it, as the tree of parents says
	seen  map[mark]bool
	pages map[int]int // the number of a page, by its object
}

// Structure reads the tree of what a document says: the tree with pdfcpu, words with
// PDFium. The test fails unless each mark of each page is reached from the tree once,
// the tree of parents says the same, and each part leads back to the one above it
// (ISO 32000-1, 14.7.2 to 14.7.4).
func Structure(t testing.TB, file []byte) Part {
	t.Helper()
	api.DisableConfigDir()
	ctx, err := api.ReadContext(bytes.NewReader(file), model.NewDefaultConfiguration())
	if err == nil {
		err = ctx.EnsurePageCount()
	}
	if err != nil {
		t.Fatalf("pdfcpu: %v", err)
	}
	d := tagged{t, ctx, said(t, file), map[mark]int{}, map[mark]bool{}, map[int]int{}}
	catalog, err := ctx.Catalog()
	if err != nil {
		t.Fatalf("pdfcpu: %v", err)
	}
	if on := d.dict(catalog["MarkInfo"])["Marked"]; on != types.Boolean(true) {
		t.Errorf("/Marked is %v", on)
	}
	root := d.dict(catalog["StructTreeRoot"])
	marks := d.readPages(d.dict(root["ParentTree"]))
	r, ok := root["K"].(types.IndirectRef)
	if !ok {
		t.Fatalf("the tree begins with %v", root["K"])
	}
	above, _ := catalog["StructTreeRoot"].(types.IndirectRef)
	all := d.part(r, int(above.ObjectNumber))
	if len(d.seen) != marks {
		t.Errorf("%d marks are reached of %d", len(d.seen), marks)
	}
	return all
}

func (d tagged) dict(o types.Object) types.Dict {
	d.t.Helper()
	v, err := d.ctx.DereferenceDict(o)
	if err != nil {
		d.t.Fatalf("pdfcpu: %v", err)
	}
	return v
}

var markID = regexp.MustCompile(`/MCID (\d+)`)

// readPages takes down which part each mark belongs to, and counts the marks.
func (d tagged) readPages(parents types.Dict) (marks int) {
	nums, _ := parents["Nums"].(types.Array)
	owners := map[int]types.Array{}
	for i := 0; i+1 < len(nums); i += 2 {
		k, _ := nums[i].(types.Integer)
		owners[int(k)], _ = nums[i+1].(types.Array)
	}
	for n := 1; n <= d.ctx.PageCount; n++ {
		page, r, _, err := d.ctx.PageDict(n, false)
		if err != nil {
			d.t.Fatalf("pdfcpu: page %d: %v", n, err)
		}
		d.pages[int(r.ObjectNumber)] = n
		content, err := d.ctx.PageContent(page, n)
		if err != nil && !errors.Is(err, model.ErrNoContent) {
			d.t.Fatalf("pdfcpu: page %d: %v", n, err)
		}
		ids := markID.FindAllSubmatch(content, -1)
		var list types.Array
		if k, ok := page["StructParents"].(types.Integer); ok {
			list = owners[int(k)]
		}
		if len(list) != len(ids) {
			d.t.Errorf("page %d has %d marks and %d parents", n, len(ids), len(list))
			continue
		}
		for i, id := range ids {
			if string(id[1]) != strconv.Itoa(i) {
				d.t.Errorf("page %d: mark %s is number %d", n, id[1], i)
			}
			r, _ := list[i].(types.IndirectRef)
			d.owner[mark{n, i}] = int(r.ObjectNumber)
		}
		marks += len(ids)
	}
	return marks
}

// part reads the element that stands below another.
func (d tagged) part(r types.IndirectRef, above int) Part {
	e := d.dict(r)
	p := Part{}
	if s, ok := e["S"].(types.Name); ok {
		p.Role = string(s)
	}
	if up, _ := e["P"].(types.IndirectRef); int(up.ObjectNumber) != above {
		d.t.Errorf("%s %v lies below %d and says %v", p.Role, r, above, up)
	}
	if e["Alt"] != nil {
		alt, err := types.StringOrHexLiteral(e["Alt"])
		if err != nil {
			d.t.Errorf("%s: %v", p.Role, err)
		} else {
			p.Alt = *alt
		}
	}
	all, ok := e["K"].(types.Array)
	if !ok && e["K"] != nil {
		all = types.Array{e["K"]}
	}
	for _, k := range all {
		switch k := k.(type) {
		case types.IndirectRef:
			p.Parts = append(p.Parts, d.part(k, int(r.ObjectNumber)))
		case types.Integer:
			d.take(&p, r, e["Pg"], int(k))
		case types.Dict:
			id, _ := k["MCID"].(types.Integer)
			d.take(&p, r, k["Pg"], int(id))
		default:
			d.t.Errorf("%s has a %T", p.Role, k)
		}
	}
	return p
}

// take adds a mark to the part that says it has it.
func (d tagged) take(p *Part, r types.IndirectRef, page types.Object, id int) {
	pg, _ := page.(types.IndirectRef)
	m := mark{d.pages[int(pg.ObjectNumber)], id}
	if d.seen[m] || d.owner[m] != int(r.ObjectNumber) {
		d.t.Errorf("%s %v has mark %d of page %d, which was reached before (%v) or belongs to %d", p.Role, r, id, m.page, d.seen[m], d.owner[m])
	}
	d.seen[m] = true
	if w := d.words[m]; w != "" {
		p.Said = append(p.Said, w)
	}
}

// said are the words of each mark.
func said(t testing.TB, file []byte) map[mark]string {
	t.Helper()
	o, done := Read(t, file)
	defer done()
	all := map[mark][]string{}
	for i := range o.Count() {
		ref := Must(o.FPDF_LoadPage(&requests.FPDF_LoadPage{Document: o.Document, Index: i}))(o).Page
		page := requests.Page{ByReference: &ref}
		text := Must(o.FPDFText_LoadPage(&requests.FPDFText_LoadPage{Page: page}))(o).TextPage
		for j := range Must(o.FPDFPage_CountObjects(&requests.FPDFPage_CountObjects{Page: page}))(o).Count {
			obj := Must(o.FPDFPage_GetObject(&requests.FPDFPage_GetObject{Page: page, Index: j}))(o).PageObject
			r, err := o.FPDFTextObj_GetText(&requests.FPDFTextObj_GetText{PageObject: obj, TextPage: text})
			if err != nil {
				continue // a stroke
			}
			if id, ok := o.markOf(obj); ok {
				all[mark{i + 1, id}] = append(all[mark{i + 1, id}], strings.TrimRight(r.Text, " "))
			}
		}
		o.FPDFText_ClosePage(&requests.FPDFText_ClosePage{TextPage: text})
		o.FPDF_ClosePage(&requests.FPDF_ClosePage{Page: ref})
	}
	joined := map[mark]string{}
	for m, w := range all {
		joined[m] = strings.Join(w, " ")
	}
	return joined
}

// markOf is the number of the marked content that an object lies in.
func (o Opened) markOf(obj references.FPDF_PAGEOBJECT) (int, bool) {
	for i := range Must(o.FPDFPageObj_CountMarks(&requests.FPDFPageObj_CountMarks{PageObject: obj}))(o).Count {
		m := Must(o.FPDFPageObj_GetMark(&requests.FPDFPageObj_GetMark{PageObject: obj, Index: uint64(i)}))(o).Mark
		if v, err := o.FPDFPageObjMark_GetParamIntValue(&requests.FPDFPageObjMark_GetParamIntValue{PageObjectMark: m, Key: "MCID"}); err == nil {
			return v.Value, true
		}
	}
	return 0, false
}

// String is the tree a line a part, each below the one it belongs to set in by two.
func (p Part) String() string {
	var b strings.Builder
	p.Walk(func(p Part, depth int) {
		fmt.Fprintf(&b, "%s%s", strings.Repeat("  ", depth), p.Role)
		if p.Alt != "" {
			fmt.Fprintf(&b, " [%s]", p.Alt)
		}
		for _, w := range p.Said {
			fmt.Fprintf(&b, " %q", w)
		}
		b.WriteByte('\n')
	})
	return b.String()
}
