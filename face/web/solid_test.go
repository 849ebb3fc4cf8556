package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestBundleIsOfItsSources fails where solid.js or what it is bundled with was
// changed and web/solid/bundle was not run after it.
func TestBundleIsOfItsSources(t *testing.T) {
	noted, err := os.ReadFile("solid/bundled.txt")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(noted)), "\n")
	if len(lines) != 3 {
		t.Fatalf("%d files are noted, want the source, the lock file and the bundle", len(lines))
	}
	for _, line := range lines {
		want, name, _ := strings.Cut(line, "  ")
		data, err := os.ReadFile(filepath.Join("solid", name))
		if err != nil {
			t.Fatal(err)
		}
		if sum := sha256.Sum256(data); hex.EncodeToString(sum[:]) != want {
			t.Errorf("%s is not what was bundled: run web/solid/bundle", name)
		}
		if strings.HasSuffix(name, "assets/js/solid.js") && !bytes.Contains(data, []byte("SPDX-License-Identifier: MIT")) {
			t.Error("the bundle does not carry the licence of what is in it")
		}
	}
}
