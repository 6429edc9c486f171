"use strict";
// How far work is, in words: the step and its count, what it took so far, and what is left by what was measured here.

const span = s => s < 100 ? `${Math.max(1, Math.ceil(s))} s` : `${Math.ceil(s / 60)} min`;

/** Return what is done, which step of how many that is, and how long it still takes; never a bar without a number. */
function stepWords(now) {
  const count = now.of ? ` (${now.done} of ${now.of} done)` : "", more = now.steps - now.step;
  const left = now.left_s === null ? `${span(now.spent_s)} so far` : `about ${span(now.left_s)} left` + (now.left_of === "all" || !more ? "" : " of this step");
  return `Step ${now.step} of ${now.steps}: ${now.what}${count}, ${left}${now.left_of === "all" || !more ? "" : `; then ${more} more`}`;
}

let watching = 0;

/** Wait for an answer; where it takes long, say how far the parts are. */
async function watched(promise) {
  const mine = ++watching;
  const look = async () => {
    if (mine !== watching) return;
    const told = await fetch("/progress").then(answer => answer.json()).catch(() => ({}));
    if (mine !== watching) return;
    at("looking").textContent = told.looking ? bound(stepWords(told.looking)) : "";
    later = setTimeout(look, 500);
  };
  let later = setTimeout(look, 400);
  try { return await promise; } finally { clearTimeout(later); if (mine === watching) { watching++; at("looking").textContent = ""; } }
}
