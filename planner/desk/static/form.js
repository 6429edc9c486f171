"use strict";
// The form: fields with units, rows that are added and taken away, and each refusal at the field that it speaks of.

/** Return what a field holds, as the file would; null where it is empty. */
function valueOf(input, kind) {
  if (kind === "yes") return input.checked;
  const words = input.value.trim();
  return words === "" ? null : kind === "number" || kind === "whole" ? Number(words) : words;
}

/** Say at a field, or at a row as a whole, what is wrong with it; nothing takes the words away. */
function refuse(box, words) {
  const said = box.querySelector(".wrong"), input = box.querySelector("input, select, summary");
  said.textContent = words;
  input?.setAttribute("aria-invalid", String(Boolean(words)));
}

/** Return a box with one field; `send` takes its new value and the box. */
function fieldBox(id, who, spec, value, send) {
  const box = make("div", undefined, "field"), named = `${who} ${spec.label}${spec.unit ? ` in ${spec.unit}` : ""}`;
  const words = make("label", spec.label), wrong = make("span", "", "wrong");
  words.htmlFor = id; wrong.id = id + "-wrong"; wrong.setAttribute("role", "alert");
  box.dataset.key = spec.key;
  if (spec.unit) words.append(make("span", spec.unit, "unit"));
  if (spec.needed && value == null) words.append(make("span", "needed", "unit"));
  const input = spec.kind === "parts" ? null : inputOf(spec, value);
  if (input) {
    input.id = id; input.setAttribute("aria-label", named); input.setAttribute("aria-describedby", wrong.id);
    if (spec.needed) input.required = true;
    input.onchange = () => input.validity.badInput ? refuse(box, "This is not a number.") : send(valueOf(input, spec.kind), box);
    box.append(words, input);
  } else box.append(partsOf(id, named, spec, value ?? [], to => send(to, box)));
  if (spec.guessed) { const guess = make("span", "a guess: nobody has stated it", "guess"); guess.id = id + "-guess"; input?.setAttribute("aria-describedby", `${wrong.id} ${guess.id}`); box.append(guess); }
  if (spec.hint) box.append(make("span", spec.hint, "hint"));
  box.append(wrong);
  return box;
}

function inputOf(spec, value) {
  if (spec.choices.length) {
    const input = make("select"), known = [...spec.choices];
    if (value && !known.includes(value)) known.push(value);
    input.append(new Option("not stated", ""), ...known.map(each => new Option(each, each)));
    input.value = value ?? "";
    return input;
  }
  const input = make("input"), number = spec.kind === "number" || spec.kind === "whole";
  input.type = spec.kind === "yes" ? "checkbox" : spec.kind === "day" ? "date" : number ? "number" : "text";
  if (number) input.step = spec.kind === "whole" ? "1" : "any";
  if (spec.kind === "yes") input.checked = value === true; else input.value = value ?? "";
  return input;
}

/** Return boxes to tick, one for each part, behind a line that says which are ticked. */
function partsOf(id, named, spec, value, send) {
  const box = make("details", undefined, "ticks"), told = make("summary"), ticked = new Set(value);
  const tell = () => { told.textContent = `${spec.label}: ${[...ticked].join(", ") || "none yet"}`; };
  told.id = id; tell(); box.append(told);
  for (const part of [...new Set([...spec.choices, ...value])]) {
    const words = make("label", undefined, "tick"), tick = make("input");
    tick.type = "checkbox"; tick.checked = ticked.has(part); tick.setAttribute("aria-label", `${named} ${part}`);
    tick.onchange = () => { if (tick.checked) ticked.add(part); else ticked.delete(part); tell(); send([...ticked]); };
    words.append(tick, part); box.append(words);
  }
  return box;
}

/** Send a change of the form; a refusal is said at its field, and the file stays as it was. */
function change(fields, box, done) {
  return ask("PUT", "/form", fields).then(told => {
    refuse(box, ""); box.querySelector(".guess")?.remove();
    at("words").value = told.job;
    done?.(told);
    return quietly(judge(null));
  }).catch(error => {
    const place = error.at, home = box.closest("[data-table]");
    const other = place && home && home.dataset.table === place.table && home.querySelector(`[data-key="${CSS.escape(place.key)}"]`);
    if (error.message !== "no answer") { refuse(other || box, other ? place.words : error.message); fail(""); }
  });
}

