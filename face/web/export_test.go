package web

// Reencode makes a picture anew, for tests.
var Reencode = reencode

// Patterns are those of all actions of the page.
func Patterns(c Config) []string {
	return newTable(&desk{Config: c, cache: newCache(), tasks: newTasks()}).patterns
}
