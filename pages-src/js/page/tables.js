// A stacked table on a phone is no longer laid out as one: each cell says its column, and roles keep it a table for a screen reader.

const ROLES = { TABLE: "table", THEAD: "rowgroup", TBODY: "rowgroup", TR: "row", TD: "cell" };

export function dressTables(within = document) {
  for (const table of within.querySelectorAll("table.stacked")) {
    const heads = Array.from(table.tHead?.rows[0]?.cells ?? [], (cell) => cell.textContent.trim());
    for (const part of [table, ...table.querySelectorAll("thead, tbody, tr, td, th")]) {
      const role = part.tagName === "TH" ? (part.closest("thead") ? "columnheader" : "rowheader") : ROLES[part.tagName];
      if (!part.hasAttribute("role")) part.setAttribute("role", role);
    }
    for (const row of table.tBodies[0]?.rows ?? []) {
      for (const cell of row.cells) if (cell.tagName === "TD") cell.dataset.label ??= heads[cell.cellIndex] ?? "";
    }
  }
}
