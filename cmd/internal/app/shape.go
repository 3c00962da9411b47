package app

import (
	"trammel/geom/unit"
	"trammel/profiles/job"
)

// undrawn refuses what a job asks for and no page shows yet.
func undrawn(s job.Shape) error {
	at := []string{s.GrainAt, s.FaceAt, s.PairAt}
	for _, list := range [][]job.Setting{s.Holes, s.Corners, s.Edges} {
		if len(list) > 0 {
			at = append(at, list[0].Where)
		}
	}
	for i := range at {
		if where := at[len(at)-1-i]; where != "" {
			return &unit.Fault{Where: where, What: "edges, corners, holes, hand, face and grain are read but not drawn yet", Hint: "leave them out"}
		}
	}
	return nil
}
