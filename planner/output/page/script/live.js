// Another size is tried: every rule answers again, and the page says what follows.

const live = JSON.parse(document.getElementById("live-data").textContent);
const byId = (id) => document.getElementById(id);
const escaped = (text) => String(text ?? "").replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`);
const UNIT = new RegExp(live.fixed_space, "g");
/** Return a text escaped, no line of which ends between a number and its unit. */
const said = (text) => escaped(text).replace(UNIT, "\u00a0");
const planned = live.planned_percent;
const kept = new Map();
for (const list of ["rules", "hardware", "cuts"]) live[list] = unfolded(live[list], live.said);

/** Return verdict, findings (worst first) and questions at a size in percent: the same as a check there. */
function tried(percent) {
  const s = percent / 100;
  const answers = live.rules.map((rule) => answer(rule, s));
  const worse = (finding) => live.severity.indexOf(finding.verdict);
  const passes = (finding) => live.passes.includes(finding.verdict);
  const root = (finding) => (live.roots.includes(finding.rule) && !passes(finding) ? 0 : 1);
  const findings = [...answers].sort((a, b) => root(a) - root(b) || worse(b) - worse(a));
  const verdict = live.severity[Math.max(0, ...answers.map(worse))];
  const deciding = live.passes.includes(verdict) ? findings : findings.filter((finding) => !passes(finding));
  const questions = [...new Set(deciding.map((finding) => finding.question).filter(Boolean))].slice(0, live.questions_most);
  const hardware = live.hardware.map((line, index) => {
    const own = live.work[index].map((number) => answers[number]).filter((f) => f.verdict === "go-with-work");
    return { ...answer(line, s), work: [...new Set(own.map((f) => `${f.part}: ${f.remedy}`))].join("; "), fits: worstOf(live.work[index].map((number) => answers[number])) };
  }).filter((line) => line.name); // a nut or a bush may be needed at some sizes alone
  return { percent, verdict, findings, questions, hardware, cuts: live.cuts.map((line) => answer(line, s)) };
}

/** Return the size nearest to one tried that works, to 0.1 % inward; null where there is none. */
function nearest(percent) {
  let best = null;
  for (const [low, high] of live.workable) {
    let size = percent;
    if (low !== null && percent < low) size = Math.ceil(low * 10 - 1e-9) / 10;
    if (high !== null && percent > high) size = Math.floor(high * 10 + 1e-9) / 10;
    if (low !== null && size < low) size = low;
    if (high !== null && size > high) size = high;
    if (best === null || Math.abs(size - percent) < Math.abs(best - percent)) best = size;
  }
  return best;
}

const figure = (value) => (Math.abs(value) >= 1000 ? fixed(value, 0) : general(value, 3));
const mark = (verdict) => `<span class="tag ${verdict}"><span aria-hidden="true">${live.signs[verdict]}</span> ${verdict}</span>`;

/** Return one finding as the page writes it. */
function findingItem(f, which) {
  const numbers = f.measured != null && f.limit != null
    ? `: measured ${figure(f.measured)}, limit ${figure(f.limit)}\u00a0${escaped(live.units[f.unit] ?? f.unit)}` : "";
  return `<li class="finding" data-rule="${escaped(f.rule)}" data-part="${escaped(f.part)}" data-verdict="${f.verdict}">${mark(f.verdict)}
<div class="what"><p><b><bdi>${escaped(f.part || "the job")}</bdi></b> <span class="why">${said(f.why)}</span></p>${
  f.remedy ? `<p class="do"><b>Do:</b> ${said(f.remedy)}</p>` : ""}${f.caution ? `<p class="care">${said(f.caution)}</p>` : ""}
