"use strict";
// Meshes: files and folders are dropped in, the smallest is looked at first, and each part's answer stands beside its name.

const answers = new Map();
const MESH = /\.(stl|3mf|obj|ply)$/i;

function showMeshes(names) {
  at("kept-n").textContent = names.length ? `${names.length} ${names.length === 1 ? "mesh" : "meshes"}` : "No mesh yet";
  at("meshes").replaceChildren(...names.map(name => {
    const row = make("li"), picture = make("img", undefined, "thumb"), off = make("button", "take away"), told = answers.get(name);
    off.type = "button"; off.setAttribute("aria-label", "take away " + name);
    off.onclick = () => quietly(ask("DELETE", "/mesh/" + encodeURIComponent(name)).then(left => { answers.delete(name); showMeshes(left.meshes); }));
    picture.src = `/mesh/${encodeURIComponent(name)}/picture`; picture.alt = ""; picture.loading = "lazy"; picture.width = 120; picture.height = 88;
    row.append(picture, name + " ", off);
    if (told) row.append(make("span", ` ${told.verdict}`, told.verdict), make("span", bound(`, ${told.words}`), "hint"));
    return row;
  }));
}

/** Return the files of what was dropped, those in folders too. */
async function dropped(transfer) {
  const entries = [...transfer.items].map(item => item.webkitGetAsEntry?.()).filter(Boolean);
  if (!entries.length) return [...transfer.files];
  const found = [];
  const into = async entry => {
    if (entry.isFile) { found.push(await new Promise((good, bad) => entry.file(good, bad))); return; }
    const reader = entry.createReader();
    for (;;) {  // a reader gives its entries in parts, and an empty one at the end
      const some = await new Promise((good, bad) => reader.readEntries(good, bad));
      if (!some.length) return;
      for (const one of some) await into(one);
    }
  };
  for (const entry of entries) await into(entry);
  return found;
}

/** Take files in, the smallest first, and look at each alone; what is no mesh is told, and does not stop the others. */
async function add(files) {
  const all = files.filter(file => MESH.test(file.name)).sort((a, b) => a.size - b.size), others = files.length - all.length;
  const meshes = all.filter((file, n) => all.findIndex(one => one.name === file.name) === n);
  const whole = meshes.reduce((sum, file) => sum + file.size, 0), began = performance.now();
  const wrong = all.filter(file => !meshes.includes(file)).map(file => `${file.name}: two files have this name; give one another.`);
  let read = 0, took = 0;
  at("kept").open = meshes.length > 0;
  for (const [n, file] of meshes.entries()) {
    const left = read ? `, about ${span((performance.now() - began) / 1000 * (whole - read) / read)} left` : "";
    at("adding").textContent = bound(`Looking at ${file.name}: ${n} of ${meshes.length} done${left}`);
    try {
      const told = await ask("PUT", "/mesh/" + encodeURIComponent(file.name), file);
      showMeshes(told.meshes);
      answers.set(told.added, await ask("GET", "/mesh/" + encodeURIComponent(told.added) + "/answer"));
      showMeshes(told.meshes); took++;
    } catch (error) { if (error.message === "no answer") return; wrong.push(error.message); }
    read += file.size;
  }
  at("adding").textContent = bound(`${took} of ${all.length} looked at, each alone at 100 %` + (others ? `; other files left out: ${others}` : "") + (wrong.length ? `. Not taken: ${wrong.join(" ")}` : ""));
  fail("");
}
at("files").onchange = () => quietly(add([...at("files").files]));
at("folder").onchange = () => quietly(add([...at("folder").files]));
for (const name of ["dragover", "dragleave", "drop"]) at("drop").addEventListener(name, event => { event.preventDefault(); at("drop").classList.toggle("over", name === "dragover"); if (name === "drop") quietly(dropped(event.dataTransfer).then(add)); });
