package words

import "trammel/plot/words/laying"

// Laying tells how a floor is tiled.
type Laying = laying.Says

// Laying in English says the same in every voice: it is the tiler's.
func (e English) Laying() Laying { return laying.English{} }
