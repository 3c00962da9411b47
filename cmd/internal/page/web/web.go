// Package web is the page in the browser as files: written by hand, served and copied as
// they are. All words of its own stand in labels.js; what is known of the work is said by
// the program.
package web

import "embed"

// Files of the page.
//
//go:embed index.html *.css *.js icon.svg manifest.webmanifest
var Files embed.FS
