// Package proof takes the page as its users do: the program itself is built and
// started, and used in a browser, over the wire, by many at once, and killed.
// There is nothing in it but tests.
package proof
