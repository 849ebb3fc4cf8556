package unit

import (
	"fmt"
	"strings"
)

// Text is words with amounts in them, which are written when somebody is shown
// the text and not before. The zero Text has no words.
type Text struct {
	format string
	args   []any
}

// Say returns a text by a format of fmt. An argument that is an Amount is shown in
// the units of who reads, whatever its verb; another Text is an Amount too.
func Say(format string, args ...any) Text { return Text{format, args} }

// Words returns a text of plain words.
func Words(text string) Text { return Text{"%s", []any{text}} }

// Empty reports whether a text has no words.
func (t Text) Empty() bool { return t.format == "" || t.Shown(View{}) == "" }

// Is reports whether two texts read alike.
func (t Text) Is(other Text) bool { return t.Shown(View{}) == other.Shown(View{}) }

// Join puts texts one behind the other with words between them.
func Join(list []Text, between string) Text {
	args := make([]any, 0, 2*len(list))
	for i, t := range list {
		if i > 0 {
			args = append(args, between)
		}
		args = append(args, t)
	}
	return Text{strings.Repeat("%s", len(args)), args}
}

// Shown writes the text.
func (t Text) Shown(v View) string {
	args := make([]any, len(t.args))
	for i, arg := range t.args {
		if amount, ok := arg.(Amount); ok {
			arg = amount.Shown(v)
		}
		args[i] = arg
	}
	return fmt.Sprintf(t.format, args...)
}
