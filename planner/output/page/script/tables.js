// Tables on a narrow screen: each cell carries its column's name, so that rows can stand as blocks.

/** Give the cells of a table the names of their columns. */
function columnsNamed(table) {
  const heads = [...table.querySelectorAll("thead th")].map((head) => head.textContent);
  for (const row of table.tBodies[0]?.rows ?? []) {
    [...row.cells].forEach((cell, k) => { if (cell.colSpan === 1 && k > 0) cell.dataset.head = heads[k] ?? ""; });
  }
}

for (const table of document.querySelectorAll(".wide table")) {
  columnsNamed(table);
  table.classList.add("stack");
  if (table.tBodies[0]) new MutationObserver(() => columnsNamed(table)).observe(table.tBodies[0], { childList: true });
}
