// The part as a body that turns under the finger, the mouse or the arrow keys. It
// stands in a canvas that says where its mesh is; until it is asked for nothing
// is loaded.
import {
	AmbientLight,
	BufferAttribute,
	BufferGeometry,
	DirectionalLight,
	EdgesGeometry,
	Group,
	LineBasicMaterial,
	LineSegments,
	Mesh,
	MeshStandardMaterial,
	OrthographicCamera,
	Scene,
	WebGLRenderer,
} from "three";

const step = Math.PI / 18; // one press of an arrow key
const sharp = 20; // degrees between faces from which an edge is drawn

// decode reads a mesh: the numbers of points and of triangles, then both, all
// little-endian.
function decode(data) {
	const [points, triangles] = new Uint32Array(data, 0, 2);
	const geometry = new BufferGeometry();
	geometry.setAttribute("position", new BufferAttribute(new Float32Array(data, 8, 3 * points), 3));
	geometry.setIndex(new BufferAttribute(new Uint32Array(data, 8 + 12 * points, 3 * triangles), 1));
	const flat = geometry.toNonIndexed();
	flat.computeVertexNormals();
	flat.center();
	flat.computeBoundingSphere();
	return flat;
}

function colours() {
	const style = getComputedStyle(document.documentElement);
	const read = (name) => style.getPropertyValue(name).trim();
	return { face: read("--metal"), edge: read("--ink") };
}

// show draws a mesh in a canvas and turns it as it is told.
function show(canvas, geometry) {
	const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
	renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
	const scene = new Scene();
	const body = new Group();
	const face = new MeshStandardMaterial({ roughness: 0.75, metalness: 0.1, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
	const edge = new LineBasicMaterial();
	body.add(new Mesh(geometry, face), new LineSegments(new EdgesGeometry(geometry, sharp), edge));
	scene.add(body, new AmbientLight(0xffffff, 1.6));
	const light = new DirectionalLight(0xffffff, 2.2);
	light.position.set(-1, 2, 3);
	scene.add(light);
	const radius = geometry.boundingSphere.radius;
	const camera = new OrthographicCamera(-1, 1, 1, -1, 0.01 * radius, 20 * radius);
	camera.position.set(0, 0, 5 * radius);
	let near = 1;

	const draw = () => {
		const { face: faceColour, edge: edgeColour } = colours();
		face.color.set(faceColour);
		edge.color.set(edgeColour);
		const { clientWidth: width, clientHeight: height } = canvas;
		renderer.setSize(width, height, false);
		const half = (1.1 * radius) / near;
		const wide = Math.max(1, width / height);
		const high = Math.max(1, height / width);
		Object.assign(camera, { left: -half * wide, right: half * wide, top: half * high, bottom: -half * high });
		camera.updateProjectionMatrix();
		renderer.render(scene, camera);
	};
	const turn = (across, down) => {
		body.rotateOnWorldAxis({ x: 0, y: 1, z: 0 }, across);
		body.rotateOnWorldAxis({ x: 1, y: 0, z: 0 }, down);
		draw();
	};
	const zoom = (by) => {
		near = Math.min(20, Math.max(0.5, near * by));
		draw();
	};
	const upright = () => {
		body.rotation.set(0.5, -0.6, 0);
		near = 1;
		draw();
	};
	listen(canvas, turn, zoom, upright);
	new ResizeObserver(draw).observe(canvas);
	matchMedia("(prefers-color-scheme: dark)").addEventListener("change", draw);
	upright();
}

// listen turns and nears by finger, mouse, wheel and keys.
function listen(canvas, turn, zoom, upright) {
	const fingers = new Map();
	canvas.addEventListener("pointerdown", (e) => {
		canvas.setPointerCapture(e.pointerId);
		fingers.set(e.pointerId, e);
	});
	canvas.addEventListener("pointermove", (e) => {
		const before = fingers.get(e.pointerId);
		if (!before) return;
		const other = [...fingers.values()].find((f) => f.pointerId !== e.pointerId);
		if (other) zoom(distance(e, other) / Math.max(1, distance(before, other)));
		else turn(0.01 * (e.clientX - before.clientX), 0.01 * (e.clientY - before.clientY));
		fingers.set(e.pointerId, e);
	});
	for (const end of ["pointerup", "pointercancel"]) canvas.addEventListener(end, (e) => fingers.delete(e.pointerId));
	canvas.addEventListener(
		"wheel",
		(e) => {
			if (!e.ctrlKey && document.activeElement !== canvas) return; // the page scrolls
			e.preventDefault();
			zoom(Math.exp(-0.001 * e.deltaY));
		},
		{ passive: false },
	);
	const keys = {
		ArrowLeft: () => turn(-step, 0),
		ArrowRight: () => turn(step, 0),
		ArrowUp: () => turn(0, -step),
		ArrowDown: () => turn(0, step),
		"+": () => zoom(1.2),
		"-": () => zoom(1 / 1.2),
		Home: upright,
	};
	canvas.addEventListener("keydown", (e) => {
		if (!keys[e.key]) return;
		e.preventDefault();
		keys[e.key]();
	});
}

function distance(a, b) {
	return Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY);
}

// start shows the body of a canvas, or says why it cannot.
async function start(canvas) {
	const words = document.getElementById("solid-words");
	try {
		const answer = await fetch(canvas.dataset.mesh);
		if (!answer.ok) throw new Error(await answer.text());
		show(canvas, decode(await answer.arrayBuffer()));
		canvas.dataset.shown = "yes";
		words.textContent = "Drag it to turn it, or use the arrow keys; plus and minus bring it nearer and farther, Home sets it as it was.";
	} catch (why) {
		canvas.hidden = true;
		words.textContent = /webgl/i.test(String(why)) ? "This browser cannot turn bodies: it has no WebGL. The drawing shows the part all the same." : String(why.message ?? why);
	}
}

const canvas = document.querySelector("canvas[data-mesh]");
if (canvas) start(canvas);
