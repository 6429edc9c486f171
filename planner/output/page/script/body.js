// One part at a time, turning: walls as colours, bores as rings, and a section at any height beside it.

const bodies = JSON.parse(document.getElementById("bodies-data").textContent);
const look = byId("look");
function bytes(text, Kind) {
  const raw = atob(text);
  const made = new Uint8Array(raw.length);
  for (let k = 0; k < raw.length; k++) made[k] = raw.charCodeAt(k);
  return new Kind(made.buffer);
}

/** Unpack a part's mesh once. */
function unpacked(body) {
  if (body.points || !body.mesh) return body;
  const { mesh } = body;
  const grid = bytes(mesh.vertices, Uint16Array);
  body.points = new Float32Array(grid.length);
  for (let k = 0; k < grid.length; k++) body.points[k] = mesh.low[k % 3] + mesh.step[k % 3] * grid[k];
  body.faces = bytes(mesh.faces, mesh.wide === 2 ? Uint16Array : Uint32Array);
  body.walls = bytes(mesh.walls, Uint8Array);
  body.held = bytes(mesh.held, Uint8Array);
  return body;
}

let body = bodies.find((one) => one.mesh) ?? bodies[0];
let grownBy = 1;
let stage = null;
const grown = () => (body.follows ? grownBy : 1);
const times = () => (body.loaded ? shareTimes(body, planned * grownBy) : 1);

/** Set up the drawing surface; null where this browser draws nothing in 3D, and then the still pictures stay. */
function staged() {
  if (!document.createElement("canvas").getContext("webgl2")) return null;
  const canvas = byId("turn");
  const renderer = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true });
  const scene = new THREE.Scene();
  scene.add(new THREE.AmbientLight(0xffffff, 1.5));
  const camera = new THREE.OrthographicCamera(-1, 1, 1, -1, -5000, 5000);
  camera.up.set(0, 0, 1);
  const lamp = new THREE.DirectionalLight(0xffffff, 2.2); // from the upper left of whoever looks
  lamp.position.set(-0.5, 0.8, 1);
  camera.add(lamp);
  scene.add(camera);
  const controls = new THREE.OrbitControls(camera, canvas);
  controls.enableZoom = false; // the wheel scrolls the page; buttons and keys come nearer
  controls.enablePan = false;
  canvas.style.touchAction = "pan-y"; // a finger sideways turns, up and down it scrolls the page
  const made = { canvas, renderer, scene, camera, controls, group: null };
  controls.addEventListener("change", draw);
  new ResizeObserver(fit).observe(canvas.parentElement);
  canvas.addEventListener("pointermove", touched);
  canvas.addEventListener("click", touched); // a finger has no pointer that hovers
  canvas.addEventListener("keydown", keyed);
  return made;
}

function fit() {
  if (!stage) return;
  const { canvas, renderer, camera } = stage;
  const [w, h] = [canvas.parentElement.clientWidth, canvas.parentElement.clientHeight];
  if (!w || !h) return;
  renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
  renderer.setSize(w, h, false);
  const half = 0.56 * Math.hypot(...body.size_mm);
  const wide = w > h ? w / h : 1;
  const high = w > h ? 1 : h / w;
  Object.assign(camera, { left: -half * wide, right: half * wide, top: half * high, bottom: -half * high });
  camera.updateProjectionMatrix();
  draw();
}

function draw() {
  if (!stage) return;
  stage.renderer.render(stage.scene, stage.camera);
  numbered();
}

/** Colour every face by what is to be shown, and show the legend of that. */
function coloured() {
  const shown = byId("faces").value;
  const loaded = shown === "strength";
  for (const legend of look.querySelectorAll("[data-faces]")) {
    legend.hidden = legend.dataset.faces !== shown || (loaded && !body.loaded?.stream);
  }
  whole();
  if (loaded) {
    byId("weak-places").innerHTML = weakRows(body, times());
    byId("bend-words").textContent = body.loaded?.bend_words ?? "";
    byId("bend").closest("p").hidden = !body.loaded?.bend || !stage?.paint;
  }
  if (!stage?.group) return;
  stage.skin.visible = !loaded || !stage.paint;
  if (stage.paint) stage.paint.visible = loaded;
  stage.weak.visible = loaded;
  stage.bores.visible = !loaded && byId("show-bores").checked;
  byId("show-bores").disabled = loaded;
  bending();
  const { colour } = loaded && stage.paint ? stage.paint : stage;
  const known = new Map();
  for (let f = 0; 3 * f < colour.count; f++) {
    const hue = loaded && stage.paint ? shareHue(shareOf(body, f, times())) : hueOf(body, f, shown, grown());
    if (!known.has(hue)) known.set(hue, new THREE.Color(hue));
    const c = known.get(hue);
    for (let k = 0; k < 3; k++) colour.setXYZ(3 * f + k, c.r, c.g, c.b);
  }
  colour.needsUpdate = true;
  draw();
}

