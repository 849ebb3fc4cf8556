package web

import "net/http"

// Reencode makes a picture anew, for tests.
var Reencode = reencode

// Patterns are those of all actions of the page.
func Patterns(c Config) []string {
	return newTable(newDesk(c, Guard{})).patterns
}

// NewWaiting is New, with a function that waits until a task has ended.
func NewWaiting(c Config, g Guard) (http.Handler, func(task string)) {
	s := newDesk(c, g)
	return s.handler(), func(task string) {
		if t := s.tasks.find(task); t != nil { // else its page says that it is forgotten
			<-t.ended
		}
	}
}
