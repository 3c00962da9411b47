package setout

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/unit"
)

// CSV writes the sheet for other software: RFC 4180, UTF-8, lines ended by CRLF,
// one header line, a decimal point, nothing but millimetres to 0.001.
//
//	kind            baseline, along, arc, square, height, angle, ray, middle: a pull of the tape
//	                peg: where a peg stands
//	                check:height, check:foot, check:median, check:middles, check:side, check:diagonal
//	                level: of a peg or a mark; the note says where it is assumed
//	                crossing: of two arcs that are swung at a corner, its angle in angle_deg
//	                way: the most a peg is off, 95 %; the baseline in from and to
//	                sure:measured, sure:setout, sure:both: 95 % figures of a peg
//	                permitted: what it may be off; inside or outside in the note
//	                mark: on the edge from … to, value_mm from its first end
//	                nail: in a profile board, on the line from … to, value_mm beyond a corner
//	                string: from nail to nail; its crossings are rows of the kind crosses
//	                sheet: job and piece in the note; doubt: what is doubtful in what was measured
//	from, to        the mark that holds the tape's zero and the mark that is read
//	                (peg: the zero end of the baseline and the peg)
//	value_mm        the exact length, true
//	accept_from_mm  the accept range: of a check as printed, of a pull
//	accept_to_mm    as its own limit allows, both as the tape reads
//	along_mm        of a peg, mark or nail: running distance from the zero end
//	offset_mm       of the same: square to the baseline
//	note            what it is; measured, computed or chosen; main or second way
//	side            of an offset or an angle: left or right, looking from the zero end
//	angle_deg       of an angle
//	reads_mm        what the tape shows, where it is corrected
//	sigma_along_mm  of sure:both: σ along the baseline
//	sigma_across_mm and across it
func (s Sheet) CSV(out io.Writer) error {
	rows := [][]string{{"kind", "from", "to", "value_mm", "accept_from_mm", "accept_to_mm", "along_mm", "offset_mm", "note", "side", "angle_deg", "reads_mm", "sigma_along_mm", "sigma_across_mm"}}
	for _, r := range s.rows() {
		rows = append(rows, []string{r.kind, string(r.from), string(r.to), r.value, r.least, r.most, r.along, r.offset, r.note, r.side, r.angle, r.reads, r.sigmaAlong, r.sigmaAcross})
	}
	return write(out, rows)
}

func write(out io.Writer, rows [][]string) error {
	w := csv.NewWriter(out)
	w.UseCRLF = true
	return w.WriteAll(rows)
}

// row of the CSV; what is empty says nothing.
type row struct {
	kind                                        string
	from, to                                    geom.Name
	value, least, most, along, offset, note     string
	side, angle, reads, sigmaAlong, sigmaAcross string
}

// mm to the thousandth; nothing is written as minus zero.
func mm(l unit.Length) string {
	return strings.Replace(strconv.FormatFloat(l.MM(), 'f', 3, 64), "-0.000", "0.000", 1)
}

func degrees(a unit.Angle) string { return strconv.FormatFloat(a.Degrees(), 'f', 4, 64) }

