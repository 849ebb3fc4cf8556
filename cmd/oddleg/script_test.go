package main

import (
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"oddleg": main})
}

// TestScripts uses the program as a user does: each script of testdata/script
// runs commands and looks at what they print and write.
func TestScripts(t *testing.T) {
	if testing.Short() {
		t.Skip("one command after the other: nothing for the race detector")
	}
	testscript.Run(t, testscript.Params{Dir: "testdata/script", RequireExplicitExec: true})
}
