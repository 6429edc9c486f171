// One filter over all checks: the two long lists, of size and fit and of print, show what is asked for; nothing else hides.
// Words are looked for in the rest of the page too, and in what each paper says: links lead to the first place of each.

const finder = byId("finder");
const lists = [["all-findings", "all-list", "fit-title", "Fit"], ["print-all", "print-list", "print-title", "Print"]];

/** Return whether a check is asked for. */
function askedFor(item, words, verdict, part) {
  if (verdict && item.dataset.verdict !== verdict) return false;
  if (part && item.dataset.part !== part) return false;
  const text = `${item.dataset.rule} ${item.textContent}`.toLowerCase();
  return words.every((word) => text.includes(word));
}

let places = null; // what else can be read: rows, items and paragraphs of stations, and what papers say

/** Return them, looked up once: those of the two lists are found by their filter. */
function allPlaces() {
  places ??= [...document.querySelectorAll(".station, #which-paper")].flatMap((box) =>
    [...box.querySelectorAll("li, tr, p, dd, figcaption")].filter((it) => !it.closest("#all-list, #print-list") && !it.querySelector("li, tr, p, dd"))
      .map((it) => ({ it, box, text: it.textContent.toLowerCase().replaceAll("\u00a0", " ") })));
  return places;
}

/** Return a link for each station, and for the papers, in which all words stand together. */
function elsewhere(words) {
  const found = new Map();
  for (const place of words.length ? allPlaces() : []) {
    if (words.every((word) => place.text.includes(word))) found.set(place.box, [...(found.get(place.box) ?? []), place.it]);
  }
  return [...found].map(([box, items]) => {
    const link = document.createElement("a"), name = box.dataset.station ?? byId(`${box.id}-title`)?.textContent ?? box.id;
    link.href = `#${box.id}`;
    link.textContent = `${items.length} in ${box.dataset.station ? name : `the text of ${name}`}`;
    link.addEventListener("click", (event) => {
      event.preventDefault();
      for (let up = items[0].closest("details"); up; up = up.parentElement.closest("details")) up.open = true;
      items[0].scrollIntoView({ block: "center" });
    });
    return link;
  });
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
  for (const link of elsewhere(words)) byId("found").append(", ", link);
}

let asking = 0;
for (const kind of ["input", "change"]) {
  finder.addEventListener(kind, () => { clearTimeout(asking); asking = setTimeout(find, 120); });
}
finder.addEventListener("reset", () => setTimeout(find));
finder.addEventListener("submit", (event) => { event.preventDefault(); find(); });
new MutationObserver(find).observe(byId("all-list"), { childList: true });
finder.hidden = false;
