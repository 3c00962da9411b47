package strict

import "strings"

// Suggest is a hint for an unknown word: the nearest known one, else all.
func Suggest(word string, known []string) string {
	if near := Nearest(word, known); near != "" {
		return `did you mean "` + near + `"?`
	}
	return "known: " + strings.Join(known, ", ")
}

// Nearest is the known word that is fewest keystrokes away, or "" where none is
// near: more than a third of the letters wrong is another word.
func Nearest(word string, known []string) string {
	if len(word) > 40 {
		return ""
	}
	best, fewest := "", len([]rune(word))/3+1
	for _, k := range known {
		if d := keystrokes(strings.ToLower(word), strings.ToLower(k)); d < fewest {
			best, fewest = k, d
		}
	}
	return best
}

// keystrokes counts letters added, dropped, changed or swapped with the next
// (optimal string alignment).
func keystrokes(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			same := 1
			if x[i-1] == y[j-1] {
				same = 0
			}
			d := min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+same)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				d = min(d, rows[i-2][j-2]+1)
			}
			rows[i][j] = d
		}
	}
	return rows[len(x)][len(y)]
}
