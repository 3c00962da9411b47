package page

import (
	"cmp"

	"trammel/cmd/internal/app"
	"trammel/geom/unit"
	"trammel/plot/screen"
)

// pages are where the sheets of a template lie.
func (q question) pages() (r Reply, _ []byte, err error) {
	w, err := q.work()
	if err == nil {
		err = onSheets(q, &r, w)
	}
	return r, nil, err
}

func onSheets(q question, r *Reply, w app.Work) error {
	m, err := w.Sheets()
	if err != nil {
		return err
	}
	s := &Sheets{Paper: m.Sheet.Name, Printer: w.Printer.Name, Count: m.Count, Pieces: []Laid{}, Summary: m.Summary, Otherwise: []Fewer{}, Size: [2]float64{m.Sheet.Width.MM(), m.Sheet.Height.MM()}}
	for _, p := range m.Pieces {
		l := Laid{Piece: w.Pieces[p.Piece].Index, Title: w.Pieces[p.Piece].Title(), Pages: p.Pages, Rows: p.Rows, Columns: p.Cols, Turn: p.Turn.Degrees(), Cells: []Cell{}}
		var sheets []screen.Sheet
		for i, at := range p.Windows {
			c := Cell{Label: p.Labels[i]}
			for k, corner := range at {
				c.Corners[k] = [2]float64{hundredth(corner.X), hundredth(corner.Y)}
			}
			l.Cells = append(l.Cells, c)
			sheets = append(sheets, screen.Sheet{Label: c.Label, Corners: at})
		}
		if len(sheets) > 0 {
			l.Picture = screen.Map(w.Pieces[p.Piece].Construction, sheets, widthOf(q))
		}
		s.Pieces = append(s.Pieces, l)
	}
	for _, o := range m.Otherwise {
		f := Fewer{Pages: o.Pages, Says: o.Says(w.Says)}
		switch o.Of {
		case "":
			f.What = "setout"
		case unit.Cover:
			f.Set = map[string]any{"made_with": map[string]any{"pages": o.Value}}
		default:
			f.Set = map[string]any{string(o.Of): o.Value}
		}
		s.Otherwise = append(s.Otherwise, f)
	}
	r.Sheets, r.Summary = s, m.Summary
	if r.Warnings == nil {
		r.Warnings = w.Warnings()
	}
	return nil
}

// hundredth is a length to 0.01 mm: a map is for looking.
func hundredth(l unit.Length) float64 {
	return cmp.Or(float64(int64(l.MM()*100))/100, 0)
}
