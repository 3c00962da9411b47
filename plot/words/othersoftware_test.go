//go:build othersoftware

package words_test

import "testing"

// 2,000 layouts of each kind, and all that is said of them is true.
func TestTwentyThousandSentencesAreTrue(t *testing.T) { sentencesAreTrue(t, 2000, 8, 95) }