/** Bend the part as far as its slider says; the lines of its edges stay as it is without load. */
function bending() {
  const { loaded } = body;
  const shows = byId("faces").value === "strength" && stage?.paint && loaded?.bend;
  const factor = shows ? (Number(byId("bend").value) / 100) * loaded.bend.times : 0;
  if (!shows) return;
  bent(body, stage.paint.geometry.attributes.position, factor);
  byId("bend-at").textContent = bendSaid(loaded.bend, factor, grown());
  byId("bend").setAttribute("aria-valuetext", bendSaid(loaded.bend, factor, grown()));
}

/** Return the pieces that carry a share each, coloured later; null where no share is known. */
function paintOf() {
  const pieces = unfoldedFaces(body);
  if (!pieces) return null;
  const geometry = new THREE.BufferGeometry();
  geometry.setAttribute("position", new THREE.BufferAttribute(pieces.corners.slice(), 3));
  geometry.computeVertexNormals();
  const colour = new THREE.BufferAttribute(new Float32Array(pieces.corners.length), 3);
  geometry.setAttribute("color", colour);
  const made = new THREE.Mesh(geometry, new THREE.MeshLambertMaterial({
    vertexColors: true, side: THREE.DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1,
  }));
  return Object.assign(made, { colour });
}

/** Return rings at the weakest places, and the outline of the weakest section. */
function weakLines() {
  const made = new THREE.Group();
  const { places = [], section = null } = body.loaded ?? {};
  for (const one of places) made.add(ring(new THREE.Vector3(...one.at), null, 0.02 * Math.hypot(...body.size_mm), WEAK_HUE));
  for (const line of section?.rings ?? []) {
    const geometry = new THREE.BufferGeometry();
    geometry.setAttribute("position", new THREE.BufferAttribute(new Float32Array(line), 3));
    made.add(new THREE.LineLoop(geometry, new THREE.LineBasicMaterial({ color: WEAK_HUE, depthTest: false, transparent: true })));
  }
  return made;
}

/** Put the numbers of the weakest places where the picture has them. */
function numbered() {
  const box = byId("weak-numbers");
  const shows = byId("faces").value === "strength" && stage?.group;
  const places = shows ? [...(body.loaded?.places ?? [])].map((one, k) => [String(k + 1), one.at]) : [];
  const outline = shows ? body.loaded?.section?.rings[0] : null;
  if (outline) { // its letter stands far from the numbers
    const ends = Array.from({ length: outline.length / 3 }, (_, k) => outline.slice(3 * k, 3 * k + 3));
    const away = ends.map((end) => Math.min(...places.map(([, at]) => Math.hypot(...end.map((x, k) => x - at[k])))));
    places.push(["S", ends[away.indexOf(Math.max(...away))]]);
  }
  while (box.children.length > places.length) box.lastChild.remove();
  while (box.children.length < places.length) box.append(document.createElement("b"));
  places.forEach(([name, at], k) => {
    const seen = new THREE.Vector3(...at).add(stage.group.position).project(stage.camera);
    Object.assign(box.children[k], { textContent: name });
    Object.assign(box.children[k].style, { left: `${50 * (1 + seen.x)}%`, top: `${50 * (1 - seen.y)}%` });
  });
}

/** Build the part: faces, edges as in a drawing, bores, the thinnest place, the cutting plane. */
function built() {
  if (!stage) return;
  if (stage.group) {
    stage.scene.remove(stage.group);
    stage.group.traverse((one) => one.geometry?.dispose());
    stage.group = stage.paint = null;
  }
  if (!body.mesh) return draw();
  const corners = new Float32Array(3 * body.faces.length);
  for (let k = 0; k < body.faces.length; k++) corners.set(body.points.subarray(3 * body.faces[k], 3 * body.faces[k] + 3), 3 * k);
  const geometry = new THREE.BufferGeometry();
  geometry.setAttribute("position", new THREE.BufferAttribute(corners, 3));
  geometry.computeVertexNormals();
  stage.colour = new THREE.BufferAttribute(new Float32Array(corners.length), 3);
  geometry.setAttribute("color", stage.colour);
  const group = new THREE.Group();
  stage.skin = new THREE.Mesh(geometry, new THREE.MeshLambertMaterial({
    vertexColors: true, side: THREE.DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1,
  }));
  group.add(stage.skin);
  stage.paint = paintOf();
  if (stage.paint) group.add(stage.paint);
  stage.weak = weakLines();
  group.add(stage.weak);
  group.add(new THREE.LineSegments(new THREE.EdgesGeometry(geometry, 25), new THREE.LineBasicMaterial({ color: 0x1d2326 })));
  stage.bores = new THREE.Group();
  for (const bore of body.bores) stage.bores.add(...boreLines(bore));
  if (body.thinnest) stage.bores.add(ring(new THREE.Vector3(...body.thinnest.at), null, 0.03 * Math.hypot(...body.size_mm), 0xcc3311));
  group.add(stage.bores);
  stage.plane = new THREE.LineLoop(new THREE.BufferGeometry(), new THREE.LineBasicMaterial({ color: 0xd55e00, depthTest: false, transparent: true }));
  const [x, y] = [body.size_mm[0] / 2 + 2, body.size_mm[1] / 2 + 2];
  stage.plane.geometry.setAttribute("position", new THREE.BufferAttribute(new Float32Array([-x, -y, 0, x, -y, 0, x, y, 0, -x, y, 0]), 3));
  group.add(stage.plane);
  group.position.z = -body.size_mm[2] / 2;
  stage.group = group;
  stage.scene.add(group);
  facing();
  fit();
}

