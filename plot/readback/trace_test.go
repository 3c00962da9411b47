//go:build othersoftware

package readback

import "testing"

func TestTrace(t *testing.T) { judge(t, Trace(t, sheet())) }
