package app

import (
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"

	"trammel/geom/survey"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/pdf"
	"trammel/plot/setout"
	"trammel/plot/svg"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// Findings is what was measured back of a layout, by other means than the job.
type Findings struct {
	Tokens  []job.Setting
	Where   string // the flag or the file, for messages; empty: the job's own found:
	Piece   string // its name; empty: the one there is, or each with its own found:
	PieceAt string
}

// Check is what was pegged against what was asked, piece by piece.
type Check struct {
	work   Work
	pieces []Piece
	found  []setout.Found // of each
	pages  []draw.Page
	names  []string
	silent []string // pieces that nothing was found of
}

// Check compares. Its errors are a *unit.Fault where words are wrong, and those of
// Picked and Sound.
func (w Work) Check(f Findings) (*Check, error) {
	pieces, err := w.named(f)
	if err != nil {
		return nil, err
	}
	if err := w.Sound(); err != nil {
		return nil, err
	}
	c := &Check{work: w}
	for _, p := range pieces {
		tokens := f.Tokens
		own := w.Job.Pieces[p.Index].Found
		switch {
		case f.Where == "" && len(own) == 0:
			c.silent = append(c.silent, p.Title())
			continue
		case f.Where == "":
			tokens = own
		case len(own) > 0:
			return nil, &unit.Fault{Where: f.Where, What: "the job says as well what was found: " + w.Job.Pieces[p.Index].FoundAt, Hint: "leave one of the two out"}
		}
		if !p.Picked {
			return nil, w.Picked()
		}
		sheet, err := w.compare(p, tokens)
		if err != nil {
			return nil, w.inPiece(p, err)
		}
		c.pieces, c.found = append(c.pieces, p), append(c.found, sheet)
	}
	if len(c.found) == 0 {
		return nil, &unit.Fault{Where: w.Job.File, What: "nothing says what was found", Hint: "--found AB=4510,BC=3005, or --found site.csv, or in the job, under the piece: found: [AB=4510, BC=3005]"}
	}
	if f.Where != "" { // the document says it too
		c.work.over.FoundOf = []int{c.pieces[0].Index}
		for _, t := range f.Tokens {
			c.work.over.Found = append(c.work.over.Found, t.Text)
		}
	}
	return c, nil
}

// named are the pieces that are meant.
func (w Work) named(f Findings) ([]Piece, error) {
	var all, fit []Piece
	var titles []string
	for _, p := range w.Pieces {
		if p.Other { // the other hand has the same lengths
			continue
		}
		all, titles = append(all, p), append(titles, p.Title())
		if p.Title() == f.Piece || p.Name == f.Piece {
			fit = append(fit, p)
		}
	}
	switch {
	case f.Piece != "" && len(fit) == 0:
		return nil, &unit.Fault{Where: f.PieceAt, What: fmt.Sprintf("the job has no piece %q", strict.Shorten(f.Piece)), Hint: strict.Suggest(f.Piece, titles)}
	case f.Piece != "" && len(fit) > 1 && fit[0].Picked:
		return nil, &unit.Fault{Where: f.PieceAt, What: fmt.Sprintf("%d pieces are called %q", len(fit), strict.Shorten(f.Piece)), Hint: "give each its own name"}
	case f.Piece != "":
		return fit[:1], nil
	case f.Where != "" && len(all) > 1 && all[0].Picked:
		return nil, &unit.Fault{Where: f.Where, What: fmt.Sprintf("the job has %d pieces, and it does not say which was found", len(all)), Hint: "--piece " + quotedName(titles[0]) + ", or give each its own found: in the job"}
	case f.Where != "":
		return all[:1], nil
	}
	return all, nil
}

// quotedName is a name as a shell takes it.
func quotedName(s string) string {
	if strings.ContainsAny(s, " \t'\"$&;()<>|*?#~!`\\") {
		return `"` + s + `"`
	}
	return s
}

// compare holds one piece against what was found of it.
func (w Work) compare(p Piece, tokens []job.Setting) (setout.Found, error) {
	ms, err := measurements(job.Piece{Measure: tokens}, w.bare)
	if err != nil {
		return setout.Found{}, err
	}
	a := survey.Asked{Found: ms, Tools: w.Site.Tools, Permitted: w.Site.Permitted}
	if p.Net != nil {
		for i, n := range p.Net.Names {
			a.Pegs = append(a.Pegs, survey.Stake{Name: n, At: p.Net.Points[i]})
		}
		a.Outline = p.Net.Outline
	} else {
		t := p.Triangle()
		for i, n := range t.Names {
			a.Pegs = append(a.Pegs, survey.Stake{Name: n, At: t.Points[i]})
		}
		a.Outline = t.Names[:]
	}
	a.Grain, a.Fine = setout.Grains(w.Figures)
	c, err := survey.Compare(a)
	if err != nil {
		return setout.Found{}, err
	}
	return setout.Found{Job: w.Title, Piece: p.Title(), Date: w.Job.Date, Printer: w.printerName(), Style: w.Figures,
		Comparison: c, Outline: a.Outline, Tools: a.Tools, Permitted: a.Permitted}, nil
}

// Passed says whether all that was found lies within its range.
func (c *Check) Passed() bool {
	return !slices.ContainsFunc(c.found, func(f setout.Found) bool { return !f.Comparison.Passed })
}

// Lay draws the sheets on the job's paper; PDF, SVG and Page need it before.
func (c *Check) Lay() error {
	if c.work.roll {
		return &unit.Fault{Where: c.work.Sheet.Name, What: "a check sheet goes into a file and wants a sheet, not a roll", Hint: "--paper A4 or A3"}
	}
	for i, f := range c.found {
		pages, err := f.Pages(c.work.Sheet, lettering.Go())
		if err != nil {
			return c.work.inPiece(c.pieces[i], err)
		}
		for k, p := range pages {
			name := fmt.Sprintf("check-%d.svg", k+1)
			if len(c.found) > 1 {
				name = fmt.Sprintf("%0*d-%s-%d.svg", len(fmt.Sprint(len(c.found))), i+1, fileName(f.Piece), k+1)
			}
			c.pages, c.names = append(c.pages, c.work.warped(p)), append(c.names, name)
		}
	}
	return nil
}

// Count of the pages that Lay made.
func (c *Check) Count() int { return len(c.pages) }

// Pages one after the other.
func (c *Check) Pages() iter.Seq[draw.Page] { return slices.Values(c.pages) }

func (c *Check) document() draw.Document {
	return draw.Document{Title: c.work.documentTitle(), Subject: "check of what was set out", Language: "en", Date: c.work.Job.Date, Pages: c.Pages()}
}

// PDF writes all pages as one file, and in it the job with what was found.
func (c *Check) PDF(out io.Writer) (err error) {
	d := c.document()
	if d.Attachment, err = c.work.attachment(); err != nil {
		return err
	}
	return pdf.Write(out, d)
}

// SVG writes one file a page, each through a writer that it is given with the
// file's name.
func (c *Check) SVG(file func(name string, write func(io.Writer) error) error) error {
	for i, p := range c.pages {
		if err := file(c.names[i], func(out io.Writer) error { return svg.Write(out, p, c.document()) }); err != nil {
			return err
		}
	}
	return nil
}

// OneSVG writes the only page.
func (c *Check) OneSVG(out io.Writer) error { return svg.Write(out, c.pages[0], c.document()) }

// Text writes the sheets as plain text for a phone.
func (c *Check) Text(out io.Writer) error {
	for i, f := range c.found {
		if i > 0 {
			if _, err := io.WriteString(out, "\n\n"); err != nil {
				return err
			}
		}
		if err := f.Text(out); err != nil {
			return err
		}
	}
	return nil
}

// CSV writes the sheets for other software, under one header line.
func (c *Check) CSV(out io.Writer) error {
	for i, f := range c.found {
		var b strings.Builder
		if err := f.CSV(&b); err != nil {
			return err
		}
		rows := b.String()
		if i > 0 {
			_, rows, _ = strings.Cut(rows, "\n")
		}
		if _, err := io.WriteString(out, rows); err != nil {
			return err
		}
	}
	return nil
}

// Summary says in a line what was made.
func (c *Check) Summary() string {
	words := "check sheet"
	if len(c.found) > 1 {
		words = plural(len(c.found), words)
	}
	if len(c.pages) > 0 {
		words += ", " + plural(len(c.pages), "page") + " of " + c.work.Sheet.Name
	}
	return words
}

// Tokens reads what --found says, where it is no file: measurements parted by
// commas. A comma inside a value stays there: AB=2,4m,BC=3m are two.
func Tokens(text, where string) []job.Setting {
	var all []job.Setting
	from := 0
	for i, r := range text {
		if r == ',' && begins(text[i+1:]) {
			all, from = append(all, job.Setting{Text: strings.TrimSpace(text[from:i]), Where: where}), i+1
		}
	}
	return append(all, job.Setting{Text: strings.TrimSpace(text[from:]), Where: where})
}

// begins says whether a measurement begins here: letters before an equals sign, or
// nothing that could belong to the value before.
func begins(text string) bool {
	what, _, ok := strings.Cut(text, "=")
	what = strings.TrimSpace(what)
	return ok && what != "" && !strings.ContainsAny(what, ",") && what[0] >= 'A' && what[0] <= 'z'
}
