"use strict";
// After a plan: its report's own view of device and parts, turned here, what became of its plates, and the release.

let wasPlanned = false; // by this desk before, or by a command

/** Offer what a finished plan allows. */
function showAfterPlan(done) {
  at("turning").hidden = at("releasing").hidden = !done;
  at("turning").querySelector("iframe")?.remove(); at("turning").open = false; // another plan has another device
  at("release-words").textContent = ""; at("release-missing").replaceChildren();
  at("logging").hidden = true; at("print-words").textContent = "";
  if (done) quietly(ask("GET", "/print-log").then(showPrintLog));
}

/** Show the plates that may be logged, and the newest lines of the log; nothing where a chapter's ledger keeps them. */
function showPrintLog(told) {
  const option = (value, words) => { const it = make("option", words); it.value = value; return it; }, kept = at("print-plate").value;
  at("logging").hidden = !told.plates.length;
  at("print-plate").replaceChildren(...told.plates.map(one => option(one.number, bound(`plate ${one.number}, ${one.hours.toFixed(1)} h${one.grams === null ? "" : `, ${Math.round(one.grams)} g`}`))));
  at("print-plate").onchange = () => { at("print-pieces").textContent = told.plates.find(one => String(one.number) === at("print-plate").value)?.pieces ?? ""; };
  if (told.plates.some(one => String(one.number) === kept)) at("print-plate").value = kept;
  at("print-plate").onchange();
  at("print-cause").replaceChildren(...told.causes.map(one => option(one.cause, `${one.cause}: ${one.about}`)));
  at("print-lines").replaceChildren(...told.lines.map(words => make("li", bound(words))));
}
at("print-outcome").onchange = () => { at("print-failed").hidden = at("print-outcome").value !== "failed"; };

/** Write one line of the log; what was typed stays where it is refused. */
async function logPrint() {
  const failed = at("print-outcome").value === "failed";
  const line = { plate: Number(at("print-plate").value), outcome: at("print-outcome").value, ran_min: at("print-min").value, grams: at("print-g").value, again: at("print-again").checked };
  if (failed) Object.assign(line, { cause: at("print-cause").value, lost: at("print-lost").value });
  try {
    const told = await ask("POST", "/print-log", line);
    for (const id of ["print-min", "print-g", "print-lost"]) at(id).value = "";
    at("print-again").checked = false;
    showPrintLog(told.state); at("print-words").textContent = told.words;
  } catch (error) { at("print-words").textContent = error.message; fail(""); }
}
at("print-told").onsubmit = event => { event.preventDefault(); quietly(logPrint()); };

/** Load the report where its device is, once somebody opens it: it may hold megabytes. */
at("turning").ontoggle = () => {
  if (!at("turning").open || at("turning").querySelector("iframe")) return;
  const frame = make("iframe");
  frame.title = "The report's view of the device and its parts"; frame.src = "/plan/report.html#device";
  at("turning").append(frame);
};

/** Ask for the release: the sheet is stamped either way, and what is missing stands here. */
async function release() {
  at("release").disabled = true; at("release-words").textContent = "Reading the record."; at("release-missing").replaceChildren();
  try {
    const told = await ask("POST", "/release"), papers = make("a", "take the stamped papers");
    papers.href = "/plan/bench/papers.pdf";
    at("release-words").replaceChildren(told.words + " ", papers);
    at("release-missing").replaceChildren(...told.missing.map(one => make("li", bound(`${one.item}: ${one.what}; ${one.todo}`))));
  } catch (error) { at("release-words").textContent = error.message; fail(""); } finally { at("release").disabled = false; }
}
at("release").onclick = () => quietly(release());
