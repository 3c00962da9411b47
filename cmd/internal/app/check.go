package app

import (
	"fmt"
	"math"
	numbers "math/big"
	"slices"
	"strings"
	"trammel/cmd/internal/report"

	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/compare"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/check"
	"trammel/plot/setout"
	"trammel/plot/sheet"
	"trammel/plot/words"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// Findings is what was measured back of a layout, by other means than the job.
type Findings struct {
	Tokens  []job.Setting
	Where   string      // the flag or the file, for messages; empty: the job's own found:
	Fixed   []geom.Name // pegs that are known to stand right
	FixedAt string
	Piece   string // its name; empty: the one there is, or each with its own found:
	PieceAt string
}

// checkSheets are what was pegged against what was asked, piece by piece.
type checkSheets struct {
	sheets[check.Sheet]
	asked  []*setout.Sheet // that each was set out by; nil where there is none
	silent []string        // pieces that nothing was found of
}

// makeCheck compares. Its errors are a *unit.Fault where words are wrong, and those of
// Picked and Sound.
func makeCheck(o Order) (*Document, error) {
	c, err := o.Work.check(o.Findings)
	if err != nil {
		return nil, err
	}
	for i := range c.all {
		c.all[i].Office = o.Office
	}
	d := c.document(c.summary, func() any { return c.report() })
	d.Said, d.Failed = c.words, !c.passed()
	return d, nil
}

func (w Work) check(f Findings) (*checkSheets, error) {
	pieces, err := f.of(w)
	if err != nil {
		return nil, err
	}
	if err := w.Sound(); err != nil {
		return nil, err
	}
	w = w.placedBy(func(int) []string { return nil })
	c := &checkSheets{sheets: sheets[check.Sheet]{work: w, stem: "check", subject: "check of what was set out", noRoll: "a check sheet goes into a file and wants a sheet, not a roll"}}
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
		fast, err := f.fixed(w.Job.Pieces[p.Index], p)
		if err != nil {
			return nil, err
		}
		sheet, by, err := w.compare(p, tokens, fast)
		if err != nil {
			return nil, w.InPiece(p, err)
		}
		c.of, c.all, c.asked = append(c.of, p), append(c.all, sheet), append(c.asked, by)
	}
	if len(c.all) == 0 {
		return nil, &unit.Fault{Where: w.Job.File, Subject: unit.Found, What: "nothing says what was found", Advice: unit.Advice{Code: unit.Nothing}}
	}
	if f.Where != "" { // the document says it too
		c.work.Carries.FoundOf, c.work.Carries.Piece.Found = c.of[0].Index+1, f.Tokens
	}
	if len(f.Fixed) > 0 {
		c.work.Carries.Piece.Fixed = f.Fixed
	}
	return c, nil
}

// fixed are the pegs of a piece that are known to stand right.
func (f Findings) fixed(j job.Piece, p solved.Piece) ([]geom.Name, error) {
	own, where := j.Fixed, j.FixedAt
	switch {
	case len(f.Fixed) > 0 && len(own) > 0:
		return nil, &unit.Fault{Where: f.FixedAt, What: "the job says as well which pegs are fixed: " + where, Hint: "leave one of the two out"}
	case len(f.Fixed) > 0:
		own, where = f.Fixed, f.FixedAt
	}
	const most = 12 // names in a hint
	var names []string
	for _, peg := range p.Pegs() {
		names = append(names, string(peg.Name))
	}
	for _, n := range own {
		if slices.Contains(names, string(n)) {
			continue
		}
		hint := "its pegs are " + strings.Join(names[:min(most, len(names))], ", ")
		if len(names) > most {
			hint += " …"
		}
		return nil, &unit.Fault{Where: where, What: fmt.Sprintf("%s is no peg of %s", n, p.Title()), Hint: hint}
	}
	return own, nil
}

// of are the pieces that are meant.
func (f Findings) of(w Work) ([]solved.Piece, error) {
	var all, fit []solved.Piece
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
		return nil, &unit.Fault{Where: f.Where, What: fmt.Sprintf("the job has %d pieces, and it does not say which was found", len(all)), Subject: unit.Found, Advice: unit.Advice{Code: unit.ManyPieces, Names: titles}}
	case f.Where != "":
		return all[:1], nil
	}
	return all, nil
}

// compare holds one piece against what was found of it, and gives the sheet that it was
// set out by.
func (w Work) compare(p solved.Piece, tokens []job.Setting, fast []geom.Name) (f check.Sheet, by *setout.Sheet, err error) {
	ms, err := w.ReadBack(tokens, w.Measured[p.Index])
	if err != nil {
		return f, nil, err
	}
	a := compare.Asked{Found: ms, Tools: w.Site.Tools, Permitted: w.Site.Permitted, Fixed: fast, Standard: w.Site.Standard, Conditions: w.Site.Conditions}
	if a.Open, err = solved.OpenLines(w.Work, p); err != nil {
		return f, nil, w.InPiece(p, err)
	}
	for _, peg := range p.Pegs() {
		a.Pegs = append(a.Pegs, compare.Stake{Name: peg.Name, At: peg.At})
		a.Outline = append(a.Outline, peg.Name)
	}
	if p.Net != nil {
		a.Outline = p.Net.Outline
	}
	a.Grain, a.Fine = check.Grains(w.Figures)
	title := p.Title()
	asked, no := w.asked(p)
	printed := false
	if sheet, no := w.sheet(p.Index, p); no == nil {
		by = &sheet
	}
	if levels := asked.Levels; len(levels) > 0 { // what was taped along the ground is judged level
		if a.Found, err = reduced(w, p.Pegs(), by, levels, ms); err != nil {
			return f, nil, err
		}
		title += " (lengths found on the ground, reduced to level)"
		a.Conditions, asked.Conditions, asked.Levels = nil, nil, nil
		var layout pegging.Layout
		if no == nil {
			layout, no = pegging.SetOut(asked)
		}
		if no == nil {
			printed = asPrinted(layout, &a)
		}
	} else if by != nil {
		printed = asPrinted(by.Layout, &a)
	}
	c, err := compare.Compare(a)
	if err != nil {
		return f, nil, err
	}
	return check.Sheet{Language: w.OnSite, TitleBlock: sheet.TitleBlock{Job: w.Title, Piece: title, Date: w.Job.Date}, Figures: tape.FiguresOf(w.Figures, w.Site.Tools.Instrument),
		Comparison: c, Outline: a.Outline,
		Ranges: words.Ranges{Tools: a.Tools, Permitted: a.Permitted, Pulled: len(a.Pulled) > 0, Printed: printed, Corrected: a.Conditions != nil}}, by, nil
}

