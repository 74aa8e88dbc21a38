// Boards, as the slow half brings them.

import { make } from "./dom.js";

/** @param {import("./store.js").View} view */
export function boardsPane({ state }) {
  const { tables } = state.slow;
  return tables.length ? tables.map((one) => table(one.title, one.columns, one.rows)) : [waits(state.slow)];
}

/** @param {import("./contract.js").Slow} slow */
function waits(slow) {
  const text = slow.state === "working" ? "Working out the boards …" : "No boards yet: see Check for what is wrong.";
  return make("p", { class: "quiet" }, text);
}

/** @param {string} title @param {string[]} columns @param {string[][]} rows */
function table(title, columns, rows) {
  return make("div", { class: "wide", tabindex: 0, role: "region", "aria-label": title }, make("table", {},
    make("caption", {}, title), make("thead", {}, make("tr", {}, ...columns.map((one) => make("th", { scope: "col" }, one)))),
    make("tbody", {}, ...rows.map((row) => make("tr", {}, ...row.map((cell) => make("td", {}, cell)))))));
}
