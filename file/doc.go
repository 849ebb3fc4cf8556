// Package file is the wing of what is kept.
//
// jobfile reads the text of a job, says with line and column what is wrong with it,
// and changes it as a person would; store keeps the shop's record: every save of a
// job for ever, spares, photographs, copies; index says what a job is found by. The
// wing has no code of its own.
package file
