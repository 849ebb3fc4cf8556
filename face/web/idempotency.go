package web

import (
	"crypto/rand"
	"strings"
)

// The letters and lengths of ids of the record, as it writes them: none that is
// read as another when written by hand.
const (
	keyLetters = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
	newJob     = 6
	newEntry   = 16
)

// newIdempotencyKey draws an id for what a form is going to make. It goes out with the form
// and comes back with it: however often that is sent, one thing is made.
func newIdempotencyKey(length int) string {
	var id strings.Builder
	for id.Len() < length {
		for _, letter := range rand.Text() {
			if strings.ContainsRune(keyLetters, letter) && id.Len() < length {
				id.WriteRune(letter)
			}
		}
	}
	return id.String()
}

// isIdempotencyKey reports whether a text can have been drawn so.
func isIdempotencyKey(text string, length int) bool {
	return len(text) == length && strings.Trim(text, keyLetters) == ""
}
