// Package near finds the word that somebody may have meant by one that is not
// known, for errors that end in "did you mean".
package near

import "unicode/utf8"

// The limits of likeness: how many letters may differ, and how long a word is
// still compared.
const (
	mostEdits   = 2
	longestWord = 64
)

// Word returns the word nearest to word among some, the first of several that
// are as near. Nearness is the number of letters put in, taken out or changed
// (V. I. Levenshtein's distance): at most 2, and fewer than word has letters.
// It returns false where no word is so near, and for words of over 64 bytes.
func Word(word string, among []string) (string, bool) {
	best, least := "", min(mostEdits, utf8.RuneCountInString(word)-1)+1
	for _, candidate := range among {
		if max(len(word), len(candidate)) > longestWord {
			continue
		}
		if edits := distance([]rune(word), []rune(candidate)); edits < least {
			best, least = candidate, edits
		}
	}
	return best, best != ""
}

// distance keeps one row of the table of distances between the beginnings of a
// and those of b.
func distance(a, b []rune) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		diagonal := row[0]
		row[0] = i + 1
		for j := range b {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, diagonal+1)
		}
	}
	return row[len(b)]
}
