package near

import (
	"strings"
	"testing"
)

func TestWord(t *testing.T) {
	names := []string{"nose", "socket", "taper", "h1", "h2", "größe"}
	for _, c := range []struct {
		word, want string
	}{
		{"nose", "nose"},
		{"noes", "nose"},
		{"Nose", "nose"},
		{"nos", "nose"},
		{"tapper", "taper"},
		{"sockets", "socket"},
		{"skt", ""},
		{"h3", "h1"}, // the first of two as near
		{"x1", "h1"},
		{"x9", ""}, // every letter is another
		{"h", ""},
		{"grösze", "größe"},
		{"", ""},
		{strings.Repeat("n", 65), ""},
	} {
		got, ok := Word(c.word, names)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("%q is near %q (%t), want %q", c.word, got, ok, c.want)
		}
	}
}

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"kitten", "sitting", 3}, // the usual example: k to s, e to i, and a g
		{"", "abc", 3},
		{"abc", "", 3},
		{"flaw", "lawn", 2},
		{"ab", "ba", 2},
	} {
		if got := distance([]rune(c.a), []rune(c.b)); got != c.want {
			t.Errorf("%q to %q takes %d, want %d", c.a, c.b, got, c.want)
		}
	}
}
