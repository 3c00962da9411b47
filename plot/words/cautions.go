package words

// Cautions are said wherever work can hurt someone. trammel gives geometry, never
// strength, and defers to local codes and licensed practice.
type Cautions interface {
	// Template are those of a template that is put together.
	Template() []string
	// OnePage is the same in a line, beside a piece that lies whole on a page.
	OnePage() string
	// SetOut are those of setting out; falls: what the tape reads follows the ground.
	SetOut(falls bool) []string
	// Check are those of measuring back.
	Check(passed bool) []string
}

// cautions in English.
type cautions struct{ voice Voice }

func (cautions) Template() []string {
	return []string{
		"Measure the check bars first: a page printed at another size looks the same.",
		"Mark from the line, not from the edge of the paper, and offer the template up before cutting good material.",
		"Clamp small pieces, keep hands clear of the blade, wear eye and dust protection.",
		"This is geometry, not a statement of strength: braces, gussets and roofs need a qualified person. Local codes prevail.",
	}
}

func (cautions) OnePage() string {
	return "Check the bars before cutting. Eye and dust protection, hands clear of the blade. This is geometry, not strength: braces, gussets and roofs need a qualified person. Local codes prevail."
}

func (cautions) SetOut(falls bool) []string {
	level := "All figures are level: plumb down on a slope."
	if falls {
		level = "The tape lies along the ground: by the levels given."
	}
	return []string{
		"Buried services: have them located before pegging.",
		"Overhead lines: no metal tape or staff near them.",
		"Traffic: cones, bright clothing, a lookout.",
		"Excavations: keep pegs and feet back from edges.",
		"Boundary lines belong to a licensed surveyor.",
		level,
		"Geometry, not strength: ask a qualified person.",
		"Local codes and the site's rules prevail.",
	}
}

func (cautions) Check(passed bool) []string {
	all := []string{"Lines, pipes and cables in the ground: before a peg is driven anew, know that there are none."}
	if !passed {
		all = append([]string{
			"Take each reading that is outside a second time before a peg is moved: a tape misread is likelier than a peg that wandered.",
			"After a move all lengths of that peg are measured again, and written down here.",
		}, all...)
	}
	return append(all, "A tape that is wrong all along makes all of it wrong alike: check it against another one.")
}
