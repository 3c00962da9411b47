// Package compare holds what was measured back of a layout against what was wanted: what
// each reading is accepted within, where the pegs stand, and what explains that they do
// not stand where they should.
//
// Files, from the top floor to the ground: compare.go, blame.go, explanation.go,
// range.go, common_causes.go, fit.go, layout.go, comparison.go.
package compare

// Accepted is the share of readings of a sound layout that lie inside their range:
// 2.5758 σ. One in a hundred lies outside by chance.
const accepted = 2.5758

// Compare holds what was found against what was wanted.
//
// A length is accepted within ±K√L where K is given; else within what one pull of
// the tape is good for (its error and nail and eye, as Tape and Tools have them)
// and 2.58 σ of the setting-out of its two ends, the two independent. What a
// reading leaves open by itself, as one to the centimetre, widens that as long as it
// is less than all the rest; it never makes a poor reading a good one.
//
// What is the cause is found by least squares: the wanted place of each peg counts as
// an observation with the σ of its setting-out, each reading as one with its own. Each
// peg in turn is then left free and each reading left out, every two of them, and three
// pegs; the tape is given a zero or a scale of its own, the pegs that are not fixed are
// shifted and turned as a whole, and a frame of four is racked. Each is weighed by the
// chance of so large a fall of the sum of squares, all that were tried of its kind taken
// together, and each thing more against that of one thing alone. What all have in
// common that come near the likeliest is certain; where they have nothing in common
// all of them are told, and where that nothing is wrong is among them none is.
//
// Errors are a *unit.Fault: a point that was not asked for, a thing found twice.
func Compare(a Asked) (Comparison, error) {
	l, err := newLayout(a)
	if err != nil {
		return Comparison{}, err
	}
	f, err := l.fit(nil)
	if err != nil {
		return Comparison{}, err
	}
	c := Comparison{Passed: true, Sum: f.Sum, Freedom: len(l.Obs), tape: l.tape}
	for i, n := range l.Names {
		if l.fast[i] {
			c.Held = append(c.Held, n)
		}
	}
	for i := range l.Obs {
		r := l.compared(i)
		c.Passed = c.Passed && r.Inside
		c.Readings = append(c.Readings, r)
	}
	for i, n := range l.Names {
		s := Standing{Name: n, Wanted: l.back(l.wanted[i]), At: l.back(f.At[i]), Covariance: f.Covariance(i), Found: len(l.Of[i])}
		if s.Found == 0 {
			c.Unseen = append(c.Unseen, n)
		}
		c.Standings = append(c.Standings, s)
	}
	c.Fixed, c.Next = l.fixed(f)
	if !c.Passed {
		l.blame(&c, f)
	}
	return c, nil
}
