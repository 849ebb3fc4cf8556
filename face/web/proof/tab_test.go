package proof

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// patience is how long a test waits before it holds that something never comes
// about: it bounds no work, for a machine may be as slow and as busy as it likes.
const patience = 2 * time.Minute

// screen is what a browser is looked at on.
type screen struct {
	name          string
	width, height int64
	touch, dark   bool
}

var (
	phone   = screen{name: "phone", width: 390, height: 844, touch: true}
	desktop = screen{name: "desktop", width: 1280, height: 800}
)

// browser starts Debian's Chromium. Where there is none the test is skipped, and
// fails under CI.
func browser(t *testing.T) context.Context {
	t.Helper()
	if testing.Short() {
		t.Skip("a browser takes its time")
	}
	path := oracle.Find(t, "chromium", "chromium").Path()
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(t.TempDir()),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
	)
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// tab is one page that is looked at, and what it asked for and complained of.
type tab struct {
	t    *testing.T
	ctx  context.Context
	base string

	sync.Mutex
	outside []string // requests that went to another host
	console []string // what the page complained of
	lonely  bool     // the server may be gone
	bytes   float64  // received since it was set to 0
}

// open opens a tab on a server.
func open(t *testing.T, in context.Context, s *server, on screen) *tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(in)
	t.Cleanup(cancel)
	p := &tab{t: t, ctx: ctx, base: s.address}
	if err := chromedp.Do(ctx); err != nil { // opened without patience: its end would close the tab
		t.Fatal(err)
	}
	options := []chromedp.EmulateViewportOption{}
	if on.touch {
		options = append(options, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	p.do(chromedp.EmulateViewport(on.width, on.height, options...))
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{
		{Name: "prefers-color-scheme", Value: map[bool]string{false: "light", true: "dark"}[on.dark]},
		{Name: "prefers-reduced-motion", Value: "reduce"},
	}})
	if err := chromedp.Listen(ctx, p.hear); err != nil {
		t.Fatal(err)
	}
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			p.complaint(m)
		}
	}()
	t.Cleanup(p.quiet)
	return p
}

// call runs one command of the browser's protocol.
func call[P, R any](p *tab, command cdp.Command[P, R], params P) R {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	answer, err := chromedp.Call(ctx, command, params)
	if err != nil {
		p.t.Fatal(err)
	}
	return answer
}

// hear notes what the page asks for.
func (p *tab) hear(event any) {
	p.Lock()
	defer p.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		at := e.Request.URL
		if !strings.HasPrefix(at, p.base+"/") && !strings.HasPrefix(at, "data:") && !strings.HasPrefix(at, "blob:") && at != "about:blank" {
			p.outside = append(p.outside, at)
		}
	case *network.EventLoadingFinished:
		p.bytes += e.EncodedDataLength
	}
}

// complaint notes what the page complains of. The browser writes one for each
// answer that is no success, and a form that is refused is meant to be; another
// when a test reads the points of a canvas.
func (p *tab) complaint(m chromedp.ConsoleMessage) {
	bad := m.Type == chromedp.ConsoleError || m.Type == chromedp.ConsoleWarning || m.Type == chromedp.ConsoleException
	if !bad || strings.Contains(m.Text, "status of 422") || strings.Contains(m.Text, "GPU stall due to ReadPixels") {
		return
	}
	p.Lock()
	defer p.Unlock()
	if p.lonely && strings.Contains(m.Text, "net::ERR_CONNECTION_REFUSED") {
		return
	}
	p.console = append(p.console, m.String())
}

// quiet fails the test where the page asked for anything of another host, or
// complained.
func (p *tab) quiet() {
	p.Lock()
	defer p.Unlock()
	for _, at := range p.outside {
		p.t.Error("a request left the host:", at)
	}
	for _, words := range p.console {
		p.t.Error("the console says:", words)
	}
}

// do takes steps, and waits for each as long as patience.
func (p *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		p.t.Fatal(err)
	}
}

// ask returns what a script in the page answers.
func ask[T any](p *tab, script string) T {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	answer, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%v, asked %.200s", err, script)
	}
	return answer
}

