package app

import (
	"fmt"

	"trammel/geom"
	"trammel/plot/calibrate"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/profiles"
)

// madeFor is the printer that pages are made for; without a calibration, any.
type madeFor struct {
	calibration *profiles.Calibration
	distortion  geom.Distortion // of a page as it lies in the file
}

// calibrated is the printer of a calibration, and the sheet with margins so wide that
// nothing of a warped window leaves what that printer reaches. (Of a roll, for the
// longest page: what is shorter spreads less.)
func calibrated(c *profiles.Calibration, s paging.Sheet) (madeFor, paging.Sheet) {
	if c == nil {
		return madeFor{}, s
	}
	d := geom.Distortion(c.Found)
	if (s.Width > s.Height) != (c.Width > c.Height) && s.Width != s.Height {
		d = d.Turned() // the page goes through the printer on its side
	}
	window := geom.Rect{Min: geom.Point{X: s.Left, Y: s.Bottom}, Max: geom.Point{X: s.Width - s.Right, Y: s.Height - s.Top}}
	l, t, r, b := calibrate.Spread(calibrate.Warp(d, s.Width, s.Height), window)
	s.Left, s.Top, s.Right, s.Bottom = s.Left+l, s.Top+t, s.Right+r, s.Bottom+b
	return madeFor{c, d}, s
}

// printer is its name, empty where pages are made for any.
func (m madeFor) printer() string {
	if m.calibration == nil {
		return ""
	}
	return m.calibration.Printer
}

func (m madeFor) warped(page draw.Page) draw.Page {
	if m.calibration == nil {
		return page
	}
	return page.Warped(calibrate.Warp(m.distortion, page.Width, page.Height))
}

// otherPaper warns where the printer was calibrated with another paper than s.
func (m madeFor) otherPaper(s paging.Sheet) []string {
	c := m.calibration
	if c == nil || min(s.Width, s.Height) == min(c.Width, c.Height) && max(s.Width, s.Height) == max(c.Width, c.Height) {
		return nil
	}
	return []string{fmt.Sprintf("%s was calibrated with %s, and %s may come out otherwise: calibrate it for that paper under a name of its own", c.Printer, c.Paper, s.Name)}
}
