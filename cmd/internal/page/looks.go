package page

import (
	"encoding/json"
	"math"
	"slices"
	"strings"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/report"
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/net"
	"trammel/geom/slip"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
	"trammel/profiles/job"
)

// solve knows each piece of the job. Where one of them is wrong the others are known all
// the same; the reply has the first fault.
func (q question) solve() (Reply, []byte, error) {
	r, _, err := q.solved()
	return r, nil, err
}

// look is solve, and the sheets where all is sound.
func (q question) look() (Reply, []byte, error) {
	r, w, err := q.solved()
	if err == nil && r.Fault == nil {
		err = onSheets(q, &r, w)
	}
	return r, nil, err
}

func (q question) solved() (r Reply, w app.Work, err error) {
	j, err := q.job()
	if err != nil {
		r.Looks = begun(q)
		return r, w, err
	}
	if w, err = q.workOf(j); err == nil {
		r.Looks, r.Warnings = looksOf(q, w, report.Of(w.Work)), w.Warnings()
		return r, w, nil
	}
	first := err
	for i := range j.Pieces {
		one := j
		one.Pieces = j.Pieces[i : i+1]
		w, err := q.workOf(one)
		if err != nil {
			r.Looks = append(r.Looks, roughly(q, one, i, err)...)
			continue
		}
		for _, l := range looksOf(q, w, report.Of(w.Work)) {
			l.Piece = i
			r.Looks = append(r.Looks, l)
		}
	}
	return r, w, first
}

// begun are the looks of a job in which pieces are that nothing is measured of yet: each is
// sketched, and the others are solved without them.
func begun(q question) (all []Look) {
	pieces := q.pieces()
	var others []int
	var rest []json.RawMessage
	for i, p := range pieces {
		if !p.empty() {
			others, rest = append(others, i), append(rest, p.text)
			continue
		}
		l := unknown(i, p.Name, Missing)
		l.Outline = append(l.Outline, p.Outline...)
		outline, err := job.ParseOutline(strings.Join(p.Outline, ","))
		if err != nil { // it is refused when the piece is measured
			outline = nil
		}
		l.Picture = sketched(q, nil, outline, unit.Style{})
		all = append(all, l)
	}
	if len(others) == len(pieces) {
		return nil
	}
	var whole map[string]json.RawMessage
	if len(rest) > 0 && json.Unmarshal(q.Job, &whole) == nil {
		whole["pieces"], _ = json.Marshal(rest)
		q.Job, _ = json.Marshal(whole)
		known, _, _ := q.solved() // of what is wrong with them too it is said when all is measured
		for _, l := range known.Looks {
			l.Piece = others[l.Piece]
			all = append(all, l)
		}
	}
	slices.SortStableFunc(all, func(a, b Look) int { return a.Piece - b.Piece })
	return all
}

// looks are the pieces of the work.
func looksOf(q question, w app.Work, r report.Report) (all []Look) {
	for i, p := range w.Pieces {
		if p.Other {
			continue
		}
		l := Look{Piece: p.Index, Title: p.Title(), Answer: p.Answer + 1, Answers: max(1, len(p.Solution.Answers)), Picked: p.Picked, Choose: map[string]any{},
			Suspects: suspects(w, p), Warnings: append([]string{}, p.Cares()...), Figures: figures(w, r.Pieces[i]), Points: []string{}, Outline: geom.Texts(p.Outline().Names), Report: &r.Pieces[i]}
		if p.Several != nil {
			l.Answers = len(p.Several.Answers)
			l.Choose["side"] = solved.SideTexts(p.Net.Mine)
		} else if l.Answers > 1 {
			l.Choose["pick"] = [...]string{"1", "2"}[min(p.Answer, 1)]
		}
		for _, peg := range p.Pegs() {
			l.Points = append(l.Points, string(peg.Name))
		}
		slices.SortFunc(l.Points, func(a, b string) int { return geom.Before(geom.Name(a), geom.Name(b)) })
		l.Measures = measures(w, p, r.Pieces[i], l.Suspects)
		l.Verdict, l.Says = verdict(w, p, l)
		l.Picture = pictureOf(q, w, p, l.Suspects)
		all = append(all, l)
	}
	return all
}

// verdict on a piece: never sound beside a doubt.
func verdict(w app.Work, p solved.Piece, l Look) (kind, says string) {
	v := w.Words().Verdicts()
	if !p.Picked {
		more := p.Several != nil && p.Several.More
		return Two, v.Several(l.Answers, more)
	}
	a, checked := p.Checked()
	switch {
	case len(l.Suspects) > 0:
		var of []string
		for _, s := range l.Suspects {
			if s.Marked {
				of = append(of, s.Of)
			}
		}
		return Doubt, v.Doubt(of)
	case checked && !solved.Agrees(a), len(p.Warnings) > 0:
		return Doubt, v.Doubt(nil)
	}
	return Fits, v.Fits(checked && a.Freedom > 0)
}