// visit opens a page by its path.
func (p *tab) visit(path string) {
	p.t.Helper()
	p.do(chromedp.Navigate(p.base + path))
}

// path returns the path of the page that is open.
func (p *tab) path() string { return ask[string](p, "location.pathname") }

//go:embed testdata/find.js
var find string

// found marks the element that a person would find by these words, and returns
// how to reach it: a link or button by its name, a field by its label. It waits
// until it is there.
func (p *tab) found(words string) string { p.t.Helper(); return p.lookFor(words, false) }

// field is found for what is to be typed into, by its label.
func (p *tab) field(label string) string { p.t.Helper(); return p.lookFor(label, true) }

func (p *tab) lookFor(words string, typed bool) string {
	p.t.Helper()
	script := fmt.Sprintf("%s(%s, %t)", find, quoted(words), typed)
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if n := ask[int](p, script); n > 0 {
			return fmt.Sprintf("[data-found='%d']", n)
		}
	}
	p.shot(filepath.Join(os.TempDir(), "not-found.png"))
	p.t.Fatalf("there is no %q on %s:\n%s", words, p.path(), p.text())
	return ""
}

// press presses a link or a button, with a finger or the mouse.
func (p *tab) press(words string) {
	p.t.Helper()
	at := p.found(words)
	to := p.leadsTo(at)
	p.touch(at)
	p.arrive(to)
}

// leadsTo returns where a link leads, nothing for all else.
func (p *tab) leadsTo(at string) string {
	p.t.Helper()
	return ask[string](p, "(e => e.matches('a[href]:not([download])') ? e.href : '')(document.querySelector("+quoted(at)+"))")
}

// arrive waits for the page that a link leads to, or for what a button does.
func (p *tab) arrive(to string) {
	p.t.Helper()
	if to != "" {
		p.wait("document.querySelector('[data-found]') === null || location.href === " + quoted(to)) // it may lead on
	}
	p.settle()
}

// touch presses an element in its middle, once it is in view and nothing covers
// it.
func (p *tab) touch(at string) {
	p.t.Helper()
	at = quoted(at)
	ask[bool](p, "(document.querySelector("+at+").scrollIntoView({block: 'center', behavior: 'instant'}), true)")
	p.wait(`(() => { const e = document.querySelector(` + at + `); const b = e.getBoundingClientRect(); const now = [b.x + b.width / 2, b.y + b.height / 2].join();
		const over = document.elementFromPoint(b.x + b.width / 2, b.y + b.height / 2);
		const still = now === e.dataset.was && (e.contains(over) || over?.contains(e) || [...(e.labels ?? [])].some(l => l.contains(over))); e.dataset.was = now; return still; })()`)
	middle := strings.Split(ask[string](p, "document.querySelector("+at+").dataset.was"), ",")
	x, wrongX := strconv.ParseFloat(middle[0], 64)
	y, wrongY := strconv.ParseFloat(middle[1], 64)
	if wrongX != nil || wrongY != nil {
		p.t.Fatal("no place to touch: ", middle)
	}
	p.do(chromedp.MouseClickXY(x, y))
}

// fill types into the field with a label, after emptying it.
func (p *tab) fill(label, value string) {
	p.t.Helper()
	p.settle() // what is still being loaded would take the field away
	at := p.field(label)
	if ask[string](p, "document.querySelector("+quoted(at)+").tagName") == "SELECT" {
		ask[bool](p, choose(at, value))
		return
	}
	p.touch(at)
	p.typeOver(value)
}

// choose is a script that chooses an option by its words.
func choose(at, words string) string {
	return fmt.Sprintf(`(() => { const s = document.querySelector(%s); const o = [...s.options].find(o => o.text.trim() === %[2]s || o.value === %[2]s);
		if (!o) throw new Error("no option " + %[2]s + " in " + [...s.options].map(o => o.text).join("; "));
		s.value = o.value; s.dispatchEvent(new Event("input", {bubbles: true})); s.dispatchEvent(new Event("change", {bubbles: true})); return true; })()`, quoted(at), quoted(words))
}

