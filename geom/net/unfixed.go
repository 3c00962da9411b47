package net

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

func notFixed(hint, what string, a ...any) error {
	return &triangle.NoTriangle{What: fmt.Sprintf(what, a...), Hint: hint}
}

// wanting is notFixed where nothing contradicts: more has to be measured.
func wanting(hint, what string, a ...any) error {
	return &triangle.NoTriangle{What: fmt.Sprintf(what, a...), Hint: hint, Advice: unit.Advice{Code: unit.Wanting}}
}

// checkJoined refuses a net whose parts share no measurement, and one without a length.
func (f *finder) checkJoined() error {
	if len(f.Names) < 2 {
		return wanting("measure distances between three points or more", "one point is no net")
	}
	part := make([]int, len(f.Names)) // of each point, by the first in it
	for i := range part {
		part[i] = i
	}
	join := func(i, j int) {
		first, second := min(part[i], part[j]), max(part[i], part[j])
		for k, of := range part {
			if of == second {
				part[k] = first
			}
		}
	}
	lengths := len(f.control) > 0
	for i := range f.Obs {
		o := &f.Obs[i]
		lengths = lengths || o.Kind != triangle.Angle
		for _, q := range o.Points()[1:] {
			join(q, o.At[0])
		}
	}
	held := slices.Sorted(maps.Keys(f.control))
	for _, i := range held {
		join(i, held[0])
	}
	if parts := slices.Compact(slices.Sorted(slices.Values(part))); len(parts) > 1 {
		var a, b []geom.Name
		for i, n := range f.Names {
			switch part[i] {
			case parts[0]:
				a = append(a, n)
			case parts[1]:
				b = append(b, n)
			}
		}
		hint := fmt.Sprintf("measure from one to the other, three things such as %s", pair(a[0], b[0]))
		if len(a) > 1 && len(b) > 1 {
			hint += fmt.Sprintf(", %s and %s", pair(a[0], b[1]), pair(a[1], b[0]))
		} else if len(a) > 1 {
			hint = fmt.Sprintf("measure %s and %s", pair(a[0], b[0]), pair(a[1], b[0]))
		}
		in := "two halves"
		if len(parts) > 2 {
			in = fmt.Sprintf("%d parts", len(parts))
		}
		return wanting(hint, "the net is in %s: nothing is measured from %s to %s", in, either(a), either(b))
	}
	if !lengths {
		return wanting("measure one distance, such as "+pair(f.Names[0], f.Names[1]), "no length is measured: angles alone give the shape and not the size")
	}
	return nil
}

// either is "A", "A or B", "A, B or C"; of many only the first.
func either(names []geom.Name) string {
	const most = 6
	all := make([]string, 0, most)
	for _, n := range names[:min(len(names), most)] {
		all = append(all, string(n))
	}
	if n := len(names) - most; n > 0 {
		all = append(all, fmt.Sprintf("%d more", n))
	}
	if len(all) < 2 {
		return all[0]
	}
	return strings.Join(all[:len(all)-1], ", ") + " or " + all[len(all)-1]
}

// pair is a distance between two points, the one first in the alphabet first.
func pair(a, b geom.Name) string {
	if geom.Before(b, a) < 0 {
		a, b = b, a
	}
	return string(a + b)
}

func words(measured []triangle.Measurement, of []int) string {
	var all []string
	for _, i := range of {
		all = append(all, text(measured[i]))
	}
	return geom.Listed(all)
}

func text(m triangle.Measurement) string {
	if m.Text != "" {
		return m.Text
	}
	return m.Subject() + "=" + m.Value.Text
}

// unfixed says which point hangs free of the part that was found, and which measurement would fix it.
func (f *finder) unfixed(s *state) error {
	if s == nil {
		return wanting("measure one of its sides, such as "+pair(f.Names[0], f.Names[1]), "no triangle of the net is fixed by what is measured in it")
	}
	var known, free []geom.Name
	for i, n := range f.Names {
		if s.known[i] {
			known = append(known, n)
		} else {
			free = append(free, n)
		}
	}
	order := slices.Clone(f.round)
	for u := range f.Names {
		order = append(order, u)
	}
	order = slices.DeleteFunc(order, func(u int) bool { return s.known[u] })
	for _, u := range order {
		if near := s.ties(u); len(near) > 1 {
			return s.nowhere(u, near)
		}
	}
	u := order[0]
	if i := slices.IndexFunc(order, func(u int) bool { return len(s.ties(u)) > 0 }); i >= 0 {
		u = order[i]
	}
	near := s.ties(u)
	if e := s.heightToUnknown(); e != nil {
		return e
	}
	hint := "measure " + s.another(u)
	if len(near) > 0 {
		hint += " as well"
	}
	if f.rigid() {
		return wanting(hint, "no triangle leads from %s on to %s, though the measurements together may fix it", geom.List(known), f.Names[u])
	}
	if len(near) > 0 {
		return wanting(hint, "%s hangs free: only %s holds it to %s", f.Names[u], text(f.Measured[near[0].Index]), geom.List(known))
	}
	hang := map[bool]string{true: "hang", false: "hangs"}[len(free) > 1]
	return wanting(hint, "%s %s free: nothing fixes %s to %s", geom.List(free), hang, f.Names[u], geom.List(known))
}

