// What every page does beyond showing itself: it keeps what is half typed in this
// browser, sends a form without leaving the page, and sends it again where there
// was no connection. A form is kept by the name in its data-keep. All of it may
// fail or be switched off, and the page still works.

const half = "half:"; // what is typed and not sent, by the form's name
const waiting = "waiting"; // what was sent and did not arrive, the oldest first
const patience = 10_000; // ms between two tries

const store = {
	read(key, otherwise) {
		try {
			return JSON.parse(localStorage.getItem(key)) ?? otherwise;
		} catch {
			return otherwise;
		}
	},
	write(key, value) {
		try {
			if (value === null) localStorage.removeItem(key);
			else localStorage.setItem(key, JSON.stringify(value));
			return true;
		} catch {
			return false; // full or forbidden: nothing is kept, the page says so
		}
	},
};

const keepable = (field) => field.name && !field.disabled && !["hidden", "file", "password", "submit", "button"].includes(field.type);

// typed lists what stands in a form, as pairs of name and value.
function typed(form) {
	const list = [];
	for (const field of form.elements) {
		if (!keepable(field)) continue;
		if (["checkbox", "radio"].includes(field.type)) {
			if (field.checked) list.push([field.name, field.value]);
		} else if (field.tagName !== "BUTTON") list.push([field.name, field.value]);
	}
	return list;
}

// putBack writes what was typed into a form again, field by field in order.
function putBack(form, list) {
	const left = new Map();
	for (const [name, value] of list) left.set(name, [...(left.get(name) ?? []), value]);
	for (const field of form.elements) {
		if (!keepable(field)) continue;
		const values = left.get(field.name);
		if (["checkbox", "radio"].includes(field.type)) field.checked = !!values?.includes(field.value);
		else if (values?.length) field.value = values.shift();
	}
	form.dispatchEvent(new Event("input", { bubbles: true }));
}

function same(a, b) {
	return JSON.stringify(a) === JSON.stringify(b);
}

// take looks after the forms of a page or of a part of one that is new.
function take(root) {
	for (const form of root.querySelectorAll("form[data-keep]")) {
		if (form.dataset.taken) continue;
		form.dataset.taken = "yes";
		const key = half + form.dataset.keep;
		const fresh = typed(form);
		const before = store.read(key, null);
		if (before && !form.querySelector("[aria-invalid]") && !same(before, fresh)) {
			putBack(form, before);
			note(form, "What you had typed is here again.", "Forget it", () => {
				store.write(key, null);
				form.reset();
				form.querySelector(".kept-note")?.remove();
			});
		}
		form.addEventListener("input", () => {
			if (!store.write(key, typed(form))) say("This browser keeps nothing: save before you leave the page.");
		});
	}
}

// note says something in a form, with one thing that can be done about it.
function note(form, words, action, act) {
	const p = document.createElement("p");
	p.className = "kept-note";
	p.append(words + " ");
	const button = document.createElement("button");
	button.type = "button";
	button.textContent = action;
	button.addEventListener("click", act);
	p.append(button);
	form.prepend(p);
}

// say tells how what was typed stands.
function say(words) {
	const place = document.getElementById("kept");
	if (place && place.textContent !== words) place.textContent = words;
}

// send sends one form. It returns the answer, or null where nobody answered.
async function send(action, body) {
	try {
		return await fetch(action, { method: "POST", body, headers: { "X-Bench": "form" } });
	} catch {
		return null;
	}
}

// put shows an answered page in place of this one.
async function put(answer) {
	const page = new DOMParser().parseFromString(await answer.text(), "text/html");
	for (const id of ["main", "answer"]) {
		const old = document.getElementById(id);
		const fresh = page.getElementById(id);
		if (old && fresh) old.replaceWith(document.adoptNode(fresh));
	}
	const old = document.querySelector("header.head");
	const fresh = page.querySelector("header.head");
	if (old && fresh) old.replaceWith(document.adoptNode(fresh));
	document.title = page.title;
	if (answer.ok && answer.url !== location.href) history.pushState({}, "", answer.url);
	const main = document.getElementById("main");
	globalThis.htmx?.process(document.body);
	take(document);
	count();
	const first = main.querySelector("[role=alert], [autofocus]") ?? main;
	if (first.getAttribute("role") === "alert") first.tabIndex = -1;
	first.focus();
	document.dispatchEvent(new CustomEvent("bench:page"));
}

