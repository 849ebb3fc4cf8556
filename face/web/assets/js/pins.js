// Pins of a photograph stand where they belong, and a touch of the picture says
// where the next one goes.

function lay() {
	const figure = document.querySelector(".pinned");
	if (!figure || figure.dataset.laid) return;
	figure.dataset.laid = "yes";
	for (const spot of figure.querySelectorAll(".spots li")) place(spot, Number(spot.dataset.across), Number(spot.dataset.down));
	const picture = figure.querySelector("img");
	const across = document.getElementById("across");
	const down = document.getElementById("down");
	if (!across || !down) return;
	const next = document.createElement("li");
	next.className = "next";
	next.textContent = "+";
	next.hidden = true;
	figure.querySelector(".spots").append(next);
	picture.addEventListener("click", (event) => {
		const box = picture.getBoundingClientRect();
		across.value = ((100 * (event.clientX - box.left)) / box.width).toFixed(1);
		down.value = ((100 * (event.clientY - box.top)) / box.height).toFixed(1);
		across.dispatchEvent(new Event("input", { bubbles: true }));
	});
	const show = () => {
		next.hidden = false;
		place(next, Number(across.value) / 100, Number(down.value) / 100);
	};
	across.addEventListener("input", show);
	down.addEventListener("input", show);
}

function place(spot, x, y) {
	spot.style.left = `${100 * x}%`;
	spot.style.top = `${100 * y}%`;
}

document.addEventListener("bench:page", lay);
lay();
