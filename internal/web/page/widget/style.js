// The widget's own style sheet, fetched once and shared by every widget on the page. A constructed sheet needs no
// inline style, so the strictest content policy lets it be.

export const sheet = new CSSStyleSheet()

/** Settles when the styles are in place, or when there are none to be had. */
export const styled = fetch(new URL('./widget.css', import.meta.url))
  .then((response) => (response.ok ? response.text() : ''))
  .then((text) => sheet.replaceSync(text))
  .catch(() => undefined)
