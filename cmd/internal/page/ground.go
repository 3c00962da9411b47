package page

import (
	"fmt"
	"math"
	"slices"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/report"
	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/slip"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/screen"
	"trammel/plot/setout"
	"trammel/plot/words"
	"trammel/profiles/job"
)

// setout is the setting-out sheet of each piece, a step a screen.
func (q question) setout() (r Reply, _ []byte, err error) {
	w, err := settled(q)
	if err != nil {
		return r, nil, err
	}
	for i, p := range w.Pieces {
		if p.Other || !q.wanted(p.Index) {
			continue
		}
		s, err := w.SetOut(i)
		if err != nil {
			return r, nil, err
		}
		r.Setouts = append(r.Setouts, groundOf(q, p.Index, s))
	}
	r.Warnings = w.Warnings()
	return r, nil, nil
}

// settled is the work, refused where nothing may be set out of it.
func settled(q question) (app.Work, error) {
	w, err := q.work()
	if err == nil {
		err = w.Picked()
	}
	if err == nil {
		err = w.Sound()
	}
	return w, err
}

func groundOf(q question, piece int, s setout.Sheet) Setout {
	g := Setout{Piece: piece, Title: s.Piece, Baseline: string(s.Baseline.From + s.Baseline.To), Bring: s.Bring, Cautions: s.Cautions, Doubts: append([]string{}, s.Doubts...), Report: report.ReportSetout(s), Warnings: s.Says().Flat(), Steps: []Ground{}}
	plan := planOf(s)
	of := s.Says().Pulled()
	for i, say := range s.Steps {
		step := Ground{Says: say, Pull: of[i]}
		if k := slices.IndexFunc(s.Pulls, func(p pegging.Pull) bool { return p.Number == of[i] }); k >= 0 && of[i] > 0 {
			p := s.Pulls[k]
			step.From, step.To, step.Reads, step.Reading = string(p.Hold), string(p.To), s.Figure(p.Reads), p.Reads.MM()
			if p.Use == pegging.ForAngle {
				step.Reads, step.Reading, step.Angle = s.Style.Angle(p.Angle), p.Angle.Degrees(), true
			}
			step.Picture = screen.Pull(plan, p.Hold, p.To, widthOf(q))
		}
		g.Steps = append(g.Steps, step)
	}
	for _, c := range s.SiteChecks() {
		reads, good := s.CheckWords(c)
		g.Steps = append(g.Steps, Ground{Says: reads + ", " + good, Check: c.Number, From: string(c.From), To: string(c.To), Reads: s.Figure(c.Reads), Reading: c.Reads.MM(), Least: c.Least.MM(), Most: c.Greatest.MM(),
			Token: string(c.From+c.To) + "=", Picture: screen.Pull(plan, c.From, c.To, widthOf(q))})
	}
	return g
}

// planOf are the pegs of a sheet, and the lines of its work.
func planOf(s setout.Sheet) screen.Pegs {
	p := screen.Pegs{Base: s.Ends()}
	for _, m := range s.Pegs {
		p.Names, p.At = append(p.Names, m.Name), append(p.At, m.At)
	}
	for i, a := range s.Outline {
		p.Lines = append(p.Lines, [2]geom.Name{a, s.Outline[(i+1)%len(s.Outline)]})
	}
	return p
}

// judge holds one reading against the range of its check: words fit for how far it is off.
func (q question) judge() (r Reply, _ []byte, err error) {
	w, err := settled(q)
	if err != nil {
		return r, nil, err
	}
	for i, p := range w.Pieces {
		if p.Other || !q.wanted(p.Index) {
			continue
		}
		s, err := w.SetOut(i)
		if err != nil {
			return r, nil, err
		}
		all := s.SiteChecks()
		k := slices.IndexFunc(all, func(c pegging.Check) bool { return c.Number == q.Check })
		if k < 0 {
			return r, nil, &unit.Fault{Where: "ask:/check", What: fmt.Sprintf("there is no check %d", q.Check)}
		}
		found, err := w.ReadBack(readingsOf(q), w.Measured[p.Index])
		if err != nil || len(found) != 1 {
			return r, nil, err
		}
		r.Judged = judged(s, all[k], found[0])
		return r, nil, nil
	}
	return r, nil, &unit.Fault{Where: "ask:/piece", What: "there is no such piece"}
}

// readings are the words of what was found.
func readingsOf(q question) (all []job.Setting) {
	for i, t := range q.Found {
		all = append(all, job.Setting{Text: t, Where: fmt.Sprintf("ask:/found/%d", i)})
	}
	return all
}

const (
	// farTimes the range that is accepted, and at least so much, no pull explains any more.
	farTimes             = 10
	farLeast unit.Length = 50
)

func judged(s setout.Sheet, c pegging.Check, m triangle.Measurement) *Judged {
	reads := m.Value.Length()
	off := reads - c.Reads
	over := max(reads-c.Greatest, c.Least-reads)
	t := words.Read{Good: over <= 0, Off: s.Style.LengthUnit(max(off, -off)), Short: off < 0, To: string(c.To), Style: s.Style}
	half := max(c.Greatest-c.Reads, c.Reads-c.Least)
	t.Far = unit.Length(math.Abs(float64(off))) > max(farTimes*half, farLeast)
	if t.Far {
		t.Slips = slip.Explain(m, c.Reads.MM(), half.MM()/2)
	}
	return &Judged{Good: t.Good, Says: s.Judges().Reading(t), Off: off.MM()}
}

// check holds all that was found against what was asked.
func (q question) check() (r Reply, _ []byte, err error) {
	w, err := q.work()
	if err != nil {
		return r, nil, err
	}
	f := findingsOf(q)
	if q.Piece != nil {
		for _, p := range w.Pieces {
			if p.Index == *q.Piece {
				f.Piece, f.PieceAt = p.Title(), "ask:/piece"
			}
		}
	}
	all, err := w.Compared(f)
	if err != nil {
		return r, nil, err
	}
	passed := true
	for _, f := range all {
		c := Check{Piece: f.Piece, Title: f.Title, Passed: f.Passed, Verdict: f.Verdict, Advice: f.Advice, Readings: []Reading{}}
		passed = passed && f.Passed
		for _, x := range f.Readings {
			c.Readings = append(c.Readings, Reading{Token: x.Token, Says: x.Says, Inside: x.Inside, Off: x.Off})
		}
		r.Checks = append(r.Checks, c)
	}
	r.Passed, r.Warnings = &passed, w.Warnings()
	return r, nil, nil
}

// findings is what was measured back, as the ask says it; without any the job's own.
func findingsOf(q question) app.Findings {
	f := app.Findings{Tokens: readingsOf(q)}
	if len(f.Tokens) > 0 {
		f.Where = "ask:/found"
	}
	for _, n := range q.Fixed {
		f.Fixed, f.FixedAt = append(f.Fixed, geom.Name(n)), "ask:/fixed"
	}
	return f
}
