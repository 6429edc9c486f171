"use strict";
// The ways to what happened in a chapter and to its plan, where this folder has one.
const offer = (path, id, has) => fetch(path).then(answer => answer.json()).then(told => { document.getElementById(id).hidden = !has(told); }).catch(() => {});
offer("/ledger/there", "to-events", told => told.ledger);
offer("/planning/state", "to-planning", told => told.files.some(name => name !== "job.toml"));
