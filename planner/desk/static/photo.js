"use strict";
// A photo with the card in it: two marks give a length with its range, and a button puts it into a measure of the job.

let photo = null, shownUrl = "", photoTurn = 0, photoLater, photoRested, photoLength = null;
const NEW_ROW = "new";

/** Take a photo in: the desk finds the card and keeps only where the camera was; the picture stays in this page. */
async function takePhoto(file) {
  if (!file) return;
  forgetPhoto();
  at("photo-told").textContent = "Looking for the card.";
  let told;
  try { told = await ask("PUT", "/photo", file); } catch (error) { at("photo-told").textContent = error.message === "no answer" ? "" : error.message; fail(""); return; }
  photo = { ...told, file };
  shownUrl = URL.createObjectURL(file);
  at("photo-img").src = shownUrl;
  await at("photo-img").decode().catch(() => { at("photo-told").textContent = "This browser cannot show the photo: use a JPEG or PNG."; });
  at("photo-told").textContent = bound(`${told.marks_n} marks of the card are seen; the camera looks ${Math.round(told.tilt_deg)}° off straight down.`);
  at("photo-work").hidden = false;
  startMarks(told, measureLater); measureLater();
}

/** Forget the photo, here and on the desk. */
function forgetPhoto() {
  if (photo) quietly(ask("DELETE", "/photo/" + encodeURIComponent(photo.photo)));
  if (shownUrl) URL.revokeObjectURL(shownUrl);
  photo = photoLength = null; shownUrl = "";
  at("photo-img").removeAttribute("src"); at("photo-work").hidden = true; at("photo-file").value = "";
  at("photo-told").textContent = ""; sayLength("");
}

function sayLength(words, lines = [], wrong = false) {
  at("photo-length").textContent = bound(words); at("photo-length").classList.toggle("wrong", wrong);
  at("photo-lines").replaceChildren(...lines.map(one => make("li", bound(one))));
  at("photo-decides").textContent = ""; at("photo-decides").className = "";
  at("photo-put").disabled = !photoLength || Boolean(photoLength.again) || !at("photo-row").value;
}

/** Return what stands in a number field; null where it is empty or no number. */
const stated = id => at(id).value.trim() === "" || at(id).validity.badInput ? null : Number(at(id).value);

function measureLater() {
  for (const timer of [photoLater, photoRested]) clearTimeout(timer);
  photoLength = null; ++photoTurn;
  if (!photo) return;
  if (marks.some(mark => !mark.set)) { sayLength(marks[0].set || marks[1].set ? "Now the other end." : "Set both marks."); return; }
  if (stated("photo-above") === null) { sayLength("How high does the limb's middle lie above the card? The range cannot be told without it."); return; }
  photoLater = setTimeout(() => quietly(measurePhoto()), 120);
}

const askedOf = () => ({
  points_px: marks.flatMap(mark => [mark.x, mark.y]), click_px: Math.max(...marks.map(mark => mark.off_px)), round: at("photo-round").checked,
  above_mm: stated("photo-above"), above_off_mm: stated("photo-off"), ruler_mm: stated("photo-ruler"),
});

async function measurePhoto() {
  const now = ++photoTurn, path = "/photo/" + encodeURIComponent(photo.photo), asked = askedOf();
  let told;
  try { told = await ask("POST", path + "/length", asked); } catch (error) { if (now === photoTurn) { fail(""); sayLength(error.message, [], true); } return; }
  if (now !== photoTurn) return;
  photoLength = told;
  sayLength(told.again || told.lines[0], told.again ? told.lines : told.lines.slice(1), Boolean(told.again));
  const row = at("photo-row").value;
  if (told.again || row === "" || row === NEW_ROW) return;
  photoRested = setTimeout(() => quietly(decide(now, path, { ...asked, row: Number(row) })), 700);
}

/** Ask whether the range changes the job's verdict: the job is judged at both ends and at the middle. */
async function decide(now, path, asked) {
  at("photo-decides").textContent = "Judging the job at both ends of the range.";
  let told;
  try { told = await ask("POST", path + "/decides", asked); } catch (error) { told = { words: error.message, decides: true }; fail(""); }
  if (now !== photoTurn) return;
  at("photo-decides").textContent = bound(told.words); at("photo-decides").className = told.decides ? "wrong" : "";
}

/** Offer the job's measures that a photo can give; a length round a limb wants a tape. */
function showPhotoRows(form, hasJob) {
  const before = at("photo-row").value, table = form.tables.find(one => one.name === "measure");
  const fit = hasJob ? table.rows.map((row, n) => [row.values, n]).filter(([values]) => values.kind !== "around") : [];
  at("photo-row").replaceChildren(...fit.map(([values, n]) => new Option(values.name || `measure ${n + 1}`, n)), ...(hasJob ? [new Option("a new measure", NEW_ROW)] : [new Option("nothing yet: there is no job", "")]));
  if ([...at("photo-row").options].some(one => one.value === before)) at("photo-row").value = before;
  at("photo-put").disabled = !photoLength || Boolean(photoLength.again) || !hasJob;
}

/** Put the length into a measure, as a change of the form like any other; a new measure is begun with it. */
async function putLength() {
  const mm = Math.round(photoLength.length_mm.value * 10) / 10, day = new Date(), row = at("photo-row").value;
  const taken = [day.getFullYear(), day.getMonth() + 1, day.getDate()].map(one => String(one).padStart(2, "0")).join("-");
  const ends = photoLength.length_mm;
  const off = Math.ceil(10 * Math.max(ends.high - mm, mm - ends.low) - 1e-6) / 10, fields = { recipient_mm: mm, off_mm: off, taken, how: "photo" };
  if (row !== NEW_ROW) {
    const name = at("photo-row").selectedOptions[0].textContent, said = `${bound(`${mm} mm`)} is in the job now, as ${name}.`;
    await showJob(await ask("PUT", "/form", { rows: { table: "measure", row: Number(row), fields } }));
    at("photo-length").textContent = said; at("photo-length").focus();
    return;
  }
  at("rows-measure").open = true;
  if (!at("measure-new-name")) at("add-measure").click();
  for (const [key, value] of Object.entries({ ...fields, kind: photoLength.of === "round limb" ? "width" : "length" })) {
    const input = at(`measure-new-${key}`);
    input.value = value; input.onchange();
  }
  at("measure-new-name").focus();
}

at("photo-file").onchange = () => quietly(takePhoto(at("photo-file").files[0]));
for (const name of ["dragover", "dragleave", "drop"]) at("photo-drop").addEventListener(name, event => { event.preventDefault(); at("photo-drop").classList.toggle("over", name === "dragover"); if (name === "drop") quietly(takePhoto(event.dataTransfer.files[0])); });
for (const id of ["photo-above", "photo-off", "photo-ruler", "photo-round", "photo-flat"]) at(id).oninput = measureLater;
at("photo-row").onchange = measureLater;
at("photo-asked").onsubmit = event => event.preventDefault();
at("photo-put").onclick = () => quietly(putLength());
at("photo-forget").onclick = () => { forgetPhoto(); at("photo-file").focus(); };
at("photo-keep").onclick = () => quietly(ask("PUT", "/kept-photo", photo.file).then(told => { at("photo-told").textContent = `Kept as ${told.kept}, without its place and day inside: it shows a person, so take it away once it is not needed.`; }));