// key presses a key of the keyboard where the focus is.
func (p *tab) key(keys string) {
	p.t.Helper()
	p.do(chromedp.KeyEvent(keys))
}

// focus moves the focus to an element with the tabulator alone.
func (p *tab) focus(at string) string {
	p.t.Helper()
	for range 400 {
		if ask[bool](p, "document.activeElement?.matches("+quoted(at)+") ?? false") {
			return at
		}
		p.key(kb.Tab)
	}
	p.t.Fatalf("%s cannot be reached with the tabulator: %s", at, ask[string](p, "document.querySelector("+quoted(at)+").outerHTML.slice(0, 200)"))
	return at
}

// settle waits until no form is being sent and the page is whole.
func (p *tab) settle() {
	p.t.Helper()
	time.Sleep(30 * time.Millisecond)
	p.wait("document.readyState === 'complete' && !document.querySelector('[data-sending], .htmx-request')")
}

// wait waits until a script in the page says true.
func (p *tab) wait(script string) {
	p.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(30 * time.Millisecond) {
		ctx, cancel := context.WithTimeout(p.ctx, patience)
		is, err := chromedp.Run(ctx, chromedp.Evaluate[bool](script))
		cancel()
		if err == nil && is { // a page that is just being left has no answer
			return
		}
	}
	p.shot(filepath.Join(os.TempDir(), "never.png"))
	p.t.Fatalf("it never came about on %s: %s", p.path(), script)
}

// text returns what is written on the page.
func (p *tab) text() string { return ask[string](p, "document.body.innerText") }

// says waits until these words stand on the page.
func (p *tab) says(words string) {
	p.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if strings.Contains(p.text(), words) {
			return
		}
	}
	p.t.Fatalf("%s does not say %q:\n%s", p.path(), words, p.text())
}

// shot takes a picture of the whole page.
func (p *tab) shot(path string) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	picture, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
	if err == nil {
		err = os.WriteFile(path, picture, 0o666)
	}
	if err != nil {
		p.t.Fatal(err)
	}
}

//go:embed testdata/axe.min.js
var axe string

// violation is what axe finds wrong with a page.
type violation struct {
	ID    string `json:"id"`
	Help  string `json:"help"`
	Nodes []struct {
		HTML    string `json:"html"`
		Summary string `json:"failureSummary"`
	} `json:"nodes"`
}

// accessible fails the test where axe finds anything wrong with the page, or
// where it is wider than its screen.
func (p *tab) accessible() {
	p.t.Helper()
	ask[bool](p, axe+"; true")
	for _, v := range ask[[]violation](p, `axe.run(document, {resultTypes: ["violations"]}).then(r => r.violations)`) {
		for _, n := range v.Nodes {
			p.t.Errorf("%s: %s (%s): %s\n%s", p.path(), v.Help, v.ID, n.HTML, n.Summary)
		}
	}
	if over := ask[float64](p, "document.documentElement.scrollWidth - document.documentElement.clientWidth"); over > 0 {
		p.t.Errorf("%s is %v points wider than its screen", p.path(), over)
	}
}

// quoted writes a text as a script has it.
func quoted(text string) string {
	b, err := json.Marshal(text)
	if err != nil {
		panic("proof: a text cannot be quoted")
	}
	return string(b)
}

// typeOver types in the place of what stands in the field that has the focus. A
// choice is made by the beginning of its words.
func (p *tab) typeOver(value string) {
	p.t.Helper()
	if ask[string](p, "document.activeElement.tagName") == "INPUT" {
		ask[bool](p, "(document.activeElement.select?.(), true)")
	}
	p.key(value)
}

// focusSeen fails the test where nothing shows which element has the focus.
func (p *tab) focusSeen() {
	p.t.Helper()
	if style := ask[string](p, "getComputedStyle(document.activeElement).outlineStyle"); style == "none" {
		p.t.Errorf("on %s nothing shows where the focus is: %s", p.path(), ask[string](p, "document.activeElement.outerHTML.slice(0, 200)"))
	}
}
