"use strict";
// What happened in a chapter: one form for every event; who comes second sees what was told, and keeps what they wrote.
const byId = id => document.getElementById(id);
const WORDS = {
  started: "a plate runs", done: "a plate is done", failed: "a plate failed", weighed: "a spool was weighed", bought: "something was bought",
  fitted: "a device was fitted", handed: "a device was handed over", note: "a note about a device",
  printer: "Printer, where it is another one", spool: "Spool, where several may be", grams: "Grams, where weighed", ran_min: "Minutes that it ran",
  cause: "What was seen", lost: "Pieces lost, as jaw:1; empty: all", left_g: "Grams left", material: "Material of a new spool",
  colour: "Colour of a new spool", lot: "Lot of a new spool", n: "How many, or how many metres", text: "The note",
};
const NEEDED = new Set(["cause", "left_g", "n", "text"]);
let state = { seen: 0, tells: {} }, key = "";
const newKey = () => Array.from(crypto.getRandomValues(new Uint8Array(16)), n => n.toString(16).padStart(2, "0")).join("");

async function sent(method, path, body, headers = {}) {
  let answer;
  try { answer = await fetch(path, { method, headers, body: body && JSON.stringify(body) }); } catch { return { error: "The desk does not answer: was the command stopped? Nothing that you wrote is lost." }; }
  return answer.json().catch(() => ({ error: "The desk refused: open the address that the command printed." }));
}
function say(words) { byId("error").textContent = words || ""; byId("error").hidden = !words; }
function options(list, words) { return list.map(one => { const it = document.createElement("option"); it.value = one; it.textContent = words ? words[one] || one : one; return it; }); }

function subjects(kind) {
  if (kind === "weighed") return state.spools.map(row => row.id);
  if (kind === "bought") return state.stock.map(row => row.name);
  if (kind === "fitted" || kind === "handed" || kind === "note") return state.jobs.map(row => row.job);
  const ready = kind === "started" ? ["planned"] : ["planned", "running"];
  return state.plates.filter(row => ready.includes(row.state)).map(row => row.id);
}
function showFields() {
  const kind = byId("kind").value, kept = Object.fromEntries([...byId("fields").querySelectorAll("[name]")].map(it => [it.name, it.value]));
  byId("subjects").replaceChildren(...options(subjects(kind)));
  byId("fields").replaceChildren(...state.tells[kind].map(name => {
    const box = document.createElement("div"), label = document.createElement("label");
    const field = document.createElement(name === "cause" ? "select" : "input");
    box.className = "field"; field.id = "field-" + name; field.name = name; label.htmlFor = field.id; label.textContent = WORDS[name] || name;
    if (name === "cause") field.replaceChildren(...options(state.causes));
    if (kept[name] !== undefined) field.value = kept[name];
    field.required = NEEDED.has(name);
    box.append(label, field); return box;
  }));
}
function show(told) {
  state = told;
  const kind = byId("kind").value;
  byId("kind").replaceChildren(...options(Object.keys(state.tells), WORDS));
  if (kind) byId("kind").value = kind;
  showFields();
  const plates = state.plates.filter(row => ["planned", "running", "failed"].includes(row.state));
  const lines = [...plates.map(row => `${row.id} ${row.state}, ${row.printer}`), ...state.spools.map(row => `${row.id}: ${row.left_g === null ? "not weighed" : Math.round(row.left_g) + " g left"}`), ...state.jobs.map(row => `${row.job} ${row.state}`)];
  byId("now").replaceChildren(...lines.map(words => { const it = document.createElement("li"); it.textContent = words; return it; }));
}
function showSince(told) {
  byId("since-rows").replaceChildren(...told.since.map(row => { const it = document.createElement("li"); it.textContent = `${row.at}, ${row.role}: ${row.kind} ${JSON.stringify(row.body)}`; return it; }));
  byId("since").hidden = false;
  byId("still").onclick = () => { state.seen = told.seen; byId("since").hidden = true; tell(); };
  byId("drop-mine").onclick = () => { byId("since").hidden = true; say(""); key = newKey(); load(); };
  byId("h-since").focus();
}
async function tell() {
  const fields = { subject: byId("subject").value, role: byId("role").value, even_so: byId("even-so").checked, key };
  for (const it of byId("fields").querySelectorAll("[name]")) fields[it.name] = it.value;
  const told = await sent("POST", "/ledger/" + byId("kind").value, fields, { "If-Match": `"${state.seen}"` });
  say(told.error);
  if (told.since) return showSince(told);
  if (told.error) return;
  key = newKey(); // an answer that was lost is asked for again with the same key, and is not told twice
  byId("kept").textContent = `Kept: ${told.subject} ${told.kind}` + (told.body.despite ? `, although ${told.body.despite.join(", and ")}` : "");
  byId("subject").value = ""; byId("even-so").checked = false;
  byId("fields").replaceChildren();
  show(told.state);
}
async function load() { const told = await sent("GET", "/ledger"); say(told.error); if (!told.error) show(told); }

key = newKey();
byId("kind").onchange = showFields;
byId("tell").onsubmit = event => { event.preventDefault(); tell(); };
load();
