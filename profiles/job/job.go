// Package job reads the job file: what a person writes. It is strict, and every
// error has a line and a column.
package job
