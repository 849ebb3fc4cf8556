package gauge

import (
	"strings"
	"unicode"
)

// WithNumbers returns the formula with every symbol replaced by what show says
// for its role: "m = D + 2d" becomes "m = 50.000 + 2·6.000". A number that
// would not stand alone, -1 or 2 9/64, is put in brackets. Symbols of
// intermediate values and functions stay.
func (m *Method) WithNumbers(show func(role int) string) string {
	var out strings.Builder
	text := []rune(m.Formula)
	for i := 0; i < len(text); {
		word := wordAt(text[i:])
		if role := m.bySymbol(string(word)); role >= 0 {
			if i > 0 && unicode.IsDigit(text[i-1]) {
				out.WriteRune('·')
			}
			out.WriteString(bracketed(show(role)))
			if next := i + len(word); next < len(text) && text[next] == '(' {
				out.WriteRune('·')
			}
		} else {
			out.WriteString(string(word))
		}
		i += len(word)
	}
	return out.String()
}

// wordAt returns the symbol or name that text begins with, letters and then
// digits, or else its first rune.
func wordAt(text []rune) []rune {
	n := 0
	for n < len(text) && unicode.IsLetter(text[n]) {
		n++
	}
	if n == 0 {
		return text[:1]
	}
	for n < len(text) && unicode.IsDigit(text[n]) {
		n++
	}
	return text[:n]
}

// bySymbol returns the role with this symbol, -1 if there is none.
func (m *Method) bySymbol(symbol string) int {
	for i := range m.Roles {
		if m.Roles[i].Symbol == symbol {
			return i
		}
	}
	return -1
}

func bracketed(number string) string {
	if strings.HasPrefix(number, "-") || strings.ContainsAny(number, " /") {
		return "(" + number + ")"
	}
	return number
}
