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

func (c cautions) SetOut(falls bool) []string {
	if c.voice == Floor {
		return []string{
			"Dust: wet cutting and a mask. Edges of tile and stone are sharp.",
			"Knees: pads. Chalk lines dry and the floor clear of feet.",
			"Heating, pipes and cables in the floor: know where they run before anything is fixed or drilled.",
			"Movement joints: as the standard or the maker says.",
			"Geometry, not strength: ask a qualified person. Local codes prevail.",
		}
	}
	level := "Level: all figures are level; plumb down on a slope."
	if falls {
		level = "Ground: the tape lies along it, by the levels given."
	}
	return []string{
		"Buried services: have them located.",
		"Overhead lines: no metal tape or staff near them.",
		"Traffic: bright clothing, cones, a lookout.",
		"Excavations: pegs and feet stay back from the edge.",
		"Boundaries: those are a licensed surveyor's.",
		level,
		"Strength: this is geometry; ask a qualified person.",
		"Rules: local codes and the site's own prevail.",
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
