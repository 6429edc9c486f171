// The whole device put together: it turns, one joint at a time moves by a slider, cords are drawn, parts can be drawn apart.

const deviceBox = byId("device");
const device = deviceBox ? JSON.parse(document.getElementById("device-data").textContent) : null;
const CORD_HUE = 0x7a1f5c;
let scene3 = null;

const matrixOf = (row) => {
  const made = new THREE.Group().matrix;
  made.set(row[0], row[1], row[2], row[3], row[4], row[5], row[6], row[7], row[8], row[9], row[10], row[11], 0, 0, 0, 1);
  return made;
};

/** Return the solid of a part, shared by its copies; null where the page holds no mesh of it. */
function skinOf(part, known) {
  if (!known.has(part)) {
    const found = unpacked(bodies.find((one) => one.name === part) ?? {});
    if (!found.points) known.set(part, null);
    else {
      const corners = new Float32Array(3 * found.faces.length);
      for (let k = 0; k < found.faces.length; k++) corners.set(found.points.subarray(3 * found.faces[k], 3 * found.faces[k] + 3), 3 * k);
      const geometry = new THREE.BufferGeometry();
      geometry.setAttribute("position", new THREE.BufferAttribute(corners, 3));
      geometry.computeVertexNormals();
      known.set(part, { geometry, edges: new THREE.EdgesGeometry(geometry, 25) });
    }
  }
  return known.get(part);
}

/** Set the scene: every copy in its place; null where this browser draws nothing in 3D. */
function deviceStage() {
  if (!document.createElement("canvas").getContext("webgl2")) return null;
  const canvas = byId("device-turn");
  const renderer = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true });
  const scene = new THREE.Scene();
  scene.add(new THREE.AmbientLight(0xffffff, 1.5));
  const camera = new THREE.OrthographicCamera(-1, 1, 1, -1, -5000, 5000);
  camera.up.set(0, 0, 1);
  const lamp = new THREE.DirectionalLight(0xffffff, 2.2);
  lamp.position.set(-0.5, 0.8, 1);
  camera.add(lamp);
  scene.add(camera);
  const whole = new THREE.Group();
  const known = new Map();
  const copies = new Map();
  for (const copy of device.copies) {
    const skin = skinOf(copy.part, known);
    if (!skin) continue;
    const group = new THREE.Group();
    group.add(new THREE.Mesh(skin.geometry, new THREE.MeshLambertMaterial({ color: copy.hue, side: THREE.DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 })));
    group.add(new THREE.LineSegments(skin.edges, new THREE.LineBasicMaterial({ color: 0x1d2326 })));
    group.matrixAutoUpdate = false;
    whole.add(group);
    copies.set(copy.name, group);
  }
  const cords = new THREE.Group();
  whole.add(cords);
  scene.add(whole);
  const controls = new THREE.OrbitControls(camera, canvas);
  controls.enableZoom = false;
  controls.enablePan = false;
  canvas.style.touchAction = "pan-y";
  const numbers = new Map();
  for (const copy of device.copies) {
    if (numbers.has(copy.part) || !copies.has(copy.name)) continue;
    const badge = document.createElement("b");
    badge.textContent = copy.number;
    byId("device-numbers").append(badge);
    numbers.set(copy.part, { badge, copy });
  }
  const made = { canvas, renderer, scene, camera, controls, whole, copies, cords, numbers };
  controls.addEventListener("change", deviceDraw);
  new ResizeObserver(deviceFit).observe(canvas.parentElement);
  return made;
}

function deviceDraw() {
  if (!scene3) return;
  deviceGrow();
  scene3.renderer.render(scene3.scene, scene3.camera);
  deviceNumbers();
}

