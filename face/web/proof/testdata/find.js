((words, typed) => {
	// The element that a person would find by these words, marked with a number: 0 for none. Where something
	// is to be typed only fields are looked at.
	const plain = (text) => (text ?? "").replace(/\s+/g, " ").trim();
	const seen = (e) => e.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true });
	const name = (e) =>
		plain(e.getAttribute("aria-label")) ||
		(e.getAttribute("aria-labelledby") ?? "").split(" ").map((id) => plain(document.getElementById(id)?.textContent)).join(" ").trim() ||
		plain([...(e.labels ?? [])].map((l) => l.textContent).join(" ")) ||
		plain(e.tagName === "INPUT" && ["submit", "button"].includes(e.type) ? e.value : e.textContent);
	const all = [...document.querySelectorAll(typed ? "input:not([type=hidden]), select, textarea" : "a[href], button, summary, input:not([type=hidden]), select, textarea, [role=button]")].filter(seen);
	const hit = all.find((e) => name(e) === words) ?? all.find((e) => name(e).startsWith(words)) ?? all.find((e) => name(e).includes(words));
	if (!hit) return 0;
	window.foundLast = (window.foundLast ?? 0) + 1;
	hit.setAttribute("data-found", window.foundLast);
	return window.foundLast;
})
