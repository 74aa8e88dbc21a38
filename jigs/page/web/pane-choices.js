// Other ways to build the same form, side by side; one of them can be taken.

import { make } from "./dom.js";
import { change, choose, stopChoosing, told } from "./store.js";

/** @typedef {import("./contract.js").Choices} Choices */
const COUNTS = { rings: [8, 48, 180, "Wedge rings"], segments: [6, 24, 96, "Segments in a ring"] };

export function choicesPane() {
  const by = make("select", { id: "by" });
  const ranges = Object.entries(COUNTS).map(([name, [low, high, most, label]]) => range(name, Number(low), Number(high), Number(most), String(label)));
  const boards = /** @type {HTMLInputElement} */ (make("input", { type: "text", id: "by-boards", autocomplete: "off" }));
  const boardsLabel = make("label", { for: "by-boards" });
  const layup = /** @type {HTMLSelectElement} */ (make("select", { id: "by-layup" }));
  const layupRow = make("p", { class: "row" }, make("label", { for: "by-layup" }, "Layup mirrored"), layup);
  const begin = make("button", { type: "button", click: () => void start() }, "Compare");
  const stop = make("button", { type: "button", click: () => void stopChoosing() }, "Stop");
  const bar = make("progress", { "aria-label": "Comparing" });
  const line = make("p", { role: "status" });
  const wrong = make("p", { class: "fault", role: "alert" });
  const list = make("div");
  const root = make("section", { "aria-label": "Choices" },
    make("p", { class: "row whole" }, make("label", { for: "by" }, "What matters most"), by), ...ranges.map((one) => one.root),
    make("p", { class: "row" }, boardsLabel, boards), layupRow,
    make("p", { class: "line" }, begin, bar, stop), line, wrong, list);
  let ways = "";
  let shown = "";

  async function start() {
    wrong.textContent = "";
    const own = ranges.filter((one) => !one.root.hidden).map((one) => [one.name, one.value()]);
    try {
      await choose({ by: /** @type {HTMLSelectElement} */ (by).value, ...Object.fromEntries(own), boards: boards.value,
        layups: layupRow.hidden ? "" : layup.value });
    } catch (error) {
      wrong.textContent = told(/** @type {any} */ (error));
    }
  }

  /** @param {import("./store.js").View} view */
  return ({ state, trying }) => {
    const { choices } = state;
    if (JSON.stringify(state.ways) !== ways) {
      ways = JSON.stringify(state.ways);
      const had = /** @type {HTMLSelectElement} */ (by).value || "time";
      by.replaceChildren(...state.ways.map((one) => make("option", { value: one.id, selected: one.id === had }, one.label)));
    }
    boardsLabel.textContent = state.kind === "vessel" ? "Boards, thickness as planed: rings are as high, flattened" : "Boards, thickness as planed";
    boards.placeholder = state.boards ? `in stock: ${state.boards}` : "as in the job";
    layupRow.hidden = !state.layups.length;
    if (layup.options.length !== state.layups.length + 2) {
      layup.replaceChildren(make("option", { value: "" }, "as in the job file"), make("option", { value: "any" }, "any way"),
        ...state.layups.map((one) => make("option", { value: one }, one)));
    }
    const working = choices.state === "working";
    for (const one of ranges) one.root.hidden = one.name === "rings" && state.kind !== "torus"; // a vessel's follow its boards
    begin.toggleAttribute("disabled", working || trying || !state.ways.length);
    bar.hidden = stop.hidden = !working;
    line.textContent = summary(choices);
    const key = JSON.stringify(choices);
    if (key !== shown) list.replaceChildren(...(choices.state === "refused" || choices.state === "failed" ? [faults(choices)]
      : choices.best.length ? [table(choices)] : []));
    shown = key;
    return [root];
  };
}

/** @param {string} name @param {number} low @param {number} high @param {number} most @param {string} label */
function range(name, low, high, most, label) {
  const fields = [low, high].map((value, k) => /** @type {HTMLInputElement} */ (make("input", { type: "number", min: 6, max: most,
    step: 2, value, inputmode: "numeric", "aria-label": `${label}, ${k ? "at most" : "at least"}` })));
  const root = make("p", { class: "row" }, make("span", {}, label), make("span", { class: "line" }, fields[0], "to", fields[1]));
  return { name, root, value: () => fields.map((one) => Number(one.value)) };
}

/** @param {Choices} now */
function summary(now) {
  switch (now.state) {
    case "working": return "Each is worked out whole, its jigs drawn. This takes a while …";
    case "stopped": return "Stopped.";
    case "refused": case "failed": return "Not compared.";
    case "done": return `${now.tried} ${now.best.length ? "These were worked out whole, their jigs drawn." : "None could be made."}`;
    default: return "The same form from other counts and boards: wood, cuts and time side by side.";
  }
}

/** @param {Choices} now */
function faults(now) {
  return make("ul", { class: "findings" }, ...now.findings.map((one) => make("li", { class: one.severity }, one.text)));
}

/** @param {Choices} now */
function table(now) {
  const columns = [...(now.own ? [now.own] : []), ...now.best.map((one) => one.cells)];
  const heads = [...(now.own ? [make("th", { scope: "col" }, "As it is")] : []), ...now.best.map((one, k) => make("th", { scope: "col" }, `Choice ${k + 1}`))];
  const rows = now.labels.map((label, k) => make("tr", {}, make("th", { scope: "row" }, label), ...columns.map((cells) => make("td", {}, cells[k]))));
  const takes = make("tr", {}, make("th", { scope: "row" }, "In the job file"), ...(now.own ? [make("td", {})] : []), ...now.best.map((one, k) => make("td", {},
    ...one.changes.map((line) => make("p", {}, make("code", {}, line.line))),
    make("button", { type: "button", "aria-label": `Take choice ${k + 1}`, click: () => take(one) }, "Take this one"))));
  return make("div", { class: "wide side", tabindex: 0, role: "region", "aria-label": "Choices side by side" }, make("table", {},
    make("thead", {}, make("tr", {}, make("td", {}), ...heads)), make("tbody", {}, takes, ...rows)));
}

/** @param {import("./contract.js").Choice} one */
function take(one) {
  void change(one.changes.map(({ key, value }) => ({ key, value }))).catch(() => {});
}
