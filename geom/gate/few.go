//go:build !othersoftware

package gate

const full = false
