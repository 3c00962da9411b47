//go:build othersoftware

package main

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
)

// shots are the pictures of the page in README: a job, a tab, what is pressed on it.
var shots = []struct {
	name          string
	width, height int64
	job, tab      string
	press         []string
}{
	{"page-phone", 360, 640, `{"job":"Tidal boathouse","trade":"tiler","pieces":[{"name":"Apron","measure":["AB=4000","BC=3000","CD=4000","DA=3000","AC=5000","BD=5100"],"outline":["A","B","C","D"]}]}`, "measures", nil},
	{"page-tablet", 820, 700, `{"job":"Slip gate brace","trade":"joiner","pieces":[{"name":"Gusset plate","measure":["AB=600","BC=450","CA=450"]}]}`, "paper", nil},
	{"page-class", 1200, 675, `{"job":"School workshop","trade":"teacher","pieces":[{"name":"Two sides and the angle between","measure":["AB=90","A=50deg","CA=70"]}]}`, "hand", []string{"#hand-next", "#hand-next"}},
}

// The page is no blank one on any of three screens. README's pictures are these, kept in the
// folder that TRAMMEL_PICTURES names.
func TestShots(t *testing.T) {
	s := host(t)
	for _, shot := range shots {
		t.Run(shot.name, func(t *testing.T) {
			ctx := browser(t, shot.width, shot.height)
			opened(t, ctx, s.URL)
			value[bool](t, ctx, `import("./store.js").then((s) => { s.replace(`+shot.job+`); return true; })`)
			do(t, ctx, chromedp.Click("#tab-"+shot.tab))
			settled(t, ctx)
			for _, on := range shot.press {
				do(t, ctx, chromedp.Click(on))
				settled(t, ctx)
			}
			picture, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
			if err != nil {
				t.Fatal(err)
			}
			seen, err := png.Decode(bytes.NewReader(picture))
			if err != nil {
				t.Fatal(err)
			}
			colours, b := map[[4]uint32]bool{}, seen.Bounds()
			for y := b.Min.Y; y < b.Max.Y; y += 3 {
				for x := b.Min.X; x < b.Max.X; x += 3 {
					r, g, b, a := seen.At(x, y).RGBA()
					colours[[4]uint32{r, g, b, a}] = true
				}
			}
			if len(colours) < 20 {
				t.Errorf("%d colours: a blank page", len(colours))
			}
			if dir := os.Getenv("TRAMMEL_PICTURES"); dir != "" {
				if err := os.WriteFile(filepath.Join(dir, shot.name+".png"), picture, 0o666); err != nil {
					t.Error(err)
				}
			}
		})
	}
}
