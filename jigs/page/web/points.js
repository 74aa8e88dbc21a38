// A list of points as a table: a row for each, changed cell by cell, with rows added between and taken out.

import { make } from "./dom.js";
import { readLength, typedLength } from "./lengths.js";
import { current } from "./store.js";

const COLUMNS = { edges: ["Height", "Diameter", "Arc's radius"], stations: ["Height", "Diameter"], by_height: ["Height", "Wall"] };

/** @typedef {(number|string)[]} Row as the file has it */

/** @param {import("./contract.js").Field} field @param {(text: string) => Promise<void>} send
 * @returns {{root: HTMLElement, follow: (text: string) => void}} */
export function pointsTable(field, send) {
  const columns = COLUMNS[field.key.split(".").pop() ?? ""] ?? ["Height", "Size"];
  const body = make("tbody");
  const root = /** @type {HTMLElement} */ (make("table", { class: "points", id: `field-${field.key}` },
    make("caption", {}, field.label), make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "Point"),
      ...columns.map((one) => make("th", { scope: "col" }, one)), make("td"))), body));
  /** @type {Row[]} */
  let rows = [];

  /** @param {string} text */
  function follow(text) {
    const before = rows.length;
    rows = readRows(text);
    if (rows.length !== before) body.replaceChildren(...rows.map(made));
    else rows.forEach((row, k) => cells(k).forEach((input, at) => {
      const text = String(row[at] ?? "");
      if (input === document.activeElement || input.dataset.against === text) return; // typed, and not yet or not taken
      delete input.dataset.against;
      input.value = text;
    }));
  }

  /** @param {number} k @returns {HTMLInputElement[]} */
  const cells = (k) => [...body.children[k].querySelectorAll("input")];

  /** @param {Row} row @param {number} k */
  function made(row, k) {
    return make("tr", {}, make("th", { scope: "row" }, String(k + 1)), ...columns.map((name, at) => make("td", {}, make("input", {
      type: "text", inputmode: "decimal", autocomplete: "off", value: row[at] ?? "", "aria-label": `Point ${k + 1}: ${name.toLowerCase()}`,
      change: () => write(k, at) }))), make("td", {}, tool("+", `Add a point after point ${k + 1}`, () => add(k)),
      tool("−", `Take point ${k + 1} out`, () => keep(typed().filter((_, one) => one !== k)))));
  }

  /** @param {number} k @param {number} at */
  function write(k, at) {
    cells(k)[at].dataset.against = String(rows[k][at] ?? "");
    keep(typed());
  }

  /** All rows as the table shows them, with what the file has not yet. */
  const typed = () => rows.map((_, k) => {
    const texts = cells(k).map((input) => input.value.trim());
    while (texts.length > 2 && !texts[texts.length - 1]) texts.pop();
    return texts.map(value);
  });

  /** Half-way to the next, or as far again past the last. @param {number} k */
  function add(k) {
    const now = typed();
    const [here, next] = [now[k], now[k + 1]];
    const other = next ?? now[k - 1] ?? here;
    const share = next ? 0.5 : -0.5;
    const unit = current()?.state.unit ?? "mm";
    const between = [0, 1].map((at) => {
      const [a, b] = [here, other].map((row) => readLength(String(row[at]), unit));
      return a === null || b === null ? here[at] : value(typedLength(a + share * (b - a), unit));
    });
    keep([...now.slice(0, k + 1), between, ...now.slice(k + 1)]);
  }

  /** @param {Row[]} fresh */
  const keep = (fresh) => void send(JSON.stringify(fresh));

  return { root, follow };
}

/** @param {string} sign @param {string} label @param {() => void} click */
function tool(sign, label, click) {
  return make("button", { type: "button", class: "small", "aria-label": label, title: label, click }, sign);
}

/** A number where it is one, else text such as "2 3/4". @param {string} text */
function value(text) {
  const number = Number(text);
  return text && Number.isFinite(number) ? number : text;
}

/** @param {string} text @returns {Row[]} */
function readRows(text) {
  try {
    const rows = JSON.parse(text);
    return Array.isArray(rows) && rows.every(Array.isArray) ? rows : [];
  } catch {
    return [];
  }
}
