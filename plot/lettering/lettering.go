// Package lettering is the one place that knows a font: it measures words, gives
// the outlines of letters and subsets the font for embedding. The fonts are the
// Go fonts, embedded; heights are of a capital letter (ISO 3098), not of the em.
package lettering