/** Return how far the device reaches from the middle, to the right and up as it is seen. */
function deviceReach() {
  const { camera, controls, copies } = scene3;
  camera.updateMatrixWorld();
  const [right, up, corner] = [new THREE.Vector3(), new THREE.Vector3(), new THREE.Vector3()];
  right.setFromMatrixColumn(camera.matrixWorld, 0);
  up.setFromMatrixColumn(camera.matrixWorld, 1);
  let [wide, high] = [1, 1];
  for (const group of copies.values()) {
    const { geometry } = group.children[0];
    if (!geometry.boundingBox) geometry.computeBoundingBox();
    const { min, max } = geometry.boundingBox;
    for (let k = 0; k < 8; k++) {
      corner.set(k & 1 ? max.x : min.x, k & 2 ? max.y : min.y, k & 4 ? max.z : min.z).applyMatrix4(group.matrix).sub(controls.target);
      wide = Math.max(wide, Math.abs(corner.dot(right)));
      high = Math.max(high, Math.abs(corner.dot(up)));
    }
  }
  return [wide, high];
}

/** Show all of the device: never closer than before while it is only turned. */
function deviceGrow() {
  const { canvas, camera } = scene3;
  const [w, h] = [canvas.parentElement.clientWidth, canvas.parentElement.clientHeight];
  if (!w || !h) return;
  const [wide, high] = deviceReach();
  const half = Math.max(1.06 * Math.max(high, (wide * h) / w), scene3.half ?? 0);
  if (half === scene3.half && scene3.ratio === w / h) return;
  scene3.half = half;
  scene3.ratio = w / h;
  Object.assign(camera, { left: (-half * w) / h, right: (half * w) / h, top: half, bottom: -half });
  camera.updateProjectionMatrix();
}

/** Put the number of every part on its first copy; one that would cover another is not shown. */
function deviceNumbers() {
  const { canvas, camera, numbers, copies } = scene3;
  const [w, h] = [canvas.parentElement.clientWidth, canvas.parentElement.clientHeight];
  const taken = [];
  for (const { badge, copy } of numbers.values()) {
    const { geometry } = copies.get(copy.name).children[0];
    const at = geometry.boundingBox.getCenter(new THREE.Vector3()).applyMatrix4(copies.get(copy.name).matrix).project(camera);
    const [x, y] = [((at.x + 1) / 2) * w, ((1 - at.y) / 2) * h];
    badge.hidden = taken.some(([a, b]) => Math.abs(a - x) < 22 && Math.abs(b - y) < 17);
    if (badge.hidden) continue;
    taken.push([x, y]);
    badge.style.transform = `translate(${x.toFixed(1)}px,${y.toFixed(1)}px) translate(-50%,-50%)`;
  }
}

function deviceFit() {
  if (!scene3) return;
  const { canvas, renderer } = scene3;
  const [w, h] = [canvas.parentElement.clientWidth, canvas.parentElement.clientHeight];
  if (!w || !h) return;
  scene3.half = 0;
  scene3.controls.target.set(...device.middle);
  renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
  renderer.setSize(w, h, false);
  scene3.controls.update();
  deviceDraw();
}

/** Stand every copy where the chosen joint's step puts it, drawn apart as far as asked. */
function deviceStand() {
  const joint = device.joints[Number(byId("device-joint")?.value ?? 0)];
  const step = Number(byId("device-angle")?.value ?? 0);
  const moved = joint ? joint.moved[step] : {};
  if (joint) {
    const unit = joint.unit === "mm" ? " mm" : joint.unit;
    byId("device-at").textContent = `${fixed(joint.steps[step], 1)}${unit}`;
    byId("device-angle").setAttribute("aria-valuetext", `${joint.name} at ${fixed(joint.steps[step], 1)}${unit}`);
    byId("device-said").textContent = rangeWords(joint);
  }
  if (!scene3) return;
  const apart = Number(byId("device-apart").value) / 100;
  const middle = new THREE.Vector3(...device.middle);
  for (const copy of device.copies) {
    const group = scene3.copies.get(copy.name);
    if (!group) continue;
    group.matrix.copy(matrixOf(moved?.[copy.name] ?? copy.at));
    const away = new THREE.Vector3(...copy.centre).sub(middle).multiplyScalar(apart);
    group.matrix.premultiply(matrixOf([1, 0, 0, away.x, 0, 1, 0, away.y, 0, 0, 1, away.z]));
    group.matrixWorldNeedsUpdate = true;
  }
  scene3.cords.traverse((one) => one.geometry?.dispose());
  scene3.cords.clear();
  for (const line of apart > 0 ? [] : (joint?.cords[step] ?? device.cords)) {
    const geometry = new THREE.BufferGeometry();
    const pairs = line.slice(1).flatMap((end, k) => [...line[k], ...end]);
    geometry.setAttribute("position", new THREE.BufferAttribute(new Float32Array(pairs), 3));
    scene3.cords.add(new THREE.LineSegments(geometry, new THREE.LineBasicMaterial({ color: CORD_HUE, depthTest: false, transparent: true })));
  }
  deviceDraw();
}

