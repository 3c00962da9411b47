package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"

	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/profiles/job"
)

// numbersAlone refuses arguments that are numbers without what they measure: three
// sides of a triangle, or one that would be taken for the name of a file. A file
// with such a name is read if it exists.
func numbersAlone(words []string, tokens []job.Setting) error {
	i := slices.IndexFunc(words, numberAlone)
	if i < 0 {
		return nil
	}
	free := []string{"AB", "BC", "CA"}
	for _, t := range tokens {
		if m, err := triangle.ParseMeasurement(t.Text, unit.MM); err == nil && m.Kind == triangle.Distance {
			free = slices.DeleteFunc(free, func(side string) bool {
				return side == m.Subject() || side == string(m.At[1]+m.At[0])
			})
		}
	}
	var written []string
	for k, w := range words {
		if k < len(free) && numberAlone(w) {
			written = append(written, free[k]+"="+quoted(w))
		}
	}
	hint := "write what it measures, such as AB=" + quoted(words[i])
	switch {
	case len(written) == len(words) && len(words) == 3:
		hint = "write " + strings.Join(written, " ")
	case len(written) > 0:
		hint = "write what it measures, such as " + written[0]
	}
	return &unit.Fault{What: fmt.Sprintf("%s is a number and does not say what it measures", unit.Quote(words[i])), Hint: hint}
}

// numberAlone says whether a word is a length or an angle and no file.
func numberAlone(word string) bool {
	if !unit.IsLength(word) && !unit.IsAngle(word) {
		return false
	}
	_, err := os.Stat(word)
	return errors.Is(err, fs.ErrNotExist)
}

// quoted is a value as a shell takes it.
func quoted(value string) string {
	if strings.ContainsAny(value, " '\"°′″½¼¾") {
		return "\"" + strings.ReplaceAll(value, `"`, `\"`) + "\""
	}
	return value
}