/** Return the group of fields of one row that stands in the file. */
function rowOf(table, row, number) {
  const name = row.values.name || `${table.one} ${number + 1}`, group = make("div", undefined, "row"), title = make("strong", name);
  group.setAttribute("role", "group"); group.setAttribute("aria-label", `${table.one} ${number + 1}: ${name}`);
  group.dataset.table = table.name; group.append(title);
  for (const spec of table.fields) {
    if (spec.key in row.elsewhere) { group.append(make("span", `${spec.label}: ${row.elsewhere[spec.key]} (in the whole file)`, "hint")); continue; }
    group.append(fieldBox(`${table.name}-${number}-${spec.key}`, name, { ...spec, guessed: row.guessed.includes(spec.key) }, row.values[spec.key], (to, box) =>
      change({ rows: { table: table.name, row: number, fields: { [spec.key]: to } } }, box, () => { if (spec.key === "name") title.textContent = to; })));
  }
  const off = make("button", "take away"), box = make("div", undefined, "field");
  off.type = "button"; off.setAttribute("aria-label", `take away ${name}`); off.id = `${table.name}-${number}-off`;
  off.onclick = () => change({ rows: { table: table.name, row: number, remove: true } }, box, told => again(told, `add-${table.name}`));
  box.append(off, make("span", "", "wrong")); box.lastChild.setAttribute("role", "alert");
  group.append(box);
  return group;
}

/** Return an empty row, kept once somebody says so. */
function draftOf(table, button) {
  const group = make("div", undefined, "row draft"), fields = {}, who = `new ${table.one}`;
  group.setAttribute("role", "group"); group.setAttribute("aria-label", who); group.dataset.table = table.name;
  group.append(make("strong", who));
  for (const spec of table.fields) group.append(fieldBox(`${table.name}-new-${spec.key}`, who, spec, null, (to, box) => { fields[spec.key] = to; refuse(box, ""); }));
  const keep = make("button", "keep it"), drop = make("button", "leave it"), box = make("div", undefined, "field");
  keep.type = drop.type = "button"; keep.setAttribute("aria-label", `keep it: ${who}`); drop.setAttribute("aria-label", `leave it: ${who}`);
  keep.onclick = () => change({ rows: { table: table.name, row: null, fields } }, box, told => again(told, `${table.name}-${table.rows.length}-name`));
  drop.onclick = () => { group.remove(); button.disabled = false; button.focus(); };
  box.append(keep, drop, make("span", "", "wrong")); box.lastChild.setAttribute("role", "alert");
  group.append(box);
  return group;
}

/** Return one kind of row: its rows behind a line that counts them, and the button that adds one. */
function tableOf(table, open) {
  const box = make("details", undefined, "rows"), add = make("button", `add a ${table.one}`);
  box.id = `rows-${table.name}`; box.open = open;
  box.append(make("summary", `${table.title}: ${table.rows.length || "none"}`), ...table.rows.map((row, number) => rowOf(table, row, number)));
  add.type = "button"; add.id = `add-${table.name}`;
  add.onclick = () => { add.before(draftOf(table, add)); add.disabled = true; at(`${table.name}-new-name`).focus(); };
  box.append(add);
  return box;
}

/** Show the form anew, and go on at a place in it. */
function again(told, id) {
  showForm(told.form, told.job);
  at(id)?.focus();
}

const PLAIN = { count: "whole", percent: "number", handed: "yes", skin_side: "yes" };

/** Show the job's fields, its parts', and every kind of row. */
function showForm(form, text) {
  at("words").value = text;
  const open = new Set([...document.querySelectorAll("details.rows[open]")].map(one => one.id)), shown = [];
  const line = (who, values, guessed, send) => {
    const row = make("div", undefined, "row");
    if (values.name !== undefined && who !== "job") row.append(make("strong", values.name));
    for (const [key, value] of Object.entries(values)) {
      if (key === "name" && who !== "job") continue;
      const spec = { key, label: key.replaceAll("_", " "), unit: key === "percent" ? "%" : "", kind: PLAIN[key] ?? "text", choices: form.choices[key] ?? [], hint: "", needed: false, guessed: guessed.includes(key) };
      row.append(fieldBox(`${who}-${key}`, who, spec, value, (to, box) => change(send(key, to), box)));
    }
    return row;
  };
  for (const room of ["job", "size"]) shown.push(line(room, form[room], form.guesses[room], (key, to) => ({ [room]: { [key]: to } })));
  for (const part of form.parts) shown.push(line(part.name, part, form.guesses.parts[part.name] ?? [], (key, to) => ({ parts: { [part.name]: { [key]: to } } })));
  for (const table of form.tables) shown.push(tableOf(table, open.has(`rows-${table.name}`)));
  at("form").replaceChildren(...(text ? shown : [make("p", "No job.toml yet.")]));
  showPhotoRows(form, Boolean(text));
  at("guess").disabled = Boolean(text); at("plan").disabled = !text;
  const main = document.querySelector("main");  // with a job the answer comes first, without one the meshes do
  if (Boolean(text) !== (main.firstElementChild === at("answer"))) text ? main.prepend(at("answer"), at("planning")) : main.append(at("answer"), at("planning"));
}
