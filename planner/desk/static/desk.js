"use strict";
const fail = words => { at("error").textContent = words; at("error").hidden = !words; };
const ask = (method, path, body) => inTurn(path, () => sent(method, path, body));
async function sent(method, path, body) {
  let answer;
  const headers = WRITES.has(path) ? { "If-Match": `"${version}"` } : {};
  try {
    answer = await fetch(path, { method, headers, body: body === undefined || body instanceof Blob ? body : JSON.stringify(body) });
  } catch { fail("The desk does not answer: was the command stopped?"); throw new Error("no answer"); }
  const told = await answer.json().catch(() => ({ error: "The desk refused: open the address that the command printed." }));
  if (told.yours !== undefined) showBoth(told); // the version stays: nothing is written until a text is chosen
  else if (told.version !== undefined) version = told.version;
  fail(told.error || "");
  if (told.error) throw Object.assign(new Error(told.error), { at: told.at });
  return told;
}

function showJob(told) { showForm(told.form, told.job); return Promise.all([judge(null), showQuestions()]); }
let asked = 0, later, rested, tried = null;  // the size that is shown; null for the job's own
async function judge(percent, prove = false) { // the verdict first; remedies are proved once the hand rests
  for (const timer of [later, rested]) clearTimeout(timer);
  const turn = ++asked, told = await watched(ask("POST", "/check", percent === null ? { prove } : { percent, prove }));
  if (turn !== asked) return;
  if (!prove) rested = setTimeout(() => quietly(judge(percent, true)), 900);
  const { check, window: reach } = told, of = reach.workable;
  at("proving").hidden = prove; proved = { percent, found: check.remedies };
  const short = value => Number(value.toFixed(2));
  if (percent === null) { at("percent").value = told.own_percent; at("percent-n").value = short(told.own_percent); }
  tried = percent;
  at("verdict").textContent = `${check.verdict} at ${short(check.scale_percent)} %`; at("verdict").className = check.verdict;
  const end = value => value === null ? "no limit" : value.toFixed(2) + " %";
  const unmet = of.until.length ? `Not known until answered (then ${of.if_answered.map(i => end(i.low_percent) + " to " + end(i.high_percent)).join(", ")} at most): ` : "No size works: ";
  at("window").textContent = bound(of.empty ? unmet + (of.until.length ? of.until : of.causes).map(c => `${c.part || "job"} ${c.feature}, ${c.why}`).join("; ")
    : `Sizes at which the device works: ${of.intervals.map(i => end(i.low_percent) + " to " + end(i.high_percent)).join(", ")}. ${check.checked_n} of ${check.features_n} features checked, on ${check.guesses.length} guesses. The job's own: ${short(told.own_percent)} %, ${told.from}.`);
  showTrack(of.intervals, check.scale_percent, of.empty ? "no size is known to work" : `sizes at which the device works: ${of.intervals.map(i => end(i.low_percent) + " to " + end(i.high_percent)).join(", ")}`);
  at("questions").replaceChildren(...check.questions.filter(q => !q.options.length).map(q => make("li", q.text)));
  fill("findings", check.findings.filter(f => f.verdict !== "go")); fill("going", check.findings.filter(f => f.verdict === "go"));
}
/** Draw the sizes that work on the slider's own scale, and the size that is shown. */
function showTrack(intervals, percent, named) {
  const range = at("percent"), low = Number(range.min), high = Number(range.max), place = value => 100 * Math.min(1, Math.max(0, (value - low) / (high - low)));
  const bands = intervals.filter(one => (one.high_percent ?? high) >= low && (one.low_percent ?? low) <= high).map(one => {
    const band = make("i"), from = place(one.low_percent ?? low);
    band.style.left = from + "%"; band.style.width = place(one.high_percent ?? high) - from + "%";
    return band;
  });
  const here = make("b"); here.style.left = place(percent) + "%";
  at("track").replaceChildren(...bands, here); at("track").setAttribute("aria-label", named);
}
const moved = value => {
  tried = Number(value);
  at("percent").value = value; at("percent-n").value = value;
  for (const timer of [later, rested]) clearTimeout(timer);
  later = setTimeout(() => quietly(judge(Number(value))), 30);
};
at("percent").oninput = () => moved(at("percent").value);
at("percent-n").onchange = () => moved(at("percent-n").value);
at("own").onclick = () => quietly(judge(null));
at("guess").onclick = () => quietly(ask("POST", "/guess").then(showJob));
at("save").onclick = () => quietly(ask("PUT", "/job", { text: at("words").value }).then(showJob));
at("form").onsubmit = at("open").onsubmit = event => event.preventDefault();
at("likeliest").onclick = () => quietly(answer(Object.fromEntries(openNow.map(one => [one.id, one.default]))));
async function follow() {
  const now = await ask("GET", "/progress"), words = at("plan-words");
  showAfterPlan(now.state === "done" || (now.state === "idle" && wasPlanned));
  at("bar").hidden = now.state !== "working"; at("plan").disabled = now.state === "working" || !at("words").value;
  if (now.state === "working") {
    at("bar").value = now.share; words.textContent = bound(stepWords(now));
    setTimeout(() => quietly(follow()), 400);
  } else if (now.state === "failed") words.textContent = now.why;
  else if (now.state === "done") {
    const sums = now.totals, link = make("a", "open the report");
    link.href = "/plan/report.html"; link.target = "_blank"; link.rel = "noopener";
    const papers = make("a", "take the papers for the bench"); papers.href = "/plan/bench/papers.pdf";
    words.replaceChildren(`${now.verdict} at ${now.scale_percent} %: ${now.plates.length} plates` + (sums.duration_s ? `, ${(sums.duration_s.value / 3600).toFixed(1)} h` : "") + (sums.mass_g ? `, ${sums.mass_g.value.toFixed(0)} g` : "") + "; ", link, ", ", papers);
  }
}
at("plan").onclick = () => quietly(ask("POST", "/plan", tried === null ? {} : { percent: tried }).then(follow));
quietly(ask("GET", "/state").then(told => { at("to-chapter").hidden = !told.chapter; wasPlanned = told.planned; showMeshes(told.meshes); showForm(told.form, told.job); if (told.job) { quietly(judge(null)); quietly(showQuestions()); } return follow(); }));
