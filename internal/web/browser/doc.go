// Package browser holds the tests of the chat page in a real Chromium: whole
// conversations by keyboard alone against the real service, an accessibility
// engine over every screen, and screenshots at three widths.
//
// Nothing here is part of the program. The tests need a Chromium on the path
// and the npm tools of internal/web/package.json; what is missing is named and
// fails the test, since a skipped test would look like a passed one.
// DAYBREAK_SHOTS names a folder the screenshots are written to.
package browser
