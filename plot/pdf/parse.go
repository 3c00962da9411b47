package pdf

import (
	"strconv"
	"strings"
	"unicode/utf16"
)

// What values are when they are read: dict, []any, word, str, int64 and ref.
// Numbers with a point, truths and nothing are word as they are written: no one
// asks for them.
type (
	dict map[string]any
	word string
	str  string // the bytes of a text string
)

// text of a text string: UTF-16 where it begins with the mark of that, else as
// it is (ISO 32000-1, 7.9.2.2; what Write leaves plain is ASCII).
func (s str) text() string {
	wide, ok := strings.CutPrefix(string(s), "\xfe\xff")
	if !ok {
		return string(s)
	}
	var u []uint16
	for i := 0; i+1 < len(wide); i += 2 {
		u = append(u, uint16(wide[i])<<8|uint16(wide[i+1]))
	}
	return string(utf16.Decode(u))
}

// parser reads one value after the other from the front of b. After the first
// thing that it does not know err is set and every value is nil.
type parser struct {
	b   []byte
	err bool
}

func (p *parser) fail() any {
	p.err = true
	return nil
}

func (p *parser) skipSpace() {
	for len(p.b) > 0 && (p.b[0] == ' ' || p.b[0] == '\n') {
		p.b = p.b[1:]
	}
}

// take says whether b begins with the text, and goes past it.
func (p *parser) take(text string) bool {
	if len(p.b) < len(text) || string(p.b[:len(text)]) != text {
		return false
	}
	p.b = p.b[len(text):]
	return true
}

func (p *parser) value(depth int) any {
	p.skipSpace()
	switch {
	case p.err || len(p.b) == 0 || depth > maxDepth:
		return p.fail()
	case p.take("<<"):
		return p.dict(depth)
	case p.take("["):
		list := []any{}
		for p.skipSpace(); !p.take("]"); p.skipSpace() {
			list = append(list, p.value(depth+1))
			if p.err {
				return nil
			}
		}
		return list
	case p.take("("):
		return p.plain()
	case p.take("<"):
		return p.hex()
	case p.take("/"):
		return word(p.letters())
	}
	return p.number()
}

func (p *parser) dict(depth int) any {
	d := dict{}
	for p.skipSpace(); !p.take(">>"); p.skipSpace() {
		if !p.take("/") {
			return p.fail()
		}
		key := p.letters()
		v := p.value(depth + 1)
		if _, twice := d[key]; p.err || twice {
			return p.fail()
		}
		d[key] = v
	}
	return d
}

// letters is letters and digits up to what ends them.
func (p *parser) letters() string {
	n := 0
	for n < len(p.b) && !strings.ContainsRune(" \n<>[]()/", rune(p.b[n])) {
		n++
	}
	w := string(p.b[:n])
	p.b = p.b[n:]
	if w == "" {
		p.fail()
	}
	return w
}

// number is a whole number, or with two more words a reference.
func (p *parser) number() any {
	w := p.letters()
	n, err := strconv.ParseInt(w, 10, 64)
	if err != nil {
		return word(w)
	}
	if p.take(" 0 R") {
		return ref(n)
	}
	return n
}

// plain is a string of which the opening parenthesis is read.
func (p *parser) plain() any {
	var s []byte
	for i := 0; i < len(p.b); i++ {
		switch c := p.b[i]; {
		case c == ')':
			p.b = p.b[i+1:]
			return str(s)
		case c == '\\' && i+1 < len(p.b):
			i++
			s = append(s, p.b[i])
		case c == '(' || c < ' ' || c > '~':
			return p.fail()
		default:
			s = append(s, c)
		}
	}
	return p.fail()
}

// hex is a string of which the opening angle is read.
func (p *parser) hex() any {
	var s []byte
	for i := 0; i+1 < len(p.b); i += 2 {
		if p.b[i] == '>' {
			p.b = p.b[i+1:]
			return str(s)
		}
		n, err := strconv.ParseUint(string(p.b[i:i+2]), 16, 8)
		if err != nil {
			return p.fail()
		}
		s = append(s, byte(n))
	}
	if len(p.b)%2 == 1 && p.b[len(p.b)-1] == '>' {
		p.b = nil
		return str(s)
	}
	return p.fail()
}
