// Enter in one of several values goes on to the next one, for thumbs and for
// calipers that type.

// oneMore puts an empty row under the last one.
function oneMore(group) {
	const rows = group.querySelectorAll(".value");
	const last = rows[rows.length - 1];
	const row = last.cloneNode(true);
	for (const field of row.querySelectorAll("input")) field.value = "";
	for (const name of row.querySelectorAll(".unseen")) name.textContent = name.textContent.replace(/\d+/, rows.length + 1);
	last.after(row);
	return row.querySelector("input");
}

document.addEventListener("keydown", (event) => {
	const box = event.target;
	if (event.key !== "Enter" || !(box instanceof HTMLInputElement) || box.value.trim() === "") return; // in an empty one it saves
	const group = box.closest("[data-values]");
	if (!group) return;
	event.preventDefault();
	const all = [...group.querySelectorAll("input[data-value]")];
	(all[all.indexOf(box) + 1] ?? oneMore(group)).focus();
});

// What is opened to be typed into is ready for it.
document.addEventListener("toggle", (event) => {
	if (event.target instanceof HTMLDetailsElement && event.target.open) {
		event.target.querySelector("input[data-value]")?.focus();
	}
}, true);
