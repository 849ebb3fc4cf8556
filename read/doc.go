// Package read is the wing from readings to sizes.
//
// gauge is the catalogue of ways to measure, survey that of ways to look how far a
// machine has worn; sound says whether a job is sound by itself; adjust turns readings
// into sizes with their uncertainty, and says what is suspect and what cannot be found;
// simulate does the same by drawing lots; blunder says what somebody may have done
// wrong; advise what to read next. The wing has no code of its own.
package read