/** Say how far a joint goes, and what it needs. */
function rangeWords(joint) {
  const unit = joint.unit === "mm" ? " mm" : joint.unit;
  const told = (x) => (x === null ? "no stop" : `${fixed(x, 1)}${unit}`);
  const needs = joint.needs ? `; needs ${general(joint.needs[0], 4)} to ${general(joint.needs[1], 4)}${unit}` : "";
  const stops = joint.stops.join("; ");
  return `Free from ${told(joint.free[0])} to ${told(joint.free[1])}${needs}. ${stops.charAt(0).toUpperCase()}${stops.slice(1)}`;
}

/** Take another joint: its slider runs over its own range and begins at rest. */
function deviceJoint() {
  const joint = device.joints[Number(byId("device-joint").value)];
  const slider = byId("device-angle");
  slider.max = String(joint.steps.length - 1);
  const off = joint.steps.map((x) => Math.abs(x - joint.rest));
  slider.value = String(off.indexOf(Math.min(...off)));
  deviceStand();
}

const DEVICE_TURNS = { ArrowLeft: [-10, 0], ArrowRight: [10, 0], ArrowUp: [0, 10], ArrowDown: [0, -10] };

function deviceTurned(about, over) {
  const { camera, controls } = scene3;
  const away = camera.position.clone().sub(controls.target);
  const place = new THREE.Spherical().setFromVector3(new THREE.Vector3(away.x, away.z, -away.y));
  place.theta += (about * Math.PI) / 180;
  place.phi = Math.min(Math.max(place.phi - (over * Math.PI) / 180, 0.02), Math.PI - 0.02);
  const there = new THREE.Vector3().setFromSpherical(place);
  camera.position.set(there.x, -there.z, there.y).add(controls.target);
  controls.update();
  deviceDraw();
}

if (device) {
  const begin = () => {
    scene3 = deviceStage();
    deviceBox.classList.toggle("solid", Boolean(scene3));
    if (device.joints.length) deviceJoint();
    else deviceStand();
    deviceBox.dataset.begun = "yes";
    if (!scene3) return;
    scene3.camera.position.set(62, -68, 45);
    deviceFit();
    scene3.canvas.addEventListener("keydown", (event) => {
      const turn = DEVICE_TURNS[event.key];
      if (!turn || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      deviceTurned(...turn);
    });
  };
  // the drawing is there at once; what turns comes when the page has been shown
  const soon = window.requestIdleCallback ?? ((act) => setTimeout(act, 200));
  soon(begin, { timeout: 1500 });
  byId("device-joint")?.addEventListener("change", deviceJoint);
  byId("device-angle")?.addEventListener("input", deviceStand);
  byId("device-apart").addEventListener("input", () => { deviceStand(); deviceFit(); });
  for (const button of deviceBox.querySelectorAll("[data-device]")) {
    button.addEventListener("click", () => scene3 && deviceTurned(...DEVICE_TURNS[button.dataset.device]));
  }
}
