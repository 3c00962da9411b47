package shape

import (
	"math"

	"trammel/geom/unit"
)

// Setting is how saw and square are set for a corner where two like parts meet,
// half and half. For an interior angle θ: the joint makes θ/2 with the edge, and
// the saw stands 90° − θ/2 from a square cut (60°: 30° and 60°; 120°: 60° and
// 30°). Trade texts disagree on which of both is "the mitre", so that both are
// told and neither has that name. At a corner that points inward (θ over 180°)
// the joint makes 180° − θ/2 with the edge.
type Setting struct {
	Interior unit.Angle // of the piece
	ToEdge   unit.Angle // between the edge and the joint, at most 90°
	Saw      unit.Angle // 90° less that
}

// SettingOf an interior angle of more than 0 and less than 360°.
func SettingOf(interior unit.Angle) Setting {
	saw := unit.Angle(math.Abs(float64(interior-180*unit.Degree))) / 2
	return Setting{Interior: interior, ToEdge: min(interior, unit.Turn-interior) / 2, Saw: saw}
}

// Rise of the joint over a run along the edge: for a square that is held to the
// edge, 100 mm and 12 in being the usual runs. Very long where the corner is all
// but straight.
func (s Setting) Rise(run unit.Length) unit.Length {
	return run * unit.Length(math.Tan(s.ToEdge.Radians()))
}
