//go:build othersoftware

package paste

import (
	"encoding/xml"
	"os/exec"
	"regexp"
	"slices"
	"testing"
)

// label is what a person reads off a page: its name, which is large, and those of
// its neighbours, each beside the edge it belongs to.
type label struct {
	name      string
	neighbour [4]string
}

// readLabels of all pages of a file. A page with no name is none of the
// template's.
func readLabels(t *testing.T, file string) []label {
	t.Helper()
	text, err := exec.Command("pdftotext", "-bbox", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Pages []struct {
			Width  float64 `xml:"width,attr"`
			Height float64 `xml:"height,attr"`
			Words  []struct {
				XMin float64 `xml:"xMin,attr"`
				XMax float64 `xml:"xMax,attr"`
				YMin float64 `xml:"yMin,attr"`
				YMax float64 `xml:"yMax,attr"`
				Text string  `xml:",chardata"`
			} `xml:"word"`
		} `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	is := regexp.MustCompile(`^[0-9]+$`)
	const point = 25.4 / 72
	var labels []label
	for _, page := range doc.Pages {
		var l label
		twice := ""
		for _, w := range page.Words {
			if !is.MatchString(w.Text) {
				continue
			}
			// Boxes are about 1.6 times as high as letters: 14 mm for the number, 5 mm
			// for neighbours, 2.5 mm for the words along a join.
			switch tall := (w.YMax - w.YMin) * point; {
			case tall > 15:
				l.name = w.Text
			case tall > 7:
				x, y := (w.XMin+w.XMax)/2, (w.YMin+w.YMax)/2
				gaps := []float64{left: x, right: page.Width - x, top: y, bottom: page.Height - y}
				near := side(slices.Index(gaps, slices.Min(gaps)))
				if l.neighbour[near] != "" {
					twice = l.neighbour[near] + " and " + w.Text
				}
				l.neighbour[near] = w.Text
			}
		}
		if twice != "" && l.name != "" { // the map of the index page names them all
			t.Errorf("%s: two neighbours at one edge: %s", l.name, twice)
		}
		labels = append(labels, l)
	}
	return labels
}
