package job

import (
	"slices"

	"trammel/profiles/strict"
)

// siteKeys are what a job may say under site: of the ground, the tools and the day.
// Each is a text that those read who know what it means; the command line has some
// of them as flags.
//
//	site:
//	  tape: II              accuracy class; hook: yes where the zero is a hook
//	  reading: 1 mm         of a nail and an eye
//	  instrument: none      or square, protractor, theodolite; angle: 30' is what it keeps
//	  permitted: 1.5 mm     the K of a permitted deviation of ±K√L, L in metres
//	  every: 1 m            marks along each edge
//	  boards: 1 m           profile boards, clear of the digging by that
//	  origin: 1000,2000     of the pegs' coordinates: the baseline's first end
//	  bearing: 35deg        of the baseline, clockwise from north
//	  temperature: 31C      pull: 50N, span: 10 m: how the tape is used
//	  tape_says: 30 m       and what it is: tape_is: 30.004 m at tape_temperature: 20C
//	                        under tape_pull: 50N; expansion, section, modulus, weight
var siteKeys = []string{"tape", "hook", "reading", "instrument", "angle", "permitted", "every", "boards", "origin", "bearing",
	"temperature", "pull", "span", "tape_says", "tape_is", "tape_temperature", "tape_pull", "expansion", "section", "modulus", "weight"}

func site(v strict.Value) (map[string]Setting, error) {
	fields, err := v.Fields("site", append(slices.Clone(siteKeys), "slope")...)
	if err != nil {
		return nil, err
	}
	all := map[string]Setting{}
	for _, f := range fields {
		if f.Key == "slope" {
			return nil, Slope().In(f.Value.Where())
		}
		text, err := f.Value.Text(f.Key)
		if err != nil {
			return nil, err
		}
		all[f.Key] = Setting{text, f.Value.Where()}
	}
	return all, nil
}
