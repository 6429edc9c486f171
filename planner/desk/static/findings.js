"use strict";
// Findings: those that differ only in their place share a row, as in the terminal, and one filter asks over all of them.

const kindOf = one => JSON.stringify([one.rule, one.part, one.verdict, one.remedy, Number(one.measured ?? 0).toFixed(2)]);

/** Show findings in a table; what is alike stands once, with the other places below it. */
function fill(table, found) {
  const groups = new Map();
  for (const one of found) groups.set(kindOf(one), [...(groups.get(kindOf(one)) ?? []), one]);
  at(table).tBodies[0].replaceChildren(...[...groups.values()].map(group => findingRow(table, group)));
  showParts(); filterFindings();
}

function findingRow(table, group) {
  const [one, ...more] = group, row = make("tr"), what = make("td", bound(one.why));
  if (more.length) {
    const also = make("details"), list = make("ul");
    also.append(make("summary", `${more.length} more like it`), list);
    list.append(...more.map(each => make("li", bound(`${each.feature}: ${each.why}`))));
    what.append(also);
  }
  row.dataset.verdict = one.verdict; row.dataset.part = one.part || "job"; row.dataset.n = group.length;
  row.append(make("td", one.verdict, one.verdict), make("td", bound((one.part || "job") + ", " + one.feature)), what, todoCell(one), make("td", `${one.rule}. ${one.source || "no source stated"}`, "src"));
  return row;
}

let openedHere = false; // what the filter opened, it closes again
const findingRows = () => ["findings", "going"].flatMap(table => [...at(table).tBodies[0].rows]);

/** Offer the parts that something is said of; the one that was chosen stays. */
function showParts() {
  const before = at("find-part").value, parts = [...new Set(findingRows().map(row => row.dataset.part))].sort();
  at("find-part").replaceChildren(new Option("every part", ""), ...parts.map(part => new Option(part, part)));
  if (parts.includes(before)) at("find-part").value = before;
}

/** Show what is asked for, in both tables, and say how much that is. */
function filterFindings() {
  const words = at("find-words").value.toLowerCase().split(/\s+/).filter(Boolean), verdict = at("find-verdict").value, part = at("find-part").value;
  const asks = words.length > 0 || verdict !== "" || part !== "";
  let shown = 0, all = 0, passing = 0;
  for (const row of findingRows()) {
    const text = row.textContent.toLowerCase().replaceAll("\u00a0", " ");
    row.hidden = !(words.every(word => text.includes(word)) && (!verdict || row.dataset.verdict === verdict) && (!part || row.dataset.part === part));
    all += Number(row.dataset.n); if (row.hidden) continue;
    shown += Number(row.dataset.n); if (row.dataset.verdict === "go") passing++;
  }
  if (asks && passing && !at("passing").open) at("passing").open = openedHere = true;
  if (!asks && openedHere) at("passing").open = openedHere = false;
  at("finder-n").textContent = asks ? `${shown} of ${all} findings` : "";
}
for (const id of ["find-words", "find-verdict", "find-part"]) at(id).oninput = filterFindings;
at("finder").onsubmit = event => event.preventDefault();
at("finder").onreset = () => setTimeout(filterFindings);