<details><summary>rule and source<span class="unseen"> of ${which}: ${escaped(f.part || "the job")}, ${escaped(f.feature || f.rule)}</span></summary><p class="src">${escaped(f.rule)}${f.feature ? `, ${said(f.feature)}` : ""}${numbers}. Source: ${
  said(f.source || "none stated")}.${f.at ? ` At ${said(f.at)} in the drawn mesh.` : ""}</p></details></div></li>`;
}

/** Return findings told once for each rule and verdict, work for each thing to do: the first, and the others behind it. */
function grouped(findings, what) {
  const groups = new Map();
  for (const f of findings) {
    const key = [f.rule, f.verdict, f.verdict === "go-with-work" ? f.remedy : ""].join("\n");
    groups.set(key, [...(groups.get(key) ?? []), f]);
  }
  const items = [...groups.values()].map(([first, ...others], k) => findingItem(first, `${what} ${k + 1}`) + (others.length
    ? `<li class="more"><details><summary>${escaped(alsoOf(first, others))}<span class="unseen"> As with ${what} ${k + 1}.</span></summary>${list(others, `${what} ${k + 1}, place`)}</details></li>` : ""));
  return items.length ? `<ul class="findings">${items.join("")}</ul>` : "";
}

/** Return where else it is so: a part's own further places first. */
function alsoOf(first, others) {
  const counts = new Map();
  for (const f of others) counts.set(f.part, (counts.get(f.part) ?? 0) + 1);
  const here = counts.get(first.part);
  counts.delete(first.part);
  const told = [...counts].map(([part, n]) => (part || "the job") + (n > 1 ? ` (${n})` : ""));
  const more = told.splice(4).length;
  return `Also: ${[...(here ? [`${here} more here`] : []), ...told, ...(more ? [`${more} more parts`] : [])].join(", ")}.`;
}

const list = (findings, what) => (findings.length ? `<ul class="findings">${findings.map((f, k) => findingItem(f, `${what} ${k + 1}`)).join("")}</ul>` : "");
const titled = (title, findings, what) => (findings.length ? `<h3>${title}</h3>${grouped(findings, what)}` : "");
const mm = (value, d, unit) => (value ? `${d === null ? general(value, 6) : fixed(value, d)}\u00a0${unit}` : "");

function hardwareRow(h) {
  return `<tr><th scope="row"><bdi>${escaped(h.name)}</bdi> <span class="src">${escaped(h.kind)}</span></th><td class="r">${h.count}${h.spares_n ? ` + ${h.spares_n}` : ""}</td><td>${
    escaped(h.size)}</td><td class="r">${mm(h.length_mm, null, "mm")}</td><td>${escaped(h.for_parts)}</td><td class="src">${
    live.passes.includes(h.fits) ? "" : `${mark(h.fits)} `}${said(h.why)}${h.work ? `. <strong>${said(h.work)}</strong>` : ""}</td></tr>`;
}

function cutRow(c) {
  return `<tr><th scope="row"><bdi>${escaped(c.name)}</bdi> <span class="src">${escaped(c.kind)}</span></th><td class="r">${c.count}</td><td class="r">${
    mm(c.length_mm, 0, "mm")}</td><td class="r">${mm(c.width_mm, null, "mm")}</td><td class="r">${mm(c.area_mm2, 0, "mm²")}</td><td class="src">${
    said(c.why)}</td></tr>`;
}

/** Write into an element, and keep what stood there for the planned size. */
function write(id, html) {
  const element = byId(id);
  if (!element) return;
  if (!kept.has(id)) kept.set(id, element.innerHTML);
  element.innerHTML = html;
}

/** Say of a verdict block or chip what its verdict is. */
function dress(element, verdict, text) {
  if (!element) return;
  element.classList.remove(...live.severity);
  element.classList.add(verdict);
  element.innerHTML = text;
}

const chip = (verdict) => `<span aria-hidden="true">${live.signs[verdict]}</span> ${live.words[verdict][0]}`;

/** Write a station's verdict beside its title and on the way past all stations. */
function stationIs(station, verdict) {
  dress(byId(`chip-${station}`), verdict, chip(verdict));
  byId(`route-${station}`).innerHTML = chip(verdict);
}

let open = null;

let resting = 0;

/** Fill the long list where somebody has it open, once the hand rests. */
function everything() {
  clearTimeout(resting);
  if (!byId("all-findings").open || !open) return;
  resting = setTimeout(() => {
    if (!open) return;
    write("all-list", list(open.findings, "check"));
    byId("all-list").dataset.percent = open.percent;
  }, 100);
}

/** Return the worst verdict of some findings. */
const worstOf = (findings) => live.severity[Math.max(0, ...findings.map((f) => live.severity.indexOf(f.verdict)))];

function show(percent) {
  const there = percent === planned;
  const page = document.documentElement;
  page.classList.toggle("trying", !there);
  const result = tried(percent);
  const verdict = there ? live.planned_verdict : result.verdict;
  const size = `${general(percent, 4)} %`;
  for (const mover of document.querySelectorAll("[data-here]")) mover.style.left = `${place(percent)}%`;
  byId("tried-size").textContent = size;
  byId("back").hidden = there;
  dress(byId("tried-verdict"), verdict, chip(verdict));
  const slider = byId("slider");
  slider.setAttribute("aria-valuetext", `${size}, ${live.words[verdict][0]}`);
  const near = nearest(percent);
  byId("tried-note").textContent = there
    ? "the planned size"
    : near === null ? "no size works" : near === percent ? "size and fit work here" : `nearest size that works: ${general(near, 4)} %`;
  open = there ? null : result;
  if (there) {
    for (const [id, html] of kept) byId(id).innerHTML = html;
    kept.clear();
    byId("verdict").className = `verdict ${verdict}`;
    for (const station of ["size", "fit"]) stationIs(station, live.stations[station]);
  } else {
    write("verdict", `<span class="sign" aria-hidden="true">${live.signs[verdict]}</span><strong>${live.words[verdict][0]} at ${size}</strong><span class="why">${escaped(live.words[verdict][1])}</span>`);
    byId("verdict").className = `verdict ${verdict}`;
    const first = result.findings[0];
    write("first", first && first.verdict !== "go"
      ? `<strong>What decides.</strong> ${escaped(first.part || "The job")}: ${said(first.why)}. ${first.remedy ? `<strong>Do:</strong> ${said(first.remedy)}.` : ""}`
      : "<strong>What decides.</strong> Nothing stands in the way: every check passes.");
    const bad = result.findings.filter((f) => !live.passes.includes(f.verdict));
    const work = result.findings.filter((f) => f.verdict === "go-with-work");
    const careful = result.findings.filter((f) => f.verdict === "go" && f.caution);
    write("fit-decides", (titled("What stops it", bad, "stop") + titled("Work to do", work, "work")) || "<p>Every check passes.</p>");
    write("fit-questions", result.questions.length
      ? `<h3>Questions that could change the answer</h3><ol>${result.questions.map((q) => `<li>${said(q)}</li>`).join("")}</ol>` : "");
    write("careful-count", String(careful.length));
    write("careful-list", grouped(careful, "caution"));
    write("all-count", String(result.findings.length));
    everything();
    write("hardware-rows", result.hardware.map(hardwareRow).join(""));
    write("hardware-size", size);
    write("cut-rows", result.cuts.map(cutRow).join(""));
    write("route-finish", work.length ? `${work.length} to drill or change` : "cleaning only");
    write("finish-work", work.map((f) => `<li><bdi>${escaped(f.part || "job")}</bdi>, <bdi>${said(f.feature)}</bdi>: ${said(f.remedy)}</li>`).join(""));
    for (const station of ["size", "fit"]) {
      const mine = result.findings.filter((f) => live.size_rules.includes(f.rule) === (station === "size"));
      stationIs(station, worstOf(mine));
    }
  }
  for (const row of document.querySelectorAll("[data-row]")) {
    const part = row.dataset.row;
    const own = part ? worstOf(result.findings.filter((f) => f.part === part)) : result.verdict;
    dress(row, own, `<span aria-hidden="true">${live.signs[own]}</span><span class="unseen">${own}</span>`);
  }
  document.dispatchEvent(new CustomEvent("tried", { detail: percent / planned }));
}

const place = (percent) => (100 * (Math.min(Math.max(percent, live.low_percent), live.high_percent) - live.low_percent)) / (live.high_percent - live.low_percent);

byId("slider").addEventListener("input", (event) => {
  const step = Number(event.target.value);
  show(Math.abs(step - planned) < 0.05 ? planned : step);
});
byId("back").addEventListener("click", () => {
  byId("slider").value = planned;
  show(planned);
  byId("slider").focus();
});
byId("all-findings").addEventListener("toggle", everything);
document.addEventListener("keydown", (event) => {
  const slip = event.key === "Escape" && document.querySelector("details.why[open]");
  if (!slip) return;
  slip.open = false;
  slip.querySelector("summary").focus();
});
byId("sizer").hidden = false;
show(planned);
window.tried = tried;
