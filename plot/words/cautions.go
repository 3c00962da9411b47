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

// cautions in English. Those of a trade are common practice, no source.
type cautions struct{ voice Voice }

const offerUp = "Measure the bars first. Mark from the line, not from the edge of the paper. Offer the template up before cutting."

// Template says of the bar no more than that it comes first: the page has it under another heading.
func (c cautions) Template() []string {
	return map[Voice][]string{
		Class: {
			"Measure the bar first. Needle and compass point away from the hand.",
			"Cut only with the teacher.",
		},
		Bench: {
			offerUp,
			"Protect eyes, ears and lungs.",
			"Clamp small pieces. The guard stays on.",
			"Strength is not drawn here: what carries a load needs a qualified person. Local codes prevail.",
		},
		Floor: {
			offerUp,
			"The dust of tile and stone harms for good: cut wet and wear a mask.",
			"Cut edges are sharp: wear gloves. Knees want pads.",
			"Leave movement joints as the standard or the maker says. Local codes prevail.",
		},
		Ground: {
			offerUp,
			"Services in the ground: have them located before a peg is driven.",
			"Overhead lines: no metal tape or staff near them.",
			"Traffic: cones, bright clothing, a lookout. Excavations: keep back from edges.",
			"Boundary lines belong to a licensed surveyor. Strength is not drawn here. Local codes prevail.",
		},
	}[c.voice]
}

func (c cautions) OnePage() string {
	return map[Voice]string{
		Class:  "Measure the bar. Needle and compass point away from the hand. Cut only with the teacher.",
		Bench:  "Measure the bars before cutting. Protect eyes, ears and lungs. Clamp small pieces, and leave the guard on. Strength is not drawn here: what carries a load needs a qualified person. Local codes prevail.",
		Floor:  "Measure the bars before cutting. The dust of tile and stone harms for good: cut wet and wear a mask. Cut edges are sharp, and knees want pads. Leave movement joints as the standard or the maker says. Local codes prevail.",
		Ground: "Measure the bars before marking. Have services located before a peg is driven. No metal near overhead lines. Mind traffic, and keep back from excavations. Boundary lines belong to a licensed surveyor. Strength is not drawn here. Local codes prevail.",
	}[c.voice]
}

func (c cautions) SetOut(falls bool) []string {
	level := "Level: all figures are level; plumb down on a slope."
	if falls {
		level = "Ground: the tape lies along it, by the levels given."
	}
	switch c.voice {
	case Class:
		return []string{
			"Go out only with the teacher, off the road and away from edges.",
			"A peg is driven only where the teacher has said: cables and pipes lie in the ground.",
			"Points of pegs and pins look away from the hand.",
			level,
		}
	case Bench:
		return []string{
			"Protect eyes, ears and lungs when the lines are cut.",
			"Offer up before cutting good material.",
			level,
			"Strength is not drawn here: ask a qualified person.",
			"Local codes prevail.",
		}
	case Floor:
		return []string{
			"Pipes, heating and cables lie in floors: know where they run before anything is fixed or drilled.",
			"Dust of tile and stone: cut wet, wear a mask.",
			"Cut edges are sharp: wear gloves. Knees want pads.",
			"Movement joints: as the standard or the maker says.",
			level,
			"Local codes and the site's rules prevail.",
		}
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

func (c cautions) Check(passed bool) []string {
	mark := map[bool]string{true: "mark", false: "peg"}[c.voice == Floor || c.voice == Bench]
	all := []string{map[Voice]string{
		Class:  "A peg is moved only with the teacher.",
		Bench:  "Before a nail goes in anew, know what lies behind.",
		Floor:  "Pipes, heating and cables in the floor: before a nail is driven anew, know that there are none.",
		Ground: "Lines, pipes and cables in the ground: before a peg is driven anew, know that there are none.",
	}[c.voice]}
	if !passed {
		all = append([]string{
			"Take each reading that is outside a second time before a " + mark + " is moved: a tape misread is likelier than a " + mark + " that wandered.",
			"After a move all lengths of that " + mark + " are measured again, and written down here.",
		}, all...)
	}
	return append(all, "A tape that is wrong all along makes all of it wrong alike: check it against another one.")
}
