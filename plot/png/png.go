// Package png writes a draw.Document as PNG.
package png
