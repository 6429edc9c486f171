"use strict";
// After a plan: its report's own view of device and parts, turned here, and the release, with what is missing for it.

let wasPlanned = false; // by this desk before, or by a command

/** Offer what a finished plan allows. */
function showAfterPlan(done) {
  at("turning").hidden = at("releasing").hidden = !done;
  at("turning").querySelector("iframe")?.remove(); at("turning").open = false; // another plan has another device
  at("release-words").textContent = ""; at("release-missing").replaceChildren();
}

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
