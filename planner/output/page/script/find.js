// One filter over all checks: the two long lists, of size and fit and of print, show what is asked for; nothing else hides.

const finder = byId("finder");
const lists = [["all-findings", "all-list", "fit-title", "Fit"], ["print-all", "print-list", "print-title", "Print"]];

/** Return whether a check is asked for. */
function askedFor(item, words, verdict, part) {
  if (verdict && item.dataset.verdict !== verdict) return false;
  if (part && item.dataset.part !== part) return false;
  const text = `${item.dataset.rule} ${item.textContent}`.toLowerCase();
  return words.every((word) => text.includes(word));
}

/** Show in both lists what is asked for, and say how many there are and where. */
function find() {
  const words = byId("find-text").value.toLowerCase().replaceAll("\u00a0", " ").split(/\s+/).filter(Boolean);
  const [verdict, part] = [byId("find-verdict").value, byId("find-part").value];
  const asks = words.length > 0 || verdict !== "" || part !== "";
  const told = [];
  for (const [details, list, , station] of lists) {
    let shown = 0;
    const items = byId(list).querySelectorAll(".finding");
    for (const item of items) {
      item.hidden = asks && !askedFor(item, words, verdict, part);
      if (!item.hidden) shown += 1;
    }
    if (asks) byId(details).open = true;
    told.push(`<a href="#${details}">${shown} of ${items.length} in ${station}</a>`);
  }
  byId("found").innerHTML = asks ? told.join(", ") : "";
}

let asking = 0;
for (const kind of ["input", "change"]) {
  finder.addEventListener(kind, () => { clearTimeout(asking); asking = setTimeout(find, 120); });
}
finder.addEventListener("reset", () => setTimeout(find));
finder.addEventListener("submit", (event) => { event.preventDefault(); find(); });
new MutationObserver(find).observe(byId("all-list"), { childList: true });
finder.hidden = false;
