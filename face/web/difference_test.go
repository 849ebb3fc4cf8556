package web

import (
	"math/rand/v2"
	"strings"
	"testing"
)

// TestDifference compares texts whose differences are plain (constructed).
func TestDifference(t *testing.T) {
	for _, c := range []struct{ name, older, newer, want string }{
		{"nothing", "", "", ""},
		{"the same", "a\nb\n", "a\nb\n", " a  b "},
		{"a new text", "", "a\n", "+a "},
		{"all gone", "a\nb\n", "", "−a −b "},
		{"a line put in", "a\nc\n", "a\nb\nc\n", " a +b  c "},
		{"a line changed", "a\nb\nc\n", "a\nB\nc\n", " a −b +B  c "},
		{"a line moved", "a\nb\nc\n", "b\nc\na\n", "−a  b  c +a "},
		{"other line ends only", "a\r\nb\r\n", "a\nb\n", " a  b "},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got strings.Builder
			for _, line := range difference([]byte(c.older), []byte(c.newer)) {
				sign := line.Sign
				if sign == "" {
					sign = " "
				}
				got.WriteString(sign + line.Text + " ")
			}
			if got.String() != c.want {
				t.Errorf("got %q, want %q", got.String(), c.want)
			}
		})
	}
}

// TestDifferenceOfAny makes texts of few words, so that many lines are alike: both
// texts must come out of their difference again, numbered, and no shorter way may
// be found by the plain table of longest common parts.
func TestDifferenceOfAny(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		a, b := fewWords(random), fewWords(random)
		list := difference(asText(a), asText(b))
		var older, newer []string
		same := 0
		for _, line := range list {
			if line.Sign != "+" {
				older = append(older, line.Text)
				if line.Old != len(older) {
					t.Fatalf("line %q of the older text is numbered %d, want %d", line.Text, line.Old, len(older))
				}
			}
			if line.Sign != "−" {
				newer = append(newer, line.Text)
				if line.New != len(newer) {
					t.Fatalf("line %q of the newer text is numbered %d, want %d", line.Text, line.New, len(newer))
				}
			}
			if line.Sign == "" {
				same++
			}
		}
		if strings.Join(older, " ") != strings.Join(a, " ") || strings.Join(newer, " ") != strings.Join(b, " ") {
			t.Fatalf("%v and %v do not come out again: %v", a, b, list)
		}
		if want := longestCommon(a, b); same != want {
			t.Fatalf("%v and %v: %d lines are kept, want %d", a, b, same, want)
		}
	}
}

// TestHugeDifference has more changes than are searched for: nothing is lost.
func TestHugeDifference(t *testing.T) {
	older, newer := strings.Repeat("a\nb\n", 5000), strings.Repeat("c\n", 9000)
	if got := len(difference([]byte(older), []byte(newer))); got != 19000 {
		t.Errorf("%d lines, want 10000 gone and 9000 come", got)
	}
}

func TestAround(t *testing.T) {
	list := difference([]byte("1\n2\n3\n4\n5\n6\n7\n8\n9\n"), []byte("1\n2\n3\n4\nx\n6\n7\n8\n9\n"))
	var got []string
	for _, line := range around(list, 1) {
		got = append(got, line.Sign+line.Text)
	}
	if want := "|4|−5|+x|6|"; strings.Join(got, "|") != want {
		t.Errorf("got %q, want %q", strings.Join(got, "|"), want)
	}
}

func fewWords(random *rand.Rand) []string {
	list := make([]string, random.IntN(12))
	for i := range list {
		list[i] = string(rune('a' + random.IntN(4)))
	}
	return list
}

func asText(lines []string) []byte {
	if len(lines) == 0 {
		return nil
	}
	return []byte(strings.Join(lines, "\n") + "\n")
}

// longestCommon is the length of the longest list that is in both.
func longestCommon(a, b []string) int {
	table := make([][]int, len(a)+1)
	for i := range table {
		table[i] = make([]int, len(b)+1)
	}
	for i := range a {
		for j := range b {
			table[i+1][j+1] = max(table[i][j+1], table[i+1][j])
			if a[i] == b[j] {
				table[i+1][j+1] = table[i][j] + 1
			}
		}
	}
	return table[len(a)][len(b)]
}
