package setout

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"trammel/geom/unit"
)

// CSV writes the sheet for other software: RFC 4180, UTF-8, lines ended by CRLF,
// one header line, a decimal point, nothing but millimetres to 0.001.
//
//	kind            baseline, along, arc, square, height, middle: a pull of the tape
//	                peg: where a peg stands
//	                check:height, check:foot, check:median, check:middles, check:side
//	                crossing: value in degrees in the note, no length
//	                sheet: job and piece in the note
//	from, to        the mark that holds the tape's zero and the mark that is read
//	                (peg: the zero end of the baseline and the peg)
//	value_mm        the exact length
//	accept_from_mm  the accept range: of a check as printed, of a pull
//	accept_to_mm    as its own limit allows
//	along_mm        of a peg: running distance from the zero end
//	offset_mm       of a peg: square to the baseline, on the apex's side
//	note            what it is; measured, computed or chosen; main or second way
func (s Sheet) CSV(out io.Writer) error {
	w := csv.NewWriter(out)
	w.UseCRLF = true
	mm := func(l unit.Length) string { return strconv.FormatFloat(l.MM()+0, 'f', 3, 64) }
	rows := [][]string{{"kind", "from", "to", "value_mm", "accept_from_mm", "accept_to_mm", "along_mm", "offset_mm", "note"}}
	add := func(kind, from, to, value, least, most, along, offset, note string) {
		rows = append(rows, []string{kind, from, to, value, least, most, along, offset, note})
	}
	add("sheet", "", "", "", "", "", "", "", s.title())
	add("crossing", string(s.Baseline.From), string(s.Baseline.To), "", "", "", "", "", fmt.Sprintf("%s degrees at %s; sound: %t", strconv.FormatFloat(s.Crossing.Angle.Degrees(), 'f', 4, 64), s.Crossing.At, s.Crossing.Sound))
	for _, p := range s.Pegs {
		add("peg", string(s.Baseline.From), string(p.Name), "", "", "", mm(p.Along), mm(p.Offset), p.Note)
	}
	pulls := func(of []Pull, note string) {
		for _, p := range of {
			how := p.origin()
			if note != "" {
				how += "; " + note
			}
			add(string(p.Use), string(p.Hold), string(p.To), mm(p.Length), mm(p.Length-p.Limit), mm(p.Length+p.Limit), "", "", how)
		}
	}
	pulls(s.Pulls, "")
	pulls(s.Ways[0].Pulls, "main way")
	pulls(s.Middles, "for the checks")
	pulls(s.Ways[1].Pulls, "second way")
	for _, c := range s.Checks {
		add("check:"+string(c.Kind), string(c.From), string(c.To), mm(c.Value), mm(c.Least), mm(c.Greatest), "", "", c.Note)
	}
	if err := w.WriteAll(rows); err != nil {
		return err
	}
	return w.Error()
}

// origin says where a pull's length comes from.
func (p Pull) origin() string {
	switch {
	case p.Measured:
		return "measured"
	case p.Use == ForLeg:
		return "chosen"
	}
	return "computed"
}

// title is job and piece.
func (s Sheet) title() string {
	switch {
	case s.Job == "":
		return s.Piece
	case s.Piece == "":
		return s.Job
	}
	return s.Job + ": " + s.Piece
}
