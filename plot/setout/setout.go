// Package setout turns a triangle larger than paper into a setting-out sheet:
// pegs, tape lengths, arcs to swing, checks to close on.
package setout