// reduced is what was taped along the ground, as it would be level: by the tape's own
// corrections and the fall between its two pegs. Angles and what goes to no levelled
// peg stay as they are.
func reduced(w Work, pegs []pegging.Peg, by *setout.Sheet, levels []pegging.Level, ms []triangle.Measurement) ([]triangle.Measurement, error) {
	ground, err := pegging.GroundOf(pegs, levels)
	if err != nil {
		return nil, err
	}
	var of tape.Standard
	var c tape.Conditions
	if w.Site.Conditions != nil {
		of, c = w.Site.Standard, *w.Site.Conditions
	}
	out := slices.Clone(ms)
	for i, m := range ms {
		switch {
		case m.Kind == triangle.Angle:
			continue
		case m.Kind == triangle.Height:
			c.Fall = heightFall(pegs, ground, m)
		case by != nil:
			c.Fall = by.Fall(m.At[0], m.At[1]) // of its feet and middles as well
		default:
			c.Fall = ground.Fall(m.At[0], m.At[1])
		}
		level, _, err := of.Measured(m.Value.Length(), c)
		if err != nil {
			return nil, err
		}
		out[i].Value.Text = w.Figures.Length(level)
		out[i].Value.Value = new(numbers.Rat).SetFloat64(level.MM())
	}
	return out, nil
}

// heightFall is the fall from a corner to the foot of its height, the ground along the
// base taken as straight.
func heightFall(pegs []pegging.Peg, g pegging.Ground, m triangle.Measurement) unit.Length {
	var at [3]geom.Vector
	for i, n := range m.At {
		k := slices.IndexFunc(pegs, func(p pegging.Peg) bool { return p.Name == n })
		if k < 0 {
			return 0 // refused elsewhere
		}
		at[i] = geom.VectorOf(pegs[k].At)
	}
	base, up := at[2].Minus(at[1]), at[0].Minus(at[1])
	share := up.Dot(base) / base.Dot(base)
	from, to := g.At(m.At[1]), g.At(m.At[2])
	return unit.Length(math.Abs(float64(g.At(m.At[0]) - from - (to-from)*unit.Length(share))))
}

// asPrinted takes over what the piece's setting-out sheet says of its checks: their
// ranges, unless what is permitted rules, and the marks that they go to beside the
// corners. A piece that has no such sheet goes without.
func asPrinted(s pegging.Layout, a *compare.Asked) (printed bool) {
	for _, q := range s.Pulls {
		if q.Use.Whole() && q.Part != pegging.SecondWay {
			a.Pulled = append(a.Pulled, [2]geom.Name{q.Hold, q.To})
		}
	}
	back := geom.Placement{Turn: -s.Place.Turn}
	for _, c := range s.Checks {
		if !slices.ContainsFunc(a.Found, func(m triangle.Measurement) bool {
			return m.Kind == triangle.Distance && slices.Contains(m.Points(), c.From) && slices.Contains(m.Points(), c.To)
		}) {
			continue
		}
		for _, n := range []geom.Name{c.From, c.To} {
			peg, ok := s.Peg(n)
			if ok && !slices.ContainsFunc(a.Pegs, func(s compare.Stake) bool { return s.Name == n }) {
				a.Pegs = append(a.Pegs, compare.Stake{Name: n, At: back.Apply(peg.At.Minus(s.Place.Shift))})
			}
		}
		if a.Permitted == 0 {
			a.Ranges = append(a.Ranges, compare.Range{From: c.From, To: c.To, Least: c.Least, Greatest: c.Greatest})
		}
	}
	return len(a.Ranges) > 0
}

// passed says whether all that was found lies within its range.
func (c *checkSheets) passed() bool {
	return !slices.ContainsFunc(c.all, func(f check.Sheet) bool { return !f.Comparison.Passed })
}

func (c *checkSheets) summary() string { return c.made("check sheet") }

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

// report with the pages that lay drew.
func (c *checkSheets) report() report.CheckReport {
	r := report.CheckReport{Version: 1, Job: c.work.Title, Unit: c.work.Figures.Unit.String(), Date: c.work.Job.Date, Passed: c.passed(),
		Checks: []report.PieceCheck{}, Silent: append([]string{}, c.silent...), Pages: []report.PageReport{}}
	for i, f := range c.all {
		q := report.ReportCheck(f)
		if s := c.asked[i]; s != nil {
			q.Setout = report.ReportSetout(*s)
		}
		r.Checks = append(r.Checks, q)
	}
	paper, pages := c.laid()
	r.Sheet, r.Pages = paper, append(r.Pages, pages...)
	return r
}
