// Package profiles holds papers, printers and trades: embedded defaults and the
// user's own over them. It is the only package that knows viper.
package profiles
