"use strict";
(() => {
  const table = document.querySelector("table");
  const rows = [...table.tBodies];
  const form = document.querySelector(".filters");
  const dialog = document.querySelector("dialog");
  const urls = new Map();

  // A packed drawing becomes an image only when it is looked at; as an image, nothing in it can run.
  async function picture(number) {
    if (!urls.has(number)) {
      const packed = atob(document.getElementById("svg-" + number).textContent);
      const bytes = Uint8Array.from(packed, (c) => c.charCodeAt(0));
      const open = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
      const svg = await new Response(open).blob();
      urls.set(number, URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" })));
    }
    return urls.get(number);
  }

  const seen = new IntersectionObserver((entries) => {
    for (const entry of entries) {
      if (!entry.isIntersecting) continue;
      seen.unobserve(entry.target);
      load(entry.target);
    }
  }, { rootMargin: "300px" });
  const load = (button) => picture(button.dataset.svg).then((url) => { button.firstElementChild.src = url; });
  // A print holds what was never scrolled to as well, so the rest is unpacked when there is nothing else to do.
  const waiting = [...document.querySelectorAll("[data-svg]")];
  const idle = window.requestIdleCallback || ((then) => setTimeout(then, 50));
  const rest = () => { if (waiting.length) load(waiting.shift()).then(() => idle(rest)); };
  window.addEventListener("load", () => idle(rest));
  document.querySelectorAll("[data-svg]").forEach((button) => {
    seen.observe(button);
    button.addEventListener("click", () => show(button.closest("tbody")));
  });

  function shownRows() { return [...table.tBodies].filter((row) => !row.hidden); }

  async function show(row) {
    const button = row.querySelector("[data-svg]");
    if (!button) return;
    dialog.row = row;
    dialog.querySelector("strong").textContent = row.querySelector(".title").textContent;
    dialog.querySelector(".sheet-of-paper img").src = await picture(button.dataset.svg);
    if (!dialog.open) dialog.showModal();
  }

  function step(by) {
    const open = shownRows().filter((row) => row.querySelector("[data-svg]"));
    const next = open[open.indexOf(dialog.row) + by];
    if (next) show(next);
  }
  dialog.querySelector(".close").addEventListener("click", () => dialog.close());
  dialog.querySelector(".earlier").addEventListener("click", () => step(-1));
  dialog.querySelector(".later").addEventListener("click", () => step(1));
  dialog.querySelector(".size").addEventListener("click", (event) => {
    const large = dialog.querySelector(".sheet-of-paper").classList.toggle("true");
    event.target.textContent = large ? "Fit the window" : "True size";
  });
  dialog.addEventListener("keydown", (event) => {
    if (event.key === "ArrowLeft") step(-1);
    if (event.key === "ArrowRight") step(1);
  });
  dialog.addEventListener("close", () => { const b = dialog.row.querySelector("[data-svg]"); if (b) b.focus(); });

  function fits(row) {
    const want = new FormData(form);
    if (want.get("verdict") && row.dataset.verdict !== want.get("verdict")) return false;
    if (!row.dataset.name.toLowerCase().includes(want.get("name").trim().toLowerCase())) return false;
    const rule = want.get("rule"), kind = want.get("kind");
    if (!rule && !kind) return true;
    return [...row.querySelectorAll("td.cell")].some(
      (cell) => (!rule || cell.dataset.rule === rule) && (!kind || cell.dataset.kind === kind));
  }

  const weight = { unreadable: 0, fail: 1, review: 2, pass: 3 };
  const orders = {
    number: (a, b) => a.dataset.number - b.dataset.number,
    name: (a, b) => a.dataset.name.localeCompare(b.dataset.name),
    fails: (a, b) => b.dataset.fails - a.dataset.fails || orders.number(a, b),
    verdict: (a, b) => weight[a.dataset.verdict] - weight[b.dataset.verdict] || orders.number(a, b),
  };

  function refresh() {
    rows.sort(orders[form.elements.order.value]).forEach((row) => { row.hidden = !fits(row); table.append(row); });
    const count = shownRows().length;
    form.querySelector(".shown").textContent = count + " of " + rows.length + " shown";
    document.querySelector(".nothing").hidden = count > 0;
    const first = table.querySelector("tbody:not([hidden]) td.cell");
    table.querySelectorAll('td.cell[tabindex="0"]').forEach((cell) => { cell.tabIndex = -1; });
    if (first) first.tabIndex = 0;
  }
  form.addEventListener("input", refresh);
  form.addEventListener("submit", (event) => event.preventDefault());

  const moves = { ArrowLeft: [0, -1], ArrowRight: [0, 1], ArrowUp: [-1, 0], ArrowDown: [1, 0] };
  table.addEventListener("keydown", (event) => {
    const cell = event.target.closest("td.cell");
    if (!cell) return;
    if (event.key === "Enter") { show(cell.closest("tbody")); return; }
    if (event.key === "Escape") { cell.blur(); return; }
    const move = moves[event.key];
    if (!move) return;
    event.preventDefault();
    const all = shownRows();
    const row = all[all.indexOf(cell.closest("tbody")) + move[0]];
    const next = row && row.rows[0].cells[cell.cellIndex + move[1]];
    if (next && next.matches("td.cell")) { cell.tabIndex = -1; next.tabIndex = 0; next.focus(); }
  });
  refresh();
})();