func (s Sheet) rows() (rows []row) {
	add := func(r row) { rows = append(rows, r) }
	add(row{kind: "sheet", note: s.Title()})
	for _, d := range s.Doubts {
		add(row{kind: "doubt", note: d})
	}
	from := s.Baseline.From
	if s.Falls {
		for _, p := range s.Pegs {
			note := ""
			if p.Role != pegging.Corner || slices.Contains(s.Ground.Assumed, p.Name) {
				note = "assumed"
			}
			add(row{kind: "level", to: p.Name, value: mm(s.Level(p.Name)), note: note})
		}
	}
	for _, p := range slices.Concat(s.Main, s.Second) {
		if p.Method != pegging.TwoArcs {
			continue
		}
		add(row{kind: "crossing", from: p.Base[0], to: p.Base[1], angle: degrees(p.Crossing.Angle), note: fmt.Sprintf("at %s; sound: %t", p.Peg, p.Crossing.Sound)})
	}
	for _, p := range s.Pegs {
		add(row{kind: "peg", from: from, to: p.Name, along: mm(p.Along), offset: mm(p.Offset), side: p.Side.String(), note: s.Says().Peg(p)})
	}
	for _, p := range s.Pulls {
		add(s.pullRow(p))
	}
	for _, c := range s.Checks {
		r := row{kind: "check:" + string(c.Kind), from: c.From, to: c.To, value: mm(c.Value), least: mm(c.Least), most: mm(c.Greatest), note: s.Says().Check(c)}
		if s.Corrected {
			r.reads = mm(c.Reads)
		}
		add(r)
	}
	for i, x := range s.Ranking.Best {
		note := fmt.Sprintf("%s; worst at %s; %.2f times the best", s.Says().Way(x.Method), x.Pegs[x.Worst].Name, x.Times)
		if i == s.Ranking.Used {
			note += "; used"
		}
		add(row{kind: "way", from: x.Base[0], to: x.Base[1], value: mm(x.Figure), note: note})
	}
	for _, x := range s.Sure {
		add(row{kind: "sure:measured", to: x.Peg, value: mm(x.Measured)})
		add(row{kind: "sure:setout", to: x.Peg, value: mm(x.SetOut)})
		add(row{kind: "sure:both", to: x.Peg, value: mm(x.Both), sigmaAlong: mm(x.Along), sigmaAcross: mm(x.Across)})
		if s.Permitted > 0 {
			add(row{kind: "permitted", to: x.Peg, value: mm(x.Permitted), note: s.Says().Inside(x)})
		}
	}
	return append(rows, s.groundRows()...)
}

func (s Sheet) pullRow(p pegging.Pull) row {
	r := row{kind: string(p.Use), from: p.Hold, to: p.To, note: s.Says().Source(p)}
	if p.Part != "" {
		r.note += "; " + string(p.Part)
	}
	if p.Use == pegging.ForAngle {
		r.angle, r.side = degrees(p.Angle), p.Side.String()
	} else {
		r.value, r.least, r.most = mm(p.Length), mm(p.Reads-p.Limit), mm(p.Reads+p.Limit)
		if s.Corrected {
			r.reads = mm(p.Reads)
		}
		if p.Aside > 0 {
			r.note += fmt.Sprintf("; then %s aside towards %s", mm(p.Aside), p.Toward)
		}
		if p.Behind {
			r.note += "; behind " + string(p.Hold)
		}
	}
	return r
}

// groundRows are the marks along the edges, the nails and the strings.
func (s Sheet) groundRows() (rows []row) {
	over := func(l, fall unit.Length) string {
		if !s.Corrected {
			return ""
		}
		r, _ := s.Reads(l, fall)
		return mm(r)
	}
	reads := func(l unit.Length) string { return over(l, 0) }
	for _, m := range s.Marks {
		fall, _, _ := s.EdgeFalls(m)
		rows = append(rows, row{kind: "mark", from: m.Edge[0], to: m.Edge[1], value: mm(m.At), reads: over(m.At, fall), along: mm(m.Along), offset: mm(m.Offset), side: m.Side.String()})
	}
	for _, n := range s.Nails {
		rows = append(rows, row{kind: "nail", from: n.Edge[0], to: n.Edge[1], value: mm(n.Past), reads: reads(n.Past), along: mm(n.Along), offset: mm(n.Offset), side: n.Side.String(), note: "beyond " + string(n.Beyond)})
	}
	for _, x := range s.Strings {
		rows = append(rows, row{kind: "string", from: x.Edge[0], to: x.Edge[1], value: mm(x.Length), reads: reads(x.Length)})
		for i, with := range x.With {
			rows = append(rows, row{kind: "crosses", from: x.Edge[0], to: x.Edge[1], value: mm(x.Corners[i]), reads: reads(x.Corners[i]), note: edge(with)})
		}
	}
	return rows
}
