//go:build !othersoftware

package paste

// How many templates are laid opaque.
const opaqueTemplates = 20
