/**
 * The page's script: conveniences alone. A button turns the theme (stored nowhere), and the map becomes one stop of the Tab key within which
 * the arrow keys move. Plain text, because the page carries it as it stands.
 */
export const script = `(() => {
  const root = document.documentElement;
  const button = document.getElementById("theme");
  const isDark = () => (root.dataset.theme ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light")) === "dark";
  const say = () => { button.textContent = isDark() ? "Light" : "Dark"; };
  button.hidden = false;
  button.addEventListener("click", () => { root.dataset.theme = isDark() ? "light" : "dark"; say(); });
  say();
  for (const map of document.querySelectorAll(".map svg")) {
    const rows = [...map.querySelectorAll(".row")].map((row) => [...row.querySelectorAll("a")]).filter((row) => row.length > 0);
    const rest = (cell) => { for (const one of rows.flat()) one.setAttribute("tabindex", one === cell ? "0" : "-1"); };
    if (rows.length > 0) rest(rows[0][0]);
    map.addEventListener("focusin", (event) => { const cell = event.target.closest("a"); if (cell) rest(cell); });
    map.addEventListener("keydown", (event) => {
      const cell = event.target.closest("a");
      const r = rows.findIndex((row) => row.includes(cell));
      if (r < 0) return;
      const c = rows[r].indexOf(cell);
      const near = (row) => row && (row.find((one) => one.dataset.check === cell.dataset.check) ?? row[Math.min(c, row.length - 1)]);
      const to = { ArrowRight: rows[r][c + 1], ArrowLeft: rows[r][c - 1], ArrowDown: near(rows[r + 1]), ArrowUp: near(rows[r - 1]), Home: rows[r][0], End: rows[r].at(-1) }[event.key];
      if (!to) return;
      event.preventDefault();
      to.focus();
    });
  }
})();`;
