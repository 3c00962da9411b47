package unit

// Style says how lengths and angles are written back.
type Style struct {
	Unit        Unit // MM, CM, M: decimals; IN: inches and fractions; FT: feet, inches and fractions
	Denominator int  // of the smallest fraction of an inch: 8, 16, 32 or 64; 0 means 16
	Decimals    int  // at most so many decimals of a metric unit, trailing zeros dropped; MM default 1
	Minutes     bool // angles as degrees and minutes instead of 0.1°
}
