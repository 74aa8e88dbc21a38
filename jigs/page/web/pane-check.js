// Verdicts with their limits, what is wrong, and what would do.

import { make } from "./dom.js";
import { change } from "./store.js";

/** @typedef {import("./store.js").View} View */

/** What news do not change stays in place, so that nobody loses the button under the finger. */
export function checkPane() {
  /** @type {(Node|string)[]} */
  let shown = [];

  /** @param {View} view */
  return ({ fast, state, trying }) => {
    const slow = trying ? null : state.slow;
    const fresh = [verdictTable(fast.verdicts), ...findings(fast, slow), ...(slow && state.ways.length ? remedies(slow) : [])]; // of a text that cannot be read none is looked for
    const before = shown;
    return shown = fresh.map((one) => before.find((old) => one instanceof Node && old instanceof Node && old.isEqualNode(one)) ?? one);
  };
}

/** @param {import("./contract.js").Verdict[]} verdicts */
function verdictTable(verdicts) {
  if (!verdicts.length) return "";
  const kept = make("th", { scope: "col" }, make("span", { class: "unseen" }, "Kept"));
  const head = make("tr", {}, kept, ...["Size", "Now", "Limit"].map((text) => make("th", { scope: "col" }, text)));
  const rows = verdicts.map((one) => make("tr", { class: one.ok ? "right" : one.stops ? "wrong" : "note" },
    make("td", {}, one.ok ? "✓" : one.stops ? "✗" : "!", make("span", { class: "unseen" }, one.ok ? "within its limit" : one.stops ? "beyond its limit" : "beyond its limit; buy thicker boards")),
    make("th", { scope: "row" }, one.label), make("td", {}, whole(one.value_text)),
    make("td", {}, whole(`${one.sense} ${one.limit_text}`))));
  return make("table", { class: "verdicts" }, make("caption", {}, "Sizes and their limits"), make("thead", {}, head),
    make("tbody", {}, ...rows));
}

/** No line break within 6 3/64 in. @param {string} text */
const whole = (text) => text.replace(/(\d) (?=\d+\/\d|mm|in)/g, "$1\u00a0");

/** Each finding once, though both halves may have it.
 * @param {import("./contract.js").Fast} fast @param {import("./contract.js").Slow|null} slow */
function findings(fast, slow) {
  const all = new Map([...fast.findings, ...(slow?.findings ?? [])].map((one) => [one.text, one]));
  if (!all.size) return [];
  return [make("h2", {}, "What to look at"), make("ul", { class: "findings" }, ...[...all.values()].map((one) =>
    make("li", { class: one.severity }, one.key ? make("code", {}, one.key) : one.line ? `Line ${one.line}:` : "", one.key || one.line ? " " : "", one.text)))];
}

/** @param {import("./contract.js").Slow} slow */
function remedies(slow) {
  if (slow.state !== "refused") return [];
  if (!slow.remedies) return [make("p", { class: "quiet" }, "Looking for changes that would do …")];
  if (!slow.remedies.length) return [make("p", {}, "None of the changes tried would do. Begin nearer to an example.")];
  return [make("h2", {}, "What would do (each tried)"), ...slow.remedies.map(remedy)];
}

/** @param {import("./contract.js").Remedy} one */
function remedy(one) {
  const changes = one.changes.map(({ key, value }) => ({ key, value }));
  const button = make("button", { type: "button", click: () => change(changes).catch(() => {}) }, "Apply");
  const only = one.measured ? make("p", {}, "Only if your machine really has this size.") : "";
  return make("div", { class: "remedy" }, ...one.changes.map((line) => make("code", {}, line.line)), only, button);
}
