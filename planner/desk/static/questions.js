"use strict";
// Questions that the job leaves open: a picture, the answers with how likely each is by form, and a button that keeps one.

let openNow = [];

/** Return one question as a group of answers, the likeliest chosen. */
function questionBox(one) {
  const box = make("fieldset", undefined, "asked"), keep = make("button", "Keep this answer"), picture = make("img");
  picture.src = "/picture/" + encodeURIComponent(one.id); picture.loading = "lazy";
  picture.alt = "The parts in question" + (one.features.some(each => each[1]) ? ", the openings ringed" : "");
  box.append(make("legend", one.text), picture);
  for (const option of one.options) {
    const words = make("label", undefined, "tick"), tick = make("input");
    tick.type = "radio"; tick.name = one.id; tick.value = option.name; tick.checked = option.name === one.default;
    words.append(tick, `${option.text} (${Math.round(100 * option.share)} %)`); box.append(words);
  }
  keep.type = "button"; keep.setAttribute("aria-label", `Keep this answer: ${one.text}`);
  keep.onclick = () => quietly(answer({ [one.id]: box.querySelector("input:checked").value }));
  box.append(keep);
  return box;
}

/** Write answers into the job, and show what follows. */
async function answer(given) {
  const told = await ask("PUT", "/answers", given);
  showForm(told.form, told.job);
  await Promise.all([judge(null), showQuestions()]);
  const next = at("open").querySelector("button") ?? at("verdict");
  next.focus();
}

/** Show what the job leaves open. */
async function showQuestions() {
  openNow = (await ask("GET", "/questions")).questions;
  at("asking").hidden = !at("words").value;
  at("open-n").textContent = openNow.length ? `${openNow.length} ${openNow.length === 1 ? "question" : "questions"}` : "Nothing is left to answer.";
  at("likeliest").hidden = !openNow.length;
  at("open").replaceChildren(...openNow.map(questionBox));
}
