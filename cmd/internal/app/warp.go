package app

import (
	"fmt"

	"trammel/geom"
	"trammel/plot/calibrate"
	"trammel/plot/draw"
	"trammel/profiles"
)

// madeFor is the printer that pages are made for; without a calibration, any.
type madeFor struct {
	calibration *profiles.Calibration
	distortion  geom.Distortion // of a page as it lies in the file
}

// calibrated takes a printer's calibration into the work: what pages are warped by,
// and margins so wide that nothing of a warped window leaves what the printer
// reaches. (Of a roll, for the longest page: what is shorter spreads less.)
func (w *Work) calibrated(c *profiles.Calibration) {
	if c == nil {
		return
	}
	d := distortion(c.Found)
	s := &w.Sheet
	if (s.Width > s.Height) != (c.Width > c.Height) && s.Width != s.Height {
		d = d.Turned() // the page goes through the printer on its side
	}
	w.madeFor = madeFor{c, d}
	window := geom.Rect{Min: geom.Point{X: s.Left, Y: s.Bottom}, Max: geom.Point{X: s.Width - s.Right, Y: s.Height - s.Top}}
	l, t, r, b := calibrate.Spread(calibrate.Warp(d, s.Width, s.Height), window)
	s.Left, s.Top, s.Right, s.Bottom = s.Left+l, s.Top+t, s.Right+r, s.Bottom+b
}

// printerName is the printer that pages are made for, empty where they are made
// for any.
func (w Work) printerName() string {
	if w.madeFor.calibration == nil {
		return ""
	}
	return w.madeFor.calibration.Printer
}

// warped makes pages ready for the printer.
func (w Work) warped(p draw.Page) draw.Page {
	if w.madeFor.calibration == nil {
		return p
	}
	return p.Warped(calibrate.Warp(w.madeFor.distortion, p.Width, p.Height))
}

// otherPaper warns where the printer was calibrated with another paper.
func (w Work) otherPaper() []string {
	c := w.madeFor.calibration
	if c == nil {
		return nil
	}
	s := w.Sheet
	if min(s.Width, s.Height) == min(c.Width, c.Height) && max(s.Width, s.Height) == max(c.Width, c.Height) {
		return nil
	}
	return []string{fmt.Sprintf("%s was calibrated with %s, and %s may come out otherwise: calibrate it for that paper under a name of its own", c.Printer, c.Paper, s.Name)}
}

// distortion and misprint are the same thing as geometry and as a profile.
func distortion(m profiles.Misprint) geom.Distortion { return geom.Distortion(m) }
