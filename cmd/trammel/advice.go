package main

import (
	"strings"

	"trammel/geom/unit"
)

// flags by what a fault is about. What is missing here has none.
var flags = map[unit.Subject]string{
	unit.Base: "base", unit.Outline: "outline", unit.SideOf: "side", unit.Pick: "pick", unit.Way: "with", unit.Levels: "levels",
}

// located is a fault in one line. A flag in whose value it lies says what it is about:
// "--base AB: there is no point", and "job.yaml:3:9: base AB: there is no point".
func located(f *unit.Fault) string {
	flag, of := flags[f.Subject], f.Of
	if f.Subject == unit.Site {
		flag, of = f.Of, ""
	}
	if flag == "" || f.Where != "--"+flag {
		return f.Error()
	}
	return unit.InLine(strings.TrimSpace(f.Where+" "+of), f.What)
}
