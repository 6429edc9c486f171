"use strict";
// Two pages, or a page and an editor, on one job: who comes second sees both texts and keeps one of them.

const at = id => document.getElementById(id);
const make = (tag, words, name) => { const it = document.createElement(tag); if (words !== undefined) it.textContent = words; if (name) it.className = name; return it; };
const quietly = promise => promise.catch(() => {});
const UNIT = /(?<=\d) (?=(?:[mc]m[²³]?(?:\/s)?|k?g|N(?:·mm)?|[kM]Pa|s|min|h|°C|°|%|EUR)(?![\w²³·\/])|×)|(?<=×) (?=\d)/g;
/** Return words in which no line ends between a number and its unit (SI Brochure, 9th edition, 5.4.3). */
const bound = words => String(words).replace(UNIT, "\u00a0");
let version = "", turns = Promise.resolve();
const WRITES = new Set(["/form", "/job", "/answers", "/remedy", "/guess"]);

/** Send what writes the job one after the other: each is made from what the one before it left. */
function inTurn(path, send) {
  if (!WRITES.has(path)) return send();
  turns = turns.catch(() => {}).then(send);
  return turns;
}

/** Show both texts; nothing is written until one of them is chosen. */
function showBoth(told) {
  at("yours").value = told.yours; at("theirs").value = told.job;
  at("both").hidden = false;
  const done = () => { at("both").hidden = true; at("verdict").focus(); };
  at("keep-theirs").onclick = () => { version = told.version; quietly(showJob(told).then(done)); };
  at("keep-yours").onclick = () => { version = told.version; quietly(ask("PUT", "/job", { text: at("yours").value }).then(showJob).then(done)); };
  at("h-both").focus();
}
