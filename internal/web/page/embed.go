// Package page holds the chat page: one custom element in plain modules, its
// style sheet and the page that hosts it.
//
// The files are served as they stand. There is no build step: what the browser
// runs is what is read here, and the type checker reads the same files. Every
// word of the page's furniture lies in widget/words.js; what concerns a
// household comes from the service and is shown as it is.
package page

import "embed"

// Files are the files of the page, index.html at the root.
//
//go:embed index.html page.css icon.svg daybreak.js widget/*.js widget/*.css widget/answers/*.js
var Files embed.FS
