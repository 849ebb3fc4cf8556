package web

import (
	"crypto/rand"
	"strings"
)

// The letters and lengths of ids of the record, as it writes them: none that is
// read as another when written by hand.
const (
	onceLetters = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
	newJob      = 6
	newEntry    = 16
)

// once draws an id for what a form is going to make. It goes out with the form
// and comes back with it: however often that is sent, one thing is made.
func once(length int) string {
	var id strings.Builder
	for id.Len() < length {
		for _, letter := range rand.Text() {
			if strings.ContainsRune(onceLetters, letter) && id.Len() < length {
				id.WriteRune(letter)
			}
		}
	}
	return id.String()
}

// isOnce reports whether a text can have been drawn so.
func isOnce(text string, length int) bool {
	return len(text) == length && strings.Trim(text, onceLetters) == ""
}
