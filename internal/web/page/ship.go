package page

import "regexp"

// The comments of the scripts are for those who read the repository: a fifth
// of the bytes on the wire, and nothing to a browser. They are left out when
// the files are served; what runs is otherwise what is written.
var comments = map[string][]*regexp.Regexp{
	".js": {
		regexp.MustCompile(`(?m)^[ \t]*//.*\n`),
		regexp.MustCompile(`(?m)^[ \t]*/\*\*(?:[^*]|\*+[^*/])*\*+/[ \t]*\n`),
		regexp.MustCompile(`/\*\* @(?:[^*\n]|\*+[^*/\n])*\*+/ ?`),
	},
	".css": {
		regexp.MustCompile(`(?m)^[ \t]*/\*(?:[^*\n]|\*+[^*/\n])*\*+/[ \t]*\n`),
	},
}

// ship gives the content of a file as it is sent.
func ship(extension string, content []byte) []byte {
	for _, comment := range comments[extension] {
		content = comment.ReplaceAll(content, nil)
	}
	return content
}