// suspects are the measurements that may hold a slip, the likeliest first.
func suspects(w app.Work, p solved.Piece) []Suspect {
	all := []Suspect{}
	a, ok := p.Checked()
	if !ok {
		return all
	}
	critical := net.CriticalOf(len(a.Results))
	for i, s := range a.Suspects {
		m := a.Results[s.Index].Measurement
		t := Suspect{Measure: s.Index, Of: m.Subject(), Says: w.Words().Nets().Suspect(a, s, w.Figures).Sentence(), Likely: []string{}, Certain: i == 0 && math.Abs(s.W) >= critical, Alike: s.Alike}
		for _, x := range s.Slips {
			if token := meant(m, x); token != "" && !slices.Contains(t.Likely, token) {
				t.Likely = append(t.Likely, token)
			}
		}
		t.Marked = i == 0 || s.Alike && len(t.Likely) > 0 && len(all[0].Likely) > 0
		all = append(all, t)
	}
	return all
}

// meant is the measurement as it would be without the slip, written as it was.
func meant(m triangle.Measurement, x slip.Slip) string {
	value := x.Text
	switch {
	case value != "":
	case m.Kind == triangle.Angle:
		value = unit.Decimals(x.True.Angle.Degrees(), 2) + "deg"
	case m.Value.Unit >= unit.IN:
		value = unit.Style{Unit: m.Value.Unit, Denominator: 16}.LengthUnit(x.True.Length)
	default:
		value = strings.NewReplacer("\u2009", "", " ", "").Replace(unit.Style{Unit: m.Value.Unit, Decimals: 5}.LengthUnit(x.True.Length))
		if !strings.ContainsAny(m.Value.Text, "cm") { // a bare number stays one
			value = strings.TrimSuffix(value, m.Value.Unit.String())
		}
	}
	token := m.Subject() + "=" + value
	if n, err := triangle.ParseMeasurement(token, m.Value.Unit); err != nil || math.Abs(adjust.ReadingOf(n)-x.True.Bare(m.Kind)) > 0.5 {
		return ""
	}
	return token
}

// measures are what was measured of a piece, beside what it comes to.
func measures(w app.Work, p solved.Piece, r report.PieceReport, doubts []Suspect) []Measure {
	all := []Measure{}
	doubtful := map[int]bool{}
	for _, s := range doubts {
		doubtful[s.Measure] = s.Marked
	}
	for i, m := range p.Solution.Measured {
		k := Measure{Token: m.Text, Of: m.Subject(), Kind: report.Kinds[m.Kind], Figure: m.Value.Text, Suspect: doubtful[i]}
		if i < len(r.Measured) {
			k.Off = r.Measured[i].Residual
		}
		if m.Kind == triangle.Angle {
			k.Comes = w.Figures.Angle(m.Value.Angle() + unit.Angle(k.Off)*unit.Degree)
		} else {
			k.Comes = w.Figures.Length(m.Value.Length() + unit.Length(k.Off))
		}
		all = append(all, k)
	}
	return all
}

// figures are lengths and angles of a piece by their names, as people read them.
func figures(w app.Work, r report.PieceReport) map[string]string {
	all := map[string]string{}
	for name, l := range r.Sides {
		all[name] = w.Figures.Length(unit.Length(l))
	}
	for name, a := range r.Angles {
		all[name] = w.Figures.Angle(unit.Angle(a) * unit.Degree)
	}
	return all
}

// rough is what can be shown of one piece of which something is missing or wrong.
func roughly(q question, j job.Job, piece int, err error) []Look {
	f := q.fault(err)
	if f.Kind == Broken || len(j.Pieces) == 0 {
		return nil
	}
	l := unknown(piece, j.Pieces[0].Name, f.Kind)
	if f.Kind == Words { // what can be read is drawn all the same
		l.Says, j = f.What, readable(j)
	}
	l.Outline = geom.Texts(j.Pieces[0].Outline)
	l.Warnings = append(l.Warnings, f.What)
	m, err := q.merged(j)
	if err != nil {
		return nil
	}
	for _, t := range m.Measured[0] {
		l.Measures = append(l.Measures, Measure{Token: t.Text, Of: t.Subject(), Kind: report.Kinds[t.Kind], Figure: t.Value.Text})
		for _, n := range t.Points() {
			if !slices.Contains(l.Points, string(n)) {
				l.Points = append(l.Points, string(n))
			}
		}
	}
	slices.SortFunc(l.Points, func(a, b string) int { return geom.Before(geom.Name(a), geom.Name(b)) })
	l.Picture = sketched(q, m.Measured[0], j.Pieces[0].Outline, m.Figures)
	return []Look{l}
}

// readable is a job of one piece with the measurements that can be read, in whatever unit.
func readable(j job.Job) job.Job {
	p := j.Pieces[0]
	p.Measure = slices.DeleteFunc(slices.Clone(p.Measure), func(s job.Setting) bool {
		_, err := triangle.ParseMeasurement(s.Text, unit.MM)
		return err != nil
	})
	j.Pieces = []job.Piece{p}
	return j
}

// unknown is a look of which nothing is known but why: something is missing, or nothing fits.
func unknown(piece int, title, why string) Look {
	v := words.In(nil).Verdicts()
	l := Look{Piece: piece, Title: title, Verdict: None, Says: v.None(), Picked: true, Choose: map[string]any{}, Suspects: []Suspect{}, Warnings: []string{}, Measures: []Measure{}, Figures: map[string]string{}, Points: []string{}, Outline: []string{}}
	if why == Missing {
		l.Verdict, l.Says = Missing, v.Missing()
	}
	return l
}
