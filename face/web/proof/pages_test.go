package proof

import (
	"strings"
	"testing"
)

// TestEveryPage opens every page that a link leads to from the first one, on a
// telephone in the light and on a desktop in the dark: axe finds nothing wrong, nothing
// is wider than the screen, no request leaves the host, nothing is complained of.
func TestEveryPage(t *testing.T) {
	chromium := browser(t)
	s := fresh(t)
	for _, on := range []screen{phone, {name: "desktop, dark", width: 1280, height: 800, dark: true}} {
		t.Run(on.name, func(t *testing.T) {
			p := open(t, chromium, s, on)
			seen := map[string]bool{}
			for left := []string{"/"}; len(left) > 0; left = left[1:] {
				at := left[0]
				if seen[kind(at)] {
					continue
				}
				seen[kind(at)] = true
				p.visit(at)
				p.accessible()
				left = append(left, p.links()...)
			}
			if len(seen) < 12 {
				t.Errorf("only %d kinds of page were found", len(seen))
			}
		})
	}
}

// links lists the paths of pages of this host that the page leads to.
func (p *tab) links() []string {
	return ask[[]string](p, `[...document.querySelectorAll("a[href]:not([download])")].filter(a => a.host === location.host && !a.hash)
		.map(a => a.pathname + a.search).filter(at => !at.startsWith("/a/") && !/\.[a-z0-9]+$/.test(at.split("?")[0]))`)
}

// kind is a path without what tells one job, size or revision from another: one
// page of each kind is enough.
func kind(path string) string {
	path, _, _ = strings.Cut(path, "?")
	steps := strings.Split(path, "/")
	for i := range steps {
		if i == 2 || i >= 4 {
			steps[i] = "*"
		}
	}
	return strings.Join(steps, "/")
}
