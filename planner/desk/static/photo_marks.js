"use strict";
// Two marks on a photo, set by click, tap, drag or key. Each knows how far off it may be: what a hand can aim at on this
// screen, at the size that the photo is shown at. Places are in pixels of the photo; the middle of a pixel is whole.

const AIM = { mouse: 1, pen: 1.5, touch: 4, key: 1 };  // pixels of the screen, each way; no source
const ZOOM_MOST = 16;
const marks = [0, 1].map(() => ({ x: 0, y: 0, set: false, off_px: 0 }));
let photoSize = { wide_px: 1, high_px: 1 }, zoom = 1, turn = 0, onMarks = () => {};

const per = () => photoSize.wide_px / Math.max(1, at("photo-img").clientWidth);  // pixels of the photo to one of the screen
const held = (value, most) => Math.min(most, Math.max(0, value));

function showMarks() {
  marks.forEach((mark, n) => {
    const it = at(`mark-${n}`);
    it.style.left = 100 * (mark.x + 0.5) / photoSize.wide_px + "%"; it.style.top = 100 * (mark.y + 0.5) / photoSize.high_px + "%";
    it.classList.toggle("unset", !mark.set); it.classList.toggle("chosen", n === turn);
    it.setAttribute("aria-label", `mark ${n + 1}, ${mark.set ? `${Math.round(mark.x)} right, ${Math.round(mark.y)} down` : "not set yet"}`);
  });
  at("photo-other").textContent = `Mark ${turn + 1} is moved`;
  at("photo-other").setAttribute("aria-label", `Mark ${turn + 1} is moved; change to the other`);
}

function setMark(n, x, y, by) {
  marks[n] = { x: held(x, photoSize.wide_px - 1), y: held(y, photoSize.high_px - 1), set: true, off_px: AIM[by] * per() };
  showMarks(); onMarks();
}

/** Return where on the photo a pointer is. */
function placeOf(event) {
  const box = at("photo-img").getBoundingClientRect();
  return [(event.clientX - box.left) / box.width * photoSize.wide_px - 0.5, (event.clientY - box.top) / box.height * photoSize.high_px - 0.5];
}

/** Return the mark that a click sets: the first, the second, then the nearer. */
function meant(x, y) {
  const open = marks.findIndex(mark => !mark.set), far = mark => Math.hypot(mark.x - x, mark.y - y);
  return open >= 0 ? open : far(marks[0]) <= far(marks[1]) ? 0 : 1;
}

at("photo-img").onclick = event => {
  const [x, y] = placeOf(event), n = meant(x, y);
  turn = n === 0 && !marks[1].set ? 1 : n;
  setMark(n, x, y, event.pointerType in AIM ? event.pointerType : "mouse");
};

function nudge(n, right, down) {
  const step = per();
  turn = n; setMark(n, marks[n].x + right * step, marks[n].y + down * step, "key"); showIn(n);
}

const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
for (const n of [0, 1]) {
  const it = at(`mark-${n}`);
  it.onkeydown = event => {
    const way = WAYS[event.key];
    if (!way || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const many = event.shiftKey ? 10 : 1;
    nudge(n, many * way[0], many * way[1]);
  };
  it.onfocus = () => { turn = n; showMarks(); };
  it.onpointerdown = event => { it.setPointerCapture(event.pointerId); it.dataset.drag = "yes"; };
  it.onpointerup = it.onpointercancel = () => { delete it.dataset.drag; };
  it.onpointermove = event => { if (it.dataset.drag) setMark(n, ...placeOf(event), event.pointerType in AIM ? event.pointerType : "mouse"); };
}
for (const button of document.querySelectorAll("#photo-tools [data-x]")) button.onclick = () => nudge(turn, Number(button.dataset.x), Number(button.dataset.y));
at("photo-other").onclick = () => { turn = 1 - turn; showMarks(); showIn(turn); };

/** Scroll so that a mark is seen. */
function showIn(n) {
  const view = at("photo-view"), img = at("photo-img"), x = marks[n].x / photoSize.wide_px * img.clientWidth, y = marks[n].y / photoSize.high_px * img.clientHeight;
  const rim = 40, out = (value, from, wide) => value < from + rim || value > from + wide - rim;
  if (out(x, view.scrollLeft, view.clientWidth)) view.scrollLeft = x - view.clientWidth / 2;
  if (out(y, view.scrollTop, view.clientHeight)) view.scrollTop = y - view.clientHeight / 2;
}

function zoomTo(to) {
  zoom = Math.min(ZOOM_MOST, Math.max(1, to));
  at("photo-sheet").style.width = 100 * zoom + "%";
  at("photo-closer").disabled = zoom >= ZOOM_MOST; at("photo-further").disabled = zoom <= 1;
  const view = at("photo-view"), img = at("photo-img");
  view.scrollLeft = marks[turn].x / photoSize.wide_px * img.clientWidth - view.clientWidth / 2;
  view.scrollTop = marks[turn].y / photoSize.high_px * img.clientHeight - view.clientHeight / 2;
}
at("photo-closer").onclick = () => zoomTo(zoom * 2);
at("photo-further").onclick = () => zoomTo(zoom / 2);

/** Begin with a new photo: both marks lie on it, neither is set. */
function startMarks(size, told) {
  photoSize = size; onMarks = told; turn = 0;
  marks.forEach((_, n) => { marks[n] = { x: (0.4 + 0.2 * n) * size.wide_px, y: 0.5 * size.high_px, set: false, off_px: 0 }; });
  zoomTo(1); showMarks();
}
