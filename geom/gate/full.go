//go:build othersoftware

package gate

const full = true