// nowhere: two measurements that have no place in common.
func (s *state) nowhere(u int, near []*adjust.Observation) error {
	a, b := near[0], near[1]
	texts := words(s.Measured, []int{a.Index, b.Index})
	_, from := a.Loci(u, s.at)
	_, other := b.Loci(u, s.at)
	if a.Kind == triangle.Distance && b.Kind == triangle.Distance {
		if from[0] == other[0] {
			return wanting("measure "+s.another(u)+" as well", "%s hangs free: %s go to the same point", s.Names[u], texts)
		}
		d := s.at[from[0]].To(s.at[other[0]])
		base := pair(s.Names[from[0]], s.Names[other[0]])
		if gap := d - a.Value - b.Value; gap > 0 {
			return notFixed("measure them again, and "+base, "%s do not meet: %s is %s, %s more than both together", texts, base, s.Amount(d, 4), s.Amount(gap, 4))
		}
		return notFixed("measure them again, and "+base, "%s do not meet: they differ by %s and %s is only %s", texts, s.Amount(math.Abs(a.Value-b.Value), 4), base, s.Amount(d, 4))
	}
	if s.sided[u] {
		return notFixed("give the other side, or measure again", "%s have no place for %s on the side that is asked for", texts, s.Names[u])
	}
	return notFixed("measure them again, or "+s.another(u)+" as well", "%s leave no place for %s", texts, s.Names[u])
}

// heightToUnknown finds a height whose line is itself not known.
func (s *state) heightToUnknown() error {
	for i := range s.Obs {
		o := &s.Obs[i]
		free, other := o.At[1], o.At[2]
		if s.known[free] {
			free, other = other, free
		}
		if o.Kind != triangle.Height || s.known[free] || !s.known[o.At[0]] && s.known[other] && len(s.Of[free]) > 1 {
			continue
		}
		if len(s.ties(free)) > 0 && s.known[o.At[0]] && s.known[other] {
			continue // then the height itself helps to find the line
		}
		return wanting("measure "+s.another(free), "%s goes to the line %s, and nothing fixes %s", text(s.Measured[o.Index]), s.Names[o.At[1]]+s.Names[o.At[2]], s.Names[free])
	}
	return nil
}

// another names what would fix u: a distance to a known point to which none is measured, or two where nothing
// holds it yet. Neighbours round the outline come first, then the points in the order of the alphabet.
func (s *state) another(u int) string {
	var to []int
	add := func(v int) {
		if v != u && s.known[v] && !slices.Contains(to, v) && !s.Taped(u, v) {
			to = append(to, v)
		}
	}
	if k, on := s.place[u]; on {
		add(s.corner(k - 1))
		add(s.corner(k + 1))
	}
	for v := range s.Names {
		add(v)
	}
	switch {
	case len(to) == 0:
		return "an angle at " + string(s.Names[u])
	case len(to) > 1 && len(s.ties(u)) == 0:
		return pair(s.Names[u], s.Names[to[0]]) + " and " + pair(s.Names[u], s.Names[to[1]])
	}
	return pair(s.Names[u], s.Names[to[0]])
}

// rigid says whether the measurements fix the net in general, by how many of
// them are independent at places drawn at random (the same each time).
func (f *finder) rigid() bool {
	const most = 60 // points: beyond, the answer is not worth the time
	if len(f.Names) > most || len(f.Names) < 2 {
		return false
	}
	r := rand.New(rand.NewPCG(1, 2))
	s := f.blank()
	for i := range s.at {
		s.at[i] = geom.Vector{X: r.Float64() * 1000, Y: r.Float64() * 1000}
		if at, given := f.control[i]; given {
			s.at[i] = at
		}
	}
	obs := slices.Clone(f.Obs)
	adjust.Orient(obs, s.at)
	for i := range obs { // each as good as any other
		_, by := obs[i].Computed(s.at)
		obs[i].Sigma = max(by[0].Size(), by[1].Size(), by[2].Size())
	}
	free := f.unknowns([2]int{0, 1})
	const nothing = 1e-12
	return adjust.Equations{Obs: obs, Free: free}.Linear(s.at).Rank(nothing) == free.N
}
