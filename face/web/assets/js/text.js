// Puts the cursor where a fault is.
const box = document.getElementById("text");

// lineStart is where a line, counted from 1, begins in a text.
function lineStart(text, line) {
	let at = 0;
	for (let i = 1; i < line && at >= 0; i++) {
		at = text.indexOf("\n", at) + 1 || text.length;
	}
	return at;
}

document.addEventListener("click", (event) => {
	const link = event.target.closest("a[data-line]");
	if (!link || !(box instanceof HTMLTextAreaElement)) {
		return;
	}
	event.preventDefault();
	const start = lineStart(box.value, Number(link.dataset.line));
	const at = start + Number(link.dataset.column) - 1;
	const end = box.value.indexOf("\n", start);
	box.focus();
	box.setSelectionRange(Math.min(at, box.value.length), end < 0 ? box.value.length : end);
	const height = parseFloat(getComputedStyle(box).lineHeight);
	box.scrollTop = (Number(link.dataset.line) - 3) * height;
	box.scrollIntoView({block: "center"});
});