/** Return a ring of lines; without an axis it lies in all three planes. */
function ring(centre, axis, radius, colour) {
  const steps = 40;
  const places = [];
  const made = new THREE.Group();
  for (let k = 0; k < steps; k++) places.push(radius * Math.cos((2 * Math.PI * k) / steps), radius * Math.sin((2 * Math.PI * k) / steps), 0);
  const axes = axis ? [axis] : [new THREE.Vector3(1, 0, 0), new THREE.Vector3(0, 1, 0), new THREE.Vector3(0, 0, 1)];
  for (const way of axes) {
    const geometry = new THREE.BufferGeometry();
    geometry.setAttribute("position", new THREE.BufferAttribute(new Float32Array(places), 3));
    const loop = new THREE.LineLoop(geometry, new THREE.LineBasicMaterial({ color: colour, depthTest: false, transparent: true }));
    loop.quaternion.setFromUnitVectors(new THREE.Vector3(0, 0, 1), way);
    loop.position.copy(centre);
    made.add(loop);
  }
  return made;
}

/** Return a bore as two rings and its axis. */
function boreLines(bore) {
  const [a, b] = bore.ends.map((end) => new THREE.Vector3(...end));
  const way = b.clone().sub(a).normalize();
  const over = 0.25 * bore.mm + 1.5;
  const geometry = new THREE.BufferGeometry();
  const ends = [a.clone().addScaledVector(way, -over), b.clone().addScaledVector(way, over)];
  geometry.setAttribute("position", new THREE.BufferAttribute(new Float32Array(ends.flatMap((p) => [p.x, p.y, p.z])), 3));
  const axis = new THREE.LineSegments(geometry, new THREE.LineBasicMaterial({ color: 0xd55e00, depthTest: false, transparent: true }));
  return [axis, ring(a, way, bore.mm / 2, 0xd55e00), ring(b, way, bore.mm / 2, 0xd55e00)];
}

/** Look from the front right, a little above, as the still pictures do, or from below. */
function facing(below = false) {
  if (!stage) return;
  stage.camera.zoom = 1;
  stage.camera.position.set(62, -68, below ? -62 : 45);
  stage.controls.target.set(0, 0, 0);
  stage.controls.update();
}

/** Turn by degrees about the upright and about the level axis. */
function turned(about, over) {
  if (!stage) return;
  const away = stage.camera.position.clone();
  const place = new THREE.Spherical().setFromVector3(new THREE.Vector3(away.x, away.z, -away.y));
  place.theta += (about * Math.PI) / 180;
  place.phi = Math.min(Math.max(place.phi - (over * Math.PI) / 180, 0.02), Math.PI - 0.02);
  const there = new THREE.Vector3().setFromSpherical(place);
  stage.camera.position.set(there.x, -there.z, there.y);
  stage.controls.update();
  draw();
}

function nearer(times) {
  if (!stage) return;
  stage.camera.zoom = Math.min(Math.max(stage.camera.zoom * times, 0.5), 12);
  stage.camera.updateProjectionMatrix();
  draw();
}

const MOVES = {
  ArrowLeft: () => turned(-10, 0), ArrowRight: () => turned(10, 0), ArrowUp: () => turned(0, 10), ArrowDown: () => turned(0, -10),
  "+": () => nearer(1.25), "-": () => nearer(0.8), Home: () => { facing(); fit(); }, End: () => { facing(true); fit(); },
};

function keyed(event) {
  const move = MOVES[event.key];
  if (!move || event.ctrlKey || event.altKey || event.metaKey) return;
  event.preventDefault();
  move();
}

