// Package file is the wing of what is kept.
//
// yamltree makes the tree of a text; jobfile reads a job from it, and says with line
// and column what is wrong; jobedit changes the text as a person would; store keeps
// the shop's record: every save of a job for ever, spares, photographs, copies; index
// says what a job is found by. The wing has no code of its own.
package file
