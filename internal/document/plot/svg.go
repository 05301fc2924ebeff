package plot

import (
	"strings"

	"daybreak/internal/unit"
)

// millimetres prints a length or coordinate of a picture.
func millimetres(v float64) string { return unit.Print(v, 2) }

var escape = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

// element wraps a drawing: role, title and description for those who cannot
// see it, and the view box in millimetres.
func element(kind, id string, x, y, w, h float64, says caption, drawing string) string {
	key := "pic-" + kind + "-" + strings.ReplaceAll(id, " ", "-")
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" class="db-` + kind + `" role="img" aria-labelledby="` + key + `-t ` + key + `-d" viewBox="`)
	b.WriteString(strings.Join([]string{millimetres(x), millimetres(y), millimetres(w), millimetres(h)}, " "))
	b.WriteString(`" fill="none" stroke="none">`)
	b.WriteString(`<title id="` + key + `-t">` + escape.Replace(says.Title) + `</title>`)
	b.WriteString(`<desc id="` + key + `-d">` + escape.Replace(says.Desc) + `</desc>`)
	b.WriteString(drawing)
	b.WriteString(`</svg>`)
	return b.String()
}

// tag writes an element from names and values of an element; values are ours, never a
// person's.
func tag(name string, attrs ...string) string {
	var b strings.Builder
	b.WriteString("<" + name)
	for i := 0; i+1 < len(attrs); i += 2 {
		b.WriteString(` ` + attrs[i] + `="` + escape.Replace(attrs[i+1]) + `"`)
	}
	b.WriteString("/>")
	return b.String()
}