/** Say of the face under the pointer what is shown of it. */
function touched(event) {
  if (!stage?.skin || event.buttons) return;
  const box = stage.canvas.getBoundingClientRect();
  const at = new THREE.Vector2((2 * (event.clientX - box.left)) / box.width - 1, 1 - (2 * (event.clientY - box.top)) / box.height);
  const ray = new THREE.Raycaster();
  ray.setFromCamera(at, stage.camera);
  const painted = byId("faces").value === "strength" ? stage.paint : null;
  const hit = ray.intersectObject(painted ?? stage.skin)[0];
  if (hit && painted) byId("face-here").textContent = shareSaid(body, hit.faceIndex, times());
  else if (hit && byId("faces").value !== "strength") byId("face-here").textContent = saidOf(body, hit.faceIndex, byId("faces").value, grown());
  else whole();
}

/** Say of the whole part what is shown of it. */
function whole() {
  const shown = byId("faces").value;
  byId("face-here").textContent = shown === "strength" ? shareSaidOfAll(body, times()) : saidOfAll(body, shown, grown());
}

function cut() {
  const input = byId("height");
  const h = (Number(input.value) / 1000) * body.size_mm[2];
  byId("height-mm").textContent = `${fixed(h * grown(), 1)} mm above the bed`;
  input.setAttribute("aria-valuetext", `${fixed(h * grown(), 1)} mm above the bed`);
  byId("cut").innerHTML = body.mesh ? section(body, h, grown()) : `<p>No section: ${escaped(body.left_out)}.</p>`;
  byId("cut-note").textContent = body.sound ? "" : "This mesh is not closed, so the hatching may be wrong.";
  if (stage?.plane) {
    stage.plane.position.z = h;
    draw();
  }
}

function boreRows() {
  byId("bore-rows").innerHTML = body.bores.length
    ? body.bores.map((b) => `<tr><th scope="row">${escaped(b.id)}</th><td class="r">${fixed(b.drawn_mm, 2)} mm</td><td class="r">${fixed(b.mm * grown(), 2)} mm</td><td class="r">${
      fixed(b.deep_mm * grown(), 1)} mm</td><td>${b.through ? "through" : "blind"}</td><td>${escaped(b.hardware) || "none"}</td></tr>`).join("")
    : '<tr><td colspan="6">This part has no bore.</td></tr>';
}

function chosen(name) {
  body = unpacked(bodies.find((one) => one.name === name) ?? body);
  byId("which").value = body.name;
  byId("turn").setAttribute("aria-label", `${body.name}, turning. Arrow keys turn it, plus and minus zoom, Home shows it from the front right, End from below.`);
  look.classList.toggle("flat", !stage || !body.mesh);
  byId("flat-picture").src = document.querySelector(`[data-picture="${CSS.escape(body.name)}"]`).src;
  byId("flat-picture").alt = `${body.name} as it stands on the bed`;
  built();
  coloured();
  cut();
  boreRows();
}

/** Start only when somebody comes near: an unused page costs nothing. */
function began() {
  if (stage !== null || look.dataset.begun) return;
  look.dataset.begun = "yes";
  stage = staged();
  chosen(body.name);
}

if (look && body) {
  look.hidden = false;
  byId("which").addEventListener("change", (event) => {
    const name = event.target.value;
    began();
    chosen(name);
  });
  byId("height").addEventListener("input", () => { began(); cut(); });
  byId("faces").addEventListener("change", () => {
    began();
    coloured();
    if (byId("faces").value === "support") MOVES.End(); // what is held up looks down
  });
  byId("bend")?.addEventListener("input", () => { began(); bending(); draw(); });
  byId("show-bores").addEventListener("change", (event) => {
    if (stage?.bores) stage.bores.visible = event.target.checked;
    draw();
  });
  for (const button of look.querySelectorAll("[data-move]")) button.addEventListener("click", () => { began(); MOVES[button.dataset.move](); });
  for (const button of document.querySelectorAll("[data-look]")) {
    button.addEventListener("click", () => {
      began();
      if (button.dataset.faces) byId("faces").value = button.dataset.faces;
      chosen(button.dataset.look);
      look.scrollIntoView({ block: "start" });
      byId("which").focus({ preventScroll: true });
    });
  }
  document.addEventListener("tried", (event) => {
    grownBy = event.detail;
    if (look.dataset.begun) { coloured(); cut(); boreRows(); }
  });
  new IntersectionObserver((seen, watch) => {
    if (seen.some((one) => one.isIntersecting)) { watch.disconnect(); began(); }
  }, { rootMargin: "400px" }).observe(look);
}
