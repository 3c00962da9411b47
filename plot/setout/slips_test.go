package setout

import (
	"cmp"
	"math/cmplx"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trammel/geom/passage"
	"trammel/geom/pegging"
)

// A slip of 10 mm in a pull puts a printed check outside its range, or the sheet names the
// point. The steps are followed by their words; the slip is in a figure of theirs.
func TestSlipsAreSeen(t *testing.T) {
	all := slipNets(t)
	blind, pulls, named := 0, 0, 0
	for k, s := range all {
		said := s.Says().Outside()
		exactly := newFollower(t, exact())
		exactly.follow(s.Steps)
		numbers := s.Says().Pulled()
		for i, n := range numbers {
			if n == 0 || s.Pulls[n-1].Use == pegging.ForAngle {
				continue
			}
			p := s.Pulls[n-1]
			for _, slip := range []float64{10, -10} {
				e, count := exact(), 0
				at := i
				h := newFollower(t, e)
				now := -1
				h.errs.pull = func(l float64) float64 {
					if now == at && count == 0 {
						count++
						return l + slip
					}
					return l
				}
				h.at = map[string]complex128{}
				for j, w := range s.Steps {
					now = j
					h.step(w)
				}
				pulls++
				if slices.ContainsFunc(s.siteChecks(), func(c pegging.Check) bool {
					d := cmplx.Abs(h.at[string(c.From)] - h.at[string(c.To)])
					return d < c.Least.MM()+0.6 || d > c.Greatest.MM()-0.6
				}) {
					continue
				}
				if blind++; blindTo(said, string(p.To)) {
					named++
					continue
				}
				t.Errorf("net %d: a slip of %g in step %d (%s to %s) shows in no check, and is not told of: %s", k, slip, i+1, p.Hold, p.To, said)
			}
		}
	}
	t.Logf("%d slips in %d nets, %d that no check shows, %d told of", pulls, len(all), blind, named)
}

var toldBlind = regexp.MustCompile(`No check shows a slip of 10 mm at (.*): (?:pull|measure) twice`)

func blindTo(said, n string) bool {
	m := toldBlind.FindStringSubmatch(said)
	return m != nil && slices.Contains(regexp.MustCompile(`, | and `).Split(m[1], -1), n)
}

// slipNets are 60 nets of 3 to 12 points, half of them with walls in between.
func slipNets(t *testing.T) (all []Sheet) {
	r := rand.New(rand.NewPCG(61, 62))
	for k := range 30 {
		all = append(all, around(t, r, 4+k%9))
	}
	for len(all) < 60 {
		room := randomRoom(r, 6+2*(len(all)%3))
		s, err := Prepare(Input{Asked: room.asked(t, passage.Bars{Around: true})})
		if err != nil {
			continue
		}
		all = append(all, s)
	}
	return all
}

// The steps that are told of for a point are those whose words set it.
func TestStepsThatSetAPoint(t *testing.T) {
	told := regexp.MustCompile(`([A-Z]\d*) (\d+)(?:–(\d+))?[,.]`)
	points := 0
	for k, s := range slipNets(t) {
		_, list, ok := strings.Cut(s.Says().Outside(), "Steps: ")
		if !ok {
			continue
		}
		list, _, _ = strings.Cut(list, ". ")
		for _, m := range told.FindAllStringSubmatch(strings.TrimSuffix(list, ".")+".", -1) {
			last, err := strconv.Atoi(cmp.Or(m[3], m[2]))
			if err != nil {
				t.Fatal(err)
			}
			points++
			if !regexp.MustCompile(`(?i)(?:peg|mark|is) ` + m[1] + `\b`).MatchString(s.Steps[last-1]) {
				t.Errorf("net %d: %s is not set by step %d: %s", k, m[1], last, s.Steps[last-1])
			}
		}
	}
	if points < 100 {
		t.Errorf("only %d points were told of", points)
	}
}
