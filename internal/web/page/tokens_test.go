package page_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"daybreak/internal/web/page"
)

// themes reads the colour tokens of the widget: name to light and dark.
func themes(t *testing.T) map[string][2]string {
	t.Helper()
	css, err := page.Files.ReadFile("widget/widget.css")
	require.NoError(t, err)
	token := regexp.MustCompile(`--([a-z0-9-]+): (?:var\(--[a-z-]+, )?light-dark\((#[0-9A-F]{6}), (#[0-9A-F]{6})\)`)
	all := map[string][2]string{}
	for _, m := range token.FindAllStringSubmatch(string(css), -1) {
		all[m[1]] = [2]string{m[2], m[3]}
	}
	require.Greater(t, len(all), 18)
	return all
}

// luminance is the relative luminance of a colour.
//
// Source: WCAG 2.2, definition of relative luminance.
func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	channel := func(at int) float64 {
		v, err := strconv.ParseUint(colour[at:at+2], 16, 8)
		require.NoError(t, err)
		c := float64(v) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*channel(1) + 0.7152*channel(3) + 0.0722*channel(5)
}

// Text on each ground it stands on has a contrast of 4.5, borders of 3.
//
// Source: WCAG 2.2, success criteria 1.4.3 and 1.4.11.
func TestEveryColourIsReadOnItsGround(t *testing.T) {
	colours := themes(t)
	pairs := 0
	for _, row := range []struct {
		least   float64
		front   string
		grounds string
	}{
		{4.5, "ink", "paper card sunk act-tint told-tint unsure-tint info-tint halt-tint"},
		{4.5, "ink2", "paper card sunk told-tint unsure-tint info-tint halt-tint"},
		{4.5, "act", "paper card sunk act-tint"},
		{4.5, "on-act", "act act-down"},
		{4.5, "told", "card told-tint"}, {4.5, "unsure", "card unsure-tint"}, {4.5, "info", "card info-tint"},
		{4.5, "halt", "paper card halt-tint"},
		{3, "line", "paper card sunk"}, {3, "focus", "paper card sunk"},
	} {
		for _, ground := range strings.Fields(row.grounds) {
			for theme, name := range []string{"light", "dark"} {
				a, b := luminance(t, colours[row.front][theme]), luminance(t, colours[ground][theme])
				contrast := (max(a, b) + 0.05) / (min(a, b) + 0.05)
				require.GreaterOrEqual(t, contrast, row.least, "%s on %s, %s", row.front, ground, name)
				pairs++
			}
		}
	}
	t.Logf("%d pairs of colours", pairs)
}

// The page speaks calmly: short sentences, nothing urged, nobody praised.
func TestTheWordsKeepTheTone(t *testing.T) {
	text, err := page.Files.ReadFile("widget/words.js")
	require.NoError(t, err)
	said := regexp.MustCompile("'([^'\n]*)'|`([^`\n]*)`").FindAllStringSubmatch(string(text), -1)
	require.Greater(t, len(said), 120)
	sentence := regexp.MustCompile(`[.?:]\s+`)
	urging := regexp.MustCompile(`(?i)!|\b(just|simply|easy|easily|sorry|please|invalid|don.t worry|great|hurry)\b`)
	for _, m := range said {
		words := m[1] + m[2]
		require.False(t, urging.MatchString(words), words)
		for _, each := range sentence.Split(words, -1) {
			require.LessOrEqual(t, len(strings.Fields(each)), 20, each)
		}
	}
}
