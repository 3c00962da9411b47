package solved

import (
	"math"
	"testing"

	"trammel/geom/unit"
	"trammel/plot/words"
	"trammel/profiles"
	"trammel/profiles/job"
)

// open solves measurements that stand on the command line.
func open(t *testing.T, measured ...string) Work {
	t.Helper()
	set, err := profiles.Load()
	if err != nil {
		t.Fatal(err)
	}
	var tokens []job.Setting
	for _, m := range measured {
		tokens = append(tokens, job.Setting{Text: m})
	}
	m, err := job.Merge(Named("", tokens), job.Overrides{}, set, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	w, err := Open(m, func(string, int, int) {})
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// The pegs of a piece stand as far apart as was measured, and its angles make two right
// ones (Euclid, Elements I.32); 3-4-5 has its right angle between 3 and 4 (I.48).
func TestPegsStandAsMeasured(t *testing.T) {
	w := open(t, "AB=400", "BC=300", "CA=500")
	p := w.Pieces[0]
	sum := unit.Angle(0)
	for _, a := range p.Triangle().Angles {
		sum += a
	}
	if math.Abs(sum.Degrees()-180) > 1e-9 {
		t.Errorf("the angles make %v°", sum.Degrees())
	}
	pegs := p.Pegs()
	far := map[string]float64{"AB": 400, "BC": 300, "AC": 500}
	for i, a := range pegs {
		for _, b := range pegs[i+1:] {
			name := string(min(a.Name, b.Name) + max(a.Name, b.Name))
			if d := math.Hypot(float64(a.At.X-b.At.X), float64(a.At.Y-b.At.Y)); math.Abs(d-far[name]) > 1e-6 {
				t.Errorf("%s is %v mm, measured were %v", name, d, far[name])
			}
		}
	}
	for i, n := range p.Triangle().Names {
		if a := p.Triangle().Angles[i].Degrees(); n == "B" && math.Abs(a-90) > 1e-9 {
			t.Errorf("the angle at B is %v°", a)
		}
	}
}

// A rectangle of 4 by 3 m with one diagonal is a net of four pegs; its other diagonal is
// as long (Elements I.34), and nothing is doubtful in what fits exactly.
func TestNetOfARectangle(t *testing.T) {
	w := open(t, "AB=4m", "BC=3m", "CD=4m", "DA=3m", "AC=5m", "BD=5m")
	p := w.Pieces[0]
	if p.Net == nil || len(p.Pegs()) != 4 {
		t.Fatalf("%d pegs, net %v", len(p.Pegs()), p.Net)
	}
	a, ok := p.Checked()
	if !ok || !Agrees(a) || len(p.Warnings) > 0 {
		t.Errorf("%v, agrees %v, %q", ok, Agrees(a), p.Warnings)
	}
	// 12 m² whoever names the corners: the shoelace sum of the pegs (from memory).
	area, pegs := 0.0, p.Pegs()
	at := map[string]int{}
	for i, peg := range pegs {
		at[string(peg.Name)] = i
	}
	round := []string{"A", "B", "C", "D"}
	for i, n := range round {
		u, v := pegs[at[n]].At, pegs[at[round[(i+1)%4]]].At
		area += float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X)
	}
	if math.Abs(math.Abs(area)/2-12e6) > 1 {
		t.Errorf("the pegs surround %v mm²", area/2)
	}
	if err := w.HasOutline(); err == nil {
		t.Error("nobody said which points are the edge of the piece")
	}
}

// Pages speak as the trade does, what is set out as on the ground or the floor, and all
// as the job or a flag says where one says it.
func TestWhoseWords(t *testing.T) {
	own := []byte("trades: {digger: {voice: ground}, roofer: {}}")
	set, err := profiles.Load(profiles.File{Name: "own", Data: own})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		trade, job, flag string
		here, out        words.Voice
	}{
		{"", "", "", words.Bench, words.Ground},
		{"joiner", "", "", words.Bench, words.Ground},
		{"tiler", "", "", words.Floor, words.Floor},
		{"teacher", "", "", words.Class, words.Ground},
		{"digger", "", "", words.Ground, words.Ground},
		{"roofer", "", "", words.Bench, words.Ground},
		{"tiler", "class", "", words.Class, words.Class},
		{"tiler", "class", "bench", words.Bench, words.Bench},
	} {
		j := Named("", []job.Setting{{Text: "AB=400"}, {Text: "BC=300"}, {Text: "CA=500"}})
		j.Trade.Text, j.Voice.Text = c.trade, c.job
		flags := job.Overrides{Voice: job.Setting{Text: c.flag}}
		for again := range 2 { // as the command line has it, and as a document carries it
			m, err := job.Merge(j, flags, set, nil, nil)
			if err != nil {
				t.Fatal(err)
			}
			w, err := Open(m, func(string, int, int) {})
			if err != nil {
				t.Fatal(err)
			}
			if w.Language != (words.English{Voice: c.here}) || w.OnSite != (words.English{Voice: c.out}) {
				t.Errorf("%+v, %d: %+v, and set out %+v", c, again, w.Language, w.OnSite)
			}
			j.MadeWith, flags = m.Carries, job.Overrides{}
		}
	}
}

// The names that profiles know are those of the voices.
func TestVoicesHaveTheirNames(t *testing.T) {
	for _, name := range profiles.Voices() {
		if got := words.Named(name).String(); got != name {
			t.Errorf("%s is %s", name, got)
		}
	}
	if len(profiles.Voices()) != len(words.Voices()) {
		t.Errorf("%d names of %d voices", len(profiles.Voices()), len(words.Voices()))
	}
}
