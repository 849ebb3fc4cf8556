package unit

import "fmt"

// Text is words with amounts in them, which are written when somebody is shown
// the text and not before. The zero Text has no words.
type Text struct {
	format string
	args   []any
}

// Say returns a text by a format of fmt. An argument that is an Amount is shown in
// the units of who reads, whatever its verb; others are formatted at once.
func Say(format string, args ...any) Text { return Text{format, args} }

// Words returns a text of plain words.
func Words(text string) Text { return Text{"%s", []any{text}} }

// Empty reports whether a text has no words.
func (t Text) Empty() bool { return t.format == "" || t.Shown(View{}) == "" }

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
