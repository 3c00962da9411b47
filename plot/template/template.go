// Package template turns a solved piece into a true-scale drawing: outline, arcs,
// prick points, dimensions, and the page that says how to put it together.
package template
