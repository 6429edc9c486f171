"use strict";
// A chapter planned here: its files, its ledger, the plan; who comes second is told, and keeps what they wrote.
const byId = id => document.getElementById(id);
let now = { files: [], seen: null }, file = { name: "", text: "", version: "" };

async function sent(method, path, body, headers = {}) {
  let answer;
  try { answer = await fetch(path, { method, headers, body: body && JSON.stringify(body) }); } catch { return { error: "The desk does not answer: was the command stopped? Nothing that you wrote is lost." }; }
  return answer.json().catch(() => ({ error: "The desk refused: open the address that the command printed." }));
}
function say(words) { byId("error").textContent = words || ""; byId("error").hidden = !words; }
const make = (tag, words, name) => { const it = document.createElement(tag); it.textContent = words; if (name) it.className = name; return it; };
const path = name => "/planning/text/" + name.split("/").map(encodeURIComponent).join("/");
const day = moment => moment.slice(0, 16).replace("T", " ");

function showFile(told) {
  file = told; byId("words").value = told.text; byId("file").value = told.name; byId("both").hidden = true;
}
function showNow(told) {
  now = told;
  byId("none").hidden = now.files.length > 0; byId("editing").hidden = !now.files.length;
  byId("file").replaceChildren(...now.files.map(name => { const it = make("option", name); it.value = name; return it; }));
  if (file.name) byId("file").value = file.name;
  byId("fill").disabled = !now.files.includes("chapter.toml");
  byId("plan").disabled = !now.files.some(name => name.endsWith("job.toml"));
  byId("to-chapter").hidden = !now.planned;
  if (now.ledger) byId("filled").textContent = now.ledger;
}
/** Show both texts; nothing is written until one of them is chosen. */
function showBoth(told) {
  byId("both-name").textContent = told.name; byId("theirs").value = told.text; byId("yours").value = told.yours; byId("both").hidden = false;
  const done = () => { byId("both").hidden = true; byId("words").focus(); };
  byId("keep-theirs").onclick = () => { showFile(told); say(""); done(); };
  byId("keep-yours").onclick = async () => { if (await save(told.name, byId("yours").value, told.version)) done(); };
  byId("h-both").focus();
}
async function save(name, text, version) {
  const told = await sent("PUT", path(name), { text }, { "If-Match": `"${version}"` });
  say(told.error); byId("saved").textContent = "";
  if (told.yours !== undefined) showBoth(told);
  if (told.error) return false;
  showFile(told); byId("saved").textContent = `Saved ${told.name}. The plan does not change by itself.`;
  return true;
}
async function choose(name) {
  if (byId("words").value !== file.text && file.name && !window.confirm(`Leave what you wrote in ${file.name} unsaved?`)) { byId("file").value = file.name; return; }
  const told = await sent("GET", path(name)); say(told.error); if (!told.error) showFile(told);
}
function rows(where, box, lines) { byId(where).replaceChildren(...lines.map(words => make("li", words))); byId(box).hidden = !lines.length; }
function showPlan(told) {
  byId("plan").disabled = told.state === "working"; byId("came").hidden = told.state !== "done";
  if (told.state === "working") { byId("plan-words").textContent = told.what; return; }
  if (told.state === "failed") byId("plan-words").textContent = told.why;
  if (told.state !== "done") return;
  const late = told.late.length, n = told.jobs.length;
  byId("plan-words").textContent = `${told.verdict}: ${n} ${n === 1 ? "device" : "devices"}, ${late} late or without a date`;
  byId("jobs").replaceChildren(...told.jobs.map(one => {
    const row = document.createElement("tr");
    row.append(make("td", one.verdict, one.verdict), make("td", one.recipient || one.job), make("td", `${one.plates} ${one.plates === 1 ? "plate" : "plates"} left`), make("td", one.ready ? `ready ${day(one.ready)}` : one.plates ? "no date" : "nothing left to print"), make("td", one.deadline ? `due ${one.deadline}` : "no date asked"));
    return row;
  }));
  rows("late", "lateness", told.late); rows("limits", "limit", told.limits); rows("changes", "other", told.changes);
  rows("unread", "left-out", told.unread); rows("buy", "buying", told.buy);
}
async function follow() {
  const told = await sent("GET", "/planning/progress"); say(told.error); if (told.error) return;
  showPlan(told);
  if (told.state === "working") { setTimeout(follow, 400); return; }
  const after = await sent("GET", "/planning/state"); if (!after.error) showNow(after);
}
async function plan() {
  const told = await sent("POST", "/planning/plan", {}, now.seen === null ? {} : { "If-Match": `"${now.seen}"` });
  byId("since").hidden = true;
  if (told.when) {
    byId("since-words").textContent = `The chapter was planned since you loaded the page, at ${told.when.map(day).join(", ")}, for ${told.jobs.join(", ")}. Yours is not made yet.`;
    byId("since").hidden = false; showNow(told); byId("still").focus(); return;
  }
  say(told.error); if (!told.error) follow();
}
byId("still").onclick = plan;
byId("drop-mine").onclick = () => { byId("since").hidden = true; byId("h-plan").focus(); };
byId("plan").onclick = plan;
byId("file").onchange = () => choose(byId("file").value);
byId("save").onclick = () => save(file.name, byId("words").value, file.version);
byId("fill").onclick = async () => { const told = await sent("POST", "/planning/ledger", {}); say(told.error); if (!told.error) { showNow(told); byId("filled").textContent = told.told; } };
sent("GET", "/planning/state").then(told => { say(told.error); if (told.error) return; showNow(told); showPlan(told.plan); if (told.plan.state === "working") follow(); if (told.files.length) choose(told.files[0]); });
