"use strict";
// The way to what happened in a chapter, where this folder's chapter has a ledger.
fetch("/ledger/there").then(answer => answer.json()).then(told => { document.getElementById("to-events").hidden = !told.ledger; }).catch(() => {});
