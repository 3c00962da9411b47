// Package pdf writes a draw.Document as PDF.
package pdf
