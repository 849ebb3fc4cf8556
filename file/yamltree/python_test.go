package yamltree

import (
	"os"
	"os/exec"
	"testing"
)

// python is Debian's own: another may come first on the path.
const python = "/usr/bin/python3"

// needPyYAML skips a test where PyYAML is missing; under CI it fails.
func needPyYAML(t *testing.T) {
	t.Helper()
	if exec.Command(python, "-c", "import yaml").Run() == nil {
		return
	}
	const missing = "the independent reader needs the Debian package python3-yaml"
	if os.Getenv("CI") == "true" {
		t.Fatal(missing)
	}
	t.Skip(missing)
}
