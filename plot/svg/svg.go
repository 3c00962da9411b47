// Package svg writes a draw.Document as SVG.
package svg
