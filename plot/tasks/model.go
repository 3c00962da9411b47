package tasks

import (
	"strconv"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/panel"
)

// shows is the sheets of constructions.
type shows struct{ Set }

// ModelPages show every construction step by step, on paper that lies in the hand.
func (s Set) ModelPages(on paging.Sheet, r draw.Ruler) (all []draw.Page, err error) {
	if on.Width < 2*margin+panel.Hand.Broad || on.Height < 250 {
		return nil, tooSmall(on)
	}
	models, err := panel.Models(s.Language, panel.Hand, r)
	if err != nil {
		return nil, err
	}
	for _, m := range models {
		all = append(all, shows{s}.modelSheet(m, on, r)...)
	}
	return all, nil
}

const (
	between  unit.Length = 6 // panels
	sentence unit.Length = 5.6
)

// modelSheet sets the panels of one construction in two columns; one with a protractor goes
// across both.
func (s shows) modelSheet(m panel.Model, on paging.Sheet, r draw.Ruler) (all []draw.Page) {
	l := newLeaf(on, r)
	top := unit.Length(12)
	l.line(margin, top, margin+panel.Hand.Wide, top, rulePen)
	below := l.lines(m.Title, margin, top+9, panel.Hand.Wide, title)
	for _, g := range m.Given {
		l.words(g, margin, below+1, read)
		below += 6.5
	}
	// The title takes the place of a panel; what comes first stands beside it.
	y, column := top, 1
	row := below - top
	next := func() { y, column, row = y+row+between, 0, 0 }
	for _, p := range m.Panels {
		if p.Broad && column == 1 {
			next()
		}
		wide := panel.Hand.Wide
		if p.Broad {
			wide = panel.Hand.Broad
		}
		high := s.panelHeight(l, p, wide)
		if column == 0 && y+high > l.high-margin+4 {
			all = append(all, l.page(draw.Model, m.Title))
			l = newLeaf(on, r)
			y, row = top, 0
		}
		x := margin + unit.Length(column)*(panel.Hand.Wide+between)
		s.panelAt(l, p, x, y, wide)
		if row = max(row, high); p.Broad || column == 1 {
			next()
		} else {
			column = 1
		}
	}
	return append(all, l.page(draw.Model, m.Title))
}

// said are the lines below a panel.
func said(l *leaf, p panel.Panel, wide unit.Length, t style) []string {
	lines := l.broken(p.Say, wide, t)
	if p.Why != "" {
		lines = append(lines, l.broken(p.Why, wide, t)...)
	}
	return lines
}

func (s shows) panelHeight(l *leaf, p panel.Panel, wide unit.Length) unit.Length {
	high := 2 + p.High + 7 + sentence*unit.Length(len(said(l, p, wide-10, read))-1) + 2
	if p.FullSize {
		high += 4.5
	}
	return high
}

// panelAt draws a panel with its rule, number and sentence; x and y are its top left corner.
func (s shows) panelAt(l *leaf, p panel.Panel, x, y, wide unit.Length) {
	l.line(x, y, x+wide, y, 0.18)
	shift := geom.Placement{Shift: l.at(x, y+2+p.High)}
	for _, op := range p.Ops {
		l.add(draw.Move(op, shift))
	}
	base := y + 2 + p.High + 6
	l.add(draw.Arc{Arc: geom.Arc{Centre: l.at(x+3.4, base-draw.FigureHeight/2), Radius: 3.2, Sweep: unit.Turn}, Pen: draw.Wide, On: draw.Notes, Of: ornament})
	l.words(strconv.Itoa(p.Number), x+3.4, base, bold.to(draw.Middle))
	for _, line := range said(l, p, wide-10, read) {
		l.words(line, x+10, base, read)
		base += sentence
	}
	if p.FullSize {
		l.words(s.models().FullSize(), x+10, base, note)
	}
}

// wideScreen is the page of a projector, in mm.
var wideScreen = paging.Sheet{Name: "16:9", Width: 320, Height: 180}

// ScreenPages show the same, one step a page of 16:9.
func (s Set) ScreenPages(r draw.Ruler) (all []draw.Page, err error) {
	models, err := panel.Models(s.Language, panel.Screen, r)
	if err != nil {
		return nil, err
	}
	for _, m := range models {
		for _, p := range m.Panels {
			l := newLeaf(wideScreen, r)
			l.words(m.Title, margin, 15, style{height: draw.CornerHeight, bold: true})
			large := style{height: panel.Screen.Letters}
			lines := said(l, p, l.wide-2*margin-16, large)
			for len(lines) > 4 && large.height > draw.TitleHeight {
				large.height -= 0.25
				lines = said(l, p, l.wide-2*margin-16, large)
			}
			step := large.height * 1.55
			base := l.high - 7 - step*unit.Length(len(lines)-1)
			shift := geom.Placement{Shift: geom.Point{X: (l.wide - p.Wide) / 2, Y: l.high - 20 - p.High}}
			for _, op := range p.Ops {
				l.add(draw.Move(op, shift))
			}
			l.add(draw.Arc{Arc: geom.Arc{Centre: l.at(margin+6, base-large.height/2), Radius: 6, Sweep: unit.Turn}, Pen: draw.Pen{Width: 1.2}, On: draw.Notes, Of: ornament})
			l.words(strconv.Itoa(p.Number), margin+6, base, style{height: large.height, bold: true, align: draw.Middle})
			for i, line := range lines {
				l.words(line, margin+16, base+step*unit.Length(i), large)
			}
			all = append(all, l.page(draw.Model, m.Title))
		}
	}
	return all, nil
}
