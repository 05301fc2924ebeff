// Package page is the chat page: one custom element in plain modules, its
// style sheet, the page that hosts it, and the handler that serves them.
//
// There is no build step. What the browser runs is what is read here, less the
// comments, and the type checker reads the same files. Every word of the
// page's furniture lies in widget/words.js; what concerns a household comes
// from the service and is shown as it stands. Receptacle faces, charge ports
// and cars are drawn by the plot room and served beside the page, so that the
// page asks nobody else for anything.
//
// Start reading at widget/intake.js for the element, widget/conversation.js
// for what it does at the service, and [Handler] for how it is served.
package page

import "embed"

// Files are the files of the page as they are written, index.html at the root.
//
//go:embed index.html page.css icon.svg daybreak.js widget/*.js widget/*.css widget/answers/*.js
var Files embed.FS
