package template

// full shows everything.
func full() Style {
	return Style{Arcs: true, Heights: true, Angles: true, Lengths: true, Steps: true, Settings: true}
}
