package facts

// textForm is the stated form of a Text leaf.
type textForm struct {
	accepted string
	ok       func(string) bool
}

const longestText = 64

var (
	idText = &textForm{
		"an id of 1 to 64 letters, digits, dots, dashes or underscores",
		func(s string) bool { return every(s, 1, longestText, isIDByte) },
	}
	postalText = &textForm{
		"5 digits",
		func(s string) bool { return every(s, 5, 5, isDigit) },
	}
	zoneText = &textForm{
		"a time zone such as America/New_York",
		func(s string) bool { return every(s, 1, longestText, isZoneByte) },
	}
)

func every(s string, least, most int, ok func(byte) bool) bool {
	if len(s) < least || len(s) > most {
		return false
	}
	for i := range len(s) {
		if !ok(s[i]) {
			return false
		}
	}
	return true
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isLetter(c byte) bool { return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' }

func isIDByte(c byte) bool {
	return isDigit(c) || isLetter(c) || c == '.' || c == '-' || c == '_'
}

func isZoneByte(c byte) bool {
	return isDigit(c) || isLetter(c) || c == '/' || c == '-' || c == '_' || c == '+'
}
