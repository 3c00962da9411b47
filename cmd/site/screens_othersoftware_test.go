//go:build othersoftware

package main

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// screens that the page is looked at on: phone, tablet, PC.
var screens = []struct {
	name          string
	width, height int64
}{{"phone", 360, 640}, {"tablet", 820, 1180}, {"PC", 1440, 900}}

// works in each state that a piece can be in.
var works = map[string]string{
	"nothing": `{"unit":"mm","pieces":[{"measure":[]}]}`,
	"begun":   `{"pieces":[{"measure":["AB=600"]}]}`,
	"sound":   gusset,
	"large":   `{"pieces":[{"name":"Slipway","measure":["AB=8000","BC=6000","CA=5000"]}]}`,
	"slip":    `{"pieces":[{"name":"Apron","measure":["AB=4000","BC=3000","CD=4000","DA=3000","AC=5000","BD=5100"],"outline":["A","B","C","D"]}]}`,
	"two":     `{"pieces":[{"measure":["A=35deg","AB=80","BC=60"]}]}`,
	"none":    `{"pieces":[{"measure":["AB=600","BC=100","CA=100"]}]}`,
	"words":   `{"pieces":[{"measure":["AB=600","BC=45O","CA=450"]}]}`,
}

var tabs = []string{"measures", "paper", "hand", "setout"}

// axe looks at what is seen: what is wrong, a line each.
const axe = `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}).then((r) => r.violations.map((v) => v.id + ": " + v.help + ": " + v.nodes.slice(0, 4).map((n) => n.html.slice(0, 160)).join(" | ")))`

// small are controls that a finger misses, and what runs off the screen sideways.
const small = `(() => {
	const seen = (e) => e.checkVisibility({checkVisibilityCSS: true, checkOpacity: true}) && e.getBoundingClientRect().width > 1;
	const all = [...document.querySelectorAll("button, select, summary, a[href], input:not([type=file]):not([type=checkbox]):not([type=radio])")].filter(seen)
		.filter((e) => { const b = e.getBoundingClientRect(); return b.width < 43.5 || b.height < 43.5; }).map((e) => "small: " + e.outerHTML.slice(0, 120));
	const wide = document.documentElement.scrollWidth - innerWidth;
	if (wide > 1) all.push("sideways by " + wide);
	return all;
})()`

// Everybody can use it, in every state, on every screen, in the light and in the dark: as
// axe-core sees it, with no control under 44 px and nothing off the side.
func TestEveryState(t *testing.T) {
	source, err := os.ReadFile("../../.ci/browser/node_modules/axe-core/axe.min.js")
	if err != nil {
		t.Fatalf("%v: npm ci in .ci/browser brings it", err)
	}
	s := host(t)
	for _, screen := range screens {
		for _, light := range []string{"light", "dark"} {
			t.Run(screen.name+" "+light, func(t *testing.T) {
				ctx := browser(t, screen.width, screen.height)
				if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: light}, {Name: "prefers-reduced-motion", Value: "reduce"}}}); err != nil {
					t.Fatal(err)
				}
				opened(t, ctx, s.URL)
				value[string](t, ctx, string(source)+";axe.version")
				for name, job := range works {
					value[bool](t, ctx, `import("./store.js").then((s) => { s.replace(`+job+`); return true; })`)
					for _, tab := range tabs {
						do(t, ctx, chromedp.Click("#tab-"+tab))
						settled(t, ctx)
						looked(t, ctx, name+", "+tab)
					}
				}
				do(t, ctx, chromedp.Click("#tab-measures"))
				settled(t, ctx)
				do(t, ctx, chromedp.Click("#job"))
				settled(t, ctx)
				looked(t, ctx, "the job's dialog")
			})
		}
	}
}

// settled waits until nothing is asked any more and nothing moves.
func settled(t *testing.T, ctx context.Context) {
	t.Helper()
	text := ""
	for still := 0; still < 3; time.Sleep(120 * time.Millisecond) {
		now := value[string](t, ctx, "document.body.innerHTML.length + document.body.innerText")
		if still++; now != text {
			text, still = now, 0
		}
	}
}

func looked(t *testing.T, ctx context.Context, where string) {
	t.Helper()
	wrong := append(value[[]string](t, ctx, axe), value[[]string](t, ctx, small)...)
	if len(wrong) > 0 {
		t.Errorf("%s:\n\t%s", where, strings.Join(wrong, "\n\t"))
		if dir := os.Getenv("TRAMMEL_PICTURES"); dir != "" {
			picture, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
			if err == nil {
				err = os.WriteFile(fmt.Sprintf("%s/%s-%s.png", dir, strings.ReplaceAll(t.Name(), "/", "-"), where), picture, 0o666)
			}
			if err != nil {
				t.Error(err)
			}
		}
	}
}
