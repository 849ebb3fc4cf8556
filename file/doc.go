// Package file is the wing of what is kept.
//
// jobfile reads the text of a job, and says with line and column what is wrong with
// it; jobedit changes the text as a person would and leaves the rest of it as it is;
// store keeps the shop's record: every save of a job for ever, spares, photographs,
// copies. The wing has no code of its own.
package file
