package triangle

import "slices"

// directSets are the triples from which a triangle can be constructed on its baseline
// just as it was measured, the best first, in the triangle's own numbering: corners 0
// and 1 are the ends of the baseline, side 0 runs from 1 to the apex.
var DirectSets = [][3]Quantity{
	{Side(2), Side(1), Side(0)},
	{Side(2), AngleAt(0), Side(1)},
	{Side(2), AngleAt(1), Side(0)},
	{Side(2), AngleAt(0), AngleAt(1)},
	{Side(2), AngleAt(0), Side(0)},
	{Side(2), AngleAt(1), Side(1)},
	{Side(2), HeightOf(2), Side(1)},
	{Side(2), HeightOf(2), Side(0)},
	{Side(2), HeightOf(2), AngleAt(0)},
	{Side(2), HeightOf(2), AngleAt(1)},
}

// directSet is the first of directSets that m has whole, the third angle counted as
// measured where two are.
func DirectSet(m [9]bool) (int, bool) {
	m = WithThird(m)
	i := slices.IndexFunc(DirectSets, func(set [3]Quantity) bool { return m[set[0]] && m[set[1]] && m[set[2]] })
	return i, i >= 0
}

// withThird adds the third angle where two are known.
func WithThird(m [9]bool) [9]bool {
	if m[3] && m[4] || m[4] && m[5] || m[5] && m[3] {
		m[3], m[4], m[5] = true, true, true
	}
	return m
}