document.addEventListener("submit", onSubmit, true);

async function onSubmit(event) {
	const form = event.target;
	if (!form.dataset?.keep || form.method !== "post") return;
	event.preventDefault();
	event.stopImmediatePropagation();
	if (form.dataset.sending) return;
	form.dataset.sending = "yes";
	form.setAttribute("aria-busy", "true");
	const body = new FormData(form, event.submitter ?? undefined);
	const files = [...body.values()].some((value) => value instanceof File && value.size > 0);
	const encoded = files ? body : new URLSearchParams([...body].filter(([, value]) => typeof value === "string"));
	const action = event.submitter?.getAttribute("formaction") ?? form.getAttribute("action") ?? location.href;
	const answer = await send(action, encoded);
	delete form.dataset.sending;
	form.removeAttribute("aria-busy");
	if (answer) {
		if (answer.ok) store.write(half + form.dataset.keep, null);
		await put(answer);
	} else if (files) {
		say("There is no connection: nothing was sent. Send it again when it is back.");
	} else {
		await wait(form, action, encoded.toString());
	}
}

// wait keeps a form that nobody answered, to be sent again. The same form sent
// twice is saved once, so it does no harm if it had arrived.
function wait(form, action, body) {
	const list = store.read(waiting, []);
	if (!list.some((one) => one.action === action && one.body === body)) list.push({ action, body });
	if (store.write(waiting, list)) {
		store.write(half + form.dataset.keep, null);
		count();
	} else say("There is no connection, and this browser keeps nothing: leave the page open and save again.");
}

// count says how many forms wait.
function count() {
	const n = store.read(waiting, []).length;
	if (n > 0) say(`No connection: ${n === 1 ? "one entry is" : n + " entries are"} kept in this browser and will be sent when it is back.`);
	else if (document.getElementById("kept")?.textContent.startsWith("No connection")) say("");
}

let trying = false;

// again sends what waits, the oldest first, until one is not answered.
async function again() {
	if (trying || store.read(waiting, []).length === 0) return;
	trying = true;
	let sent = 0;
	for (let list = store.read(waiting, []); list.length > 0; list = store.read(waiting, [])) {
		const answer = await send(list[0].action, new URLSearchParams(list[0].body));
		if (!answer || answer.status >= 500) break;
		if (!answer.ok) refused(list[0], await answer.text());
		else sent++;
		store.write(waiting, store.read(waiting, []).filter((one) => !same(one, list[0])));
	}
	trying = false;
	count();
	if (sent > 0 && store.read(waiting, []).length === 0) say(`Sent: what had waited is saved (${sent}). Load the page again to see it.`);
}

// refused shows what was wrong with a form that had waited, and what was typed.
function refused(one, page) {
	const wrongs = new DOMParser().parseFromString(page, "text/html").querySelector("[role=alert]")?.textContent ?? "";
	const box = document.createElement("div");
	box.setAttribute("role", "alert");
	box.className = "wrongs";
	const values = [...new URLSearchParams(one.body)].filter(([name]) => !["from", "once", "back"].includes(name)).map(([name, value]) => `${name}: ${value}`);
	box.textContent = `What had waited could not be saved. ${wrongs} You had typed: ${values.join("; ")}`;
	document.getElementById("main").prepend(box);
}

window.addEventListener("online", again);
window.addEventListener("popstate", () => location.reload());
document.addEventListener("htmx:after:swap", () => take(document));
setInterval(again, patience);
take(document);
count();
again();
