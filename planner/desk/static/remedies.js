"use strict";
// Remedies that were proved at the size that is shown: each finding that has one gets a button that writes it into the job.

let proved = { percent: null, found: [] };

/** Return the cell with what to do about a finding, and the button where that was proved. */
function todoCell(one) {
  const cell = make("td", bound(one.remedy || one.caution || ""));
  const remedy = proved.found.find(each => each.settles.some(it => it.rule === one.rule && it.part === one.part && it.feature === one.feature));
  if (!remedy || one.verdict === "go") return cell;
  const button = make("button", "Write into job", "cure");
  button.type = "button"; button.setAttribute("aria-label", `Write into job: ${remedy.text}, for ${one.part || "job"}, ${one.feature}`);
  button.onclick = () => quietly(choose(remedy, proved.percent));
  cell.append(button);
  return cell;
}

/** Write a remedy into the job, judge it again, and offer to take it back. */
async function choose(remedy, percent) {
  const before = at("words").value;
  for (const button of document.querySelectorAll("button.cure")) button.disabled = true;
  try {
    const told = await ask("PUT", "/remedy", { n: remedy.n, text: remedy.text, ...(percent === null ? {} : { percent }) });
    await showJob(told);
  } finally {
    for (const button of document.querySelectorAll("button.cure")) button.disabled = false;
  }
  const back = make("button", "Take it back");
  back.type = "button";
  back.onclick = () => quietly(ask("PUT", "/job", { text: before }).then(told => { at("chosen").replaceChildren(); return showJob(told); }).then(() => at("verdict").focus()));
  at("chosen").replaceChildren(`Written into the job: ${remedy.text}. `, back);
  back.focus();
}
