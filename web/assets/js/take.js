// Enter in a value goes on to the next one, for thumbs and for calipers that type.
function valuesRound(box) {
	const group = box.closest("[data-values]");
	return group ? [...group.querySelectorAll("input[data-value]")] : [];
}

// oneMore puts an empty row under the last one.
function oneMore(box) {
	const row = box.closest(".value");
	const copy = row.cloneNode(true);
	for (const field of copy.querySelectorAll("input")) {
		field.value = "";
	}
	row.after(copy);
	return copy.querySelector("input[data-value]");
}

document.addEventListener("keydown", (event) => {
	const box = event.target;
	if (event.key !== "Enter" || !(box instanceof HTMLInputElement) || !box.matches("input[data-value]") || box.value.trim() === "") {
		return; // in an empty field it saves
	}
	const all = valuesRound(box);
	if (all.length === 0) return; // a field by itself: Enter saves
	event.preventDefault();
	(all[all.indexOf(box) + 1] ?? oneMore(box)).focus();
});

// What is opened to be typed into is ready for it.
document.addEventListener("toggle", (event) => {
	if (event.target instanceof HTMLDetailsElement && event.target.open) {
		event.target.querySelector("input[data-value]")?.focus();
	}
}, true);
