package web

// Reencode makes a picture anew, for tests.
var Reencode = reencode

// Patterns are those of all actions of the page.
func Patterns(b Bench) []string { return newServer(b, Guard{}).patterns }
