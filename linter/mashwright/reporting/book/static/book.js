"use strict";
(() => {
  const table = document.querySelector("table.index");
  if (!table) return;
  const body = table.tBodies[0], rows = [...body.rows], words = new Intl.Collator("en", {numeric: true});
  const heads = [...table.tHead.rows[0].cells];
  const value = (row, at) => row.cells[at].dataset.sort ?? row.cells[at].textContent.trim();
  const sort = (at, down) => {
    const by = (a, b) => {
      const x = value(a, at), y = value(b, at);
      if (x === "" || y === "") return x === y ? 0 : x === "" ? 1 : -1;
      const order = heads[at].dataset.kind === "number" ? Number(x) - Number(y) : words.compare(x, y);
      return down ? -order : order;
    };
    for (const row of [...rows].sort(by)) body.append(row);
    heads.forEach((one, n) => n === at ? one.setAttribute("aria-sort", down ? "descending" : "ascending") : one.removeAttribute("aria-sort"));
  };
  heads.forEach((head, at) => {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...head.childNodes);
    head.append(button);
    button.addEventListener("click", () => sort(at, head.getAttribute("aria-sort") === "ascending"));
  });
  const filters = document.querySelector(".filters"), told = document.querySelector("#told");
  if (!filters) return;
  const input = filters.querySelector("input"), state = filters.querySelector("select");
  const filter = () => {
    const wanted = input.value.toLocaleLowerCase("en").split(/\s+/).filter(Boolean);
    let shown = 0;
    for (const row of rows) {
      const text = row.textContent.toLocaleLowerCase("en");
      row.hidden = !(wanted.every((one) => text.includes(one)) && (state.value === "" || row.dataset.state === state.value));
      if (!row.hidden) shown += 1;
    }
    told.textContent = shown === rows.length ? "" : `${shown} of ${rows.length} shown`;
  };
  input.addEventListener("input", filter);
  state.addEventListener("change", filter);
  filters.hidden = false;
})();
