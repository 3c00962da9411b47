package page

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"
	"unicode/utf8"
)

// pointerAt is the JSON pointer of the innermost value that holds a place, which counts
// lines and letters from 1 as the reader of jobs does; empty where the text is no JSON or
// the place lies outside. A key leads to its value.
func pointerAt(text []byte, line, column int) string {
	at := offsetOf(text, line, column)
	if at < 0 {
		return ""
	}
	w := walker{d: json.NewDecoder(bytes.NewReader(text)), text: text, at: int64(at)}
	w.d.UseNumber()
	w.value(nil)
	return w.found
}

// offsetOf is where a place lies in the text, −1 for none.
func offsetOf(text []byte, line, column int) int {
	at := 0
	for ; line > 1; line-- {
		next := bytes.IndexByte(text[at:], '\n')
		if next < 0 {
			return -1
		}
		at += next + 1
	}
	for ; column > 1; column-- {
		if at >= len(text) {
			return -1
		}
		_, n := utf8.DecodeRune(text[at:])
		at += n
	}
	return at
}

// walker goes through a JSON text and keeps the pointer of what holds the place.
type walker struct {
	d     *json.Decoder
	text  []byte
	at    int64
	found string
}

// value reads one value; path leads to it. It says whether the text went on.
func (w *walker) value(path []string) bool {
	from := w.start()
	t, err := w.d.Token()
	if err != nil {
		return false
	}
	switch t {
	case json.Delim('{'):
		for w.d.More() {
			begin := w.start()
			key, err := w.d.Token()
			if err != nil {
				return false
			}
			name, _ := key.(string)
			within := append(path[:len(path):len(path)], name)
			if !w.value(within) {
				return false
			}
			w.keep(within, begin)
		}
	case json.Delim('['):
		for i := 0; w.d.More(); i++ {
			if !w.value(append(path[:len(path):len(path)], strconv.Itoa(i))) {
				return false
			}
		}
	default:
		w.keep(path, from)
		return true
	}
	if _, err := w.d.Token(); err != nil {
		return false
	}
	w.keep(path, from)
	return true
}

// start is where the next token begins.
func (w *walker) start() int64 {
	at := w.d.InputOffset()
	for at < int64(len(w.text)) && strings.IndexByte(" \t\r\n,:", w.text[at]) >= 0 {
		at++
	}
	return at
}

// keep takes the first value that is found to hold the place: the inner ones end first.
func (w *walker) keep(path []string, from int64) {
	if w.found != "" || w.at < from || w.at >= w.d.InputOffset() {
		return
	}
	var b strings.Builder
	for _, p := range path {
		b.WriteString("/" + strings.NewReplacer("~", "~0", "/", "~1").Replace(p))
	}
	w.found = b.String()
}
