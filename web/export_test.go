package web

// Reencode makes a picture anew, for tests.
var Reencode = reencode

