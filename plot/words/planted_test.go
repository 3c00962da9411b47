package words_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/compare"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

func letter(i int) geom.Name { return geom.Name(rune('A' + i)) }

// planted is a simulated layout of which is known what is wrong with it.
type planted struct {
	kind  string
	by    float64 // how many σ of what it is planted in
	asked compare.Asked
	sigma float64       // of setting out a peg, along x and y
	where []geom.Vector // wanted
	stand []geom.Vector // truly
	pegs  []int         // that stand wrong
	slip  int           // the reading that is misread; −1: none
	tape  float64       // mm of zero, or parts of the length
	moved float64       // most that a peg of a whole or a frame was moved
}

// kinds of layouts. Each but the first has one thing planted; the last have as much to
// do with setting out as with reading.
var kinds = []string{"right", "one peg", "two pegs", "three pegs", "shifted", "turned", "tape zero", "tape scale", "racked", "misread"}

// plant makes a layout: pegs round a site of 4 to 20 m, set out with a normal error,
// nearly all lengths between them read with that of a tape of class II, to 0.1 or 1 mm.
func plant(r *rand.Rand, kind string) *planted {
	p := &planted{kind: kind, by: 3 + 47*r.Float64(), sigma: math.Round(10*(1+2*r.Float64())) / 10, slip: -1}
	least := map[string]int{"two pegs": 6, "three pegs": 8}[kind]
	n := max(4, least) + r.IntN(5)
	size := 4000 + 8000*r.Float64()
	if kind == "racked" {
		n = 4
	}
	for i := range n {
		a := 2 * math.Pi * (float64(i) + 0.5*(r.Float64()-0.5)) / float64(n)
		far := size * (0.5 + 0.5*r.Float64())
		at := geom.Vector{X: math.Round(far * math.Cos(a)), Y: math.Round(far * math.Sin(a))}
		if kind == "racked" { // an oblong, or nearly one
			w, h := size*(1+0.02*r.Float64()), size*0.7
			at = []geom.Vector{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}[i].Plus(geom.Vector{X: math.Round(100 * r.Float64()), Y: 0})
		}
		v := unit.Area(p.sigma * p.sigma)
		p.where = append(p.where, at)
		p.asked.Pegs = append(p.asked.Pegs, compare.Stake{Name: letter(i), At: geom.Point{X: unit.Length(at.X), Y: unit.Length(at.Y)}, Spread: adjust.Covariance{XX: v, YY: v}})
		p.asked.Outline = append(p.asked.Outline, letter(i))
		p.stand = append(p.stand, at.Plus(geom.Vector{X: r.NormFloat64(), Y: r.NormFloat64()}.Times(p.sigma)))
	}
	p.wrong(r, size)
	p.read(r)
	return p
}

// wrong moves pegs as the kind says.
func (p *planted) wrong(r *rand.Rand, size float64) {
	way := geom.Vector{X: 1, Y: 0}.Turned(unit.Angle(2 * math.Pi * r.Float64())).Times(p.by * p.sigma)
	n := len(p.where)
	fix := func() {
		fast := 2
		if n > 4 { // two or three of the wall
			fast += r.IntN(2)
		}
		for i := range n {
			if i < fast {
				p.asked.Fixed = append(p.asked.Fixed, letter(i))
				p.stand[i] = p.where[i]
			} else {
				p.pegs = append(p.pegs, i)
			}
		}
	}
	switch p.kind {
	case "one peg", "two pegs", "three pegs":
		p.pegs = r.Perm(n)[:slices.Index(kinds, p.kind)]
		for _, i := range p.pegs {
			p.stand[i] = p.stand[i].Plus(geom.Vector{X: 1, Y: 0}.Turned(unit.Angle(2 * math.Pi * r.Float64())).Times(p.by * p.sigma))
		}
	case "shifted":
		fix()
		for _, i := range p.pegs {
			p.stand[i] = p.stand[i].Plus(way)
		}
		p.moved = way.Size()
	case "turned":
		fix()
		far := 0.0
		for _, i := range p.pegs {
			far = max(far, p.where[i].To(p.where[0]))
		}
		turn := math.Copysign(p.by*p.sigma/far, way.X)
		for _, i := range p.pegs {
			p.stand[i] = p.stand[i].Minus(p.stand[0]).Turned(unit.Angle(turn)).Plus(p.stand[0])
		}
		p.moved = p.by * p.sigma
	case "racked": // C and D go sideways, and keep their distances
		turn := math.Copysign(p.by*p.sigma/p.where[3].To(p.where[0]), way.X)
		a, b, at, q := p.where[0], p.where[1], p.where[2], p.where[3]
		d := q.Minus(a).Turned(unit.Angle(turn)).Plus(a)
		crossings, _, _ := geom.Locus{Circle: true, At: b, Radius: b.To(at)}.Meet(geom.Locus{Circle: true, At: d, Radius: q.To(at)})
		c := crossings[0]
		if c.To(at) > crossings[1].To(at) {
			c = crossings[1]
		}
		p.stand[2], p.stand[3] = p.stand[2].Plus(c.Minus(at)), p.stand[3].Plus(d.Minus(q))
		p.moved = p.by * p.sigma
	}
}

// read takes the lengths.
func (p *planted) read(r *rand.Rand) {
	tools := p.asked.Tools.Complete()
	step := []float64{0.1, 1}[r.IntN(2)]
	share := 0.85
	if r.IntN(2) == 0 || len(p.where) < 6 {
		share = 1
	}
	var lines [][2]int
	mean := 0.0
	for j := range p.where {
		for i := range j {
			if r.Float64() < share {
				lines, mean = append(lines, [2]int{i, j}), mean+p.stand[i].To(p.stand[j])
			}
		}
	}
	mean /= float64(len(lines))
	of := func(d float64) float64 { return math.Hypot(float64(tools.Pull(unit.Length(d))), math.Sqrt2*p.sigma) } // found less wanted
	sign := float64(1 - 2*r.IntN(2))
	switch p.kind {
	case "misread":
		p.slip = r.IntN(len(lines))
	case "tape zero":
		p.tape = sign * p.by * of(mean)
	case "tape scale":
		p.tape = sign * p.by * of(mean) / mean
	}
	for k, l := range lines {
		d := p.stand[l[0]].To(p.stand[l[1]])
		v := d + float64(tools.Pull(unit.Length(d)))*r.NormFloat64()
		switch {
		case k == p.slip:
			v += sign * p.by * of(d)
		case p.kind == "tape zero":
			v += p.tape
		case p.kind == "tape scale":
			v *= 1 + p.tape
		}
		text := fmt.Sprintf("%s%s=%.1f", letter(l[0]), letter(l[1]), math.Round(v/step)*step)
		if step == 1 {
			text = strings.TrimSuffix(text, ".0")
		}
		m, err := triangle.ParseMeasurement(text, unit.MM)
		if err != nil {
			panic(err)
		}
		p.asked.Found = append(p.asked.Found, m)
	}
}
