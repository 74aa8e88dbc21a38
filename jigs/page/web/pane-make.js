// Making the set of files, with how far it is, and what that makes of the jigs in the rack.

import { make } from "./dom.js";
import { makeSet, stopMaking, withoutSleds } from "./store.js";

/** @typedef {import("./contract.js").Make} Make */

const HELP = "Left out: sleds, boards, clamping blocks and the like. Made: gauges, sizes, reference wedges, what holds the work "
  + "on the lathe, and a book that says how to use your own sleds. Work and the jigs below follow.";
const SOLIDS = "Every part, sled and mounting as a STEP file, for a CAD program.";
const NO_SOLIDS = "This needs CadQuery, which is not installed here.";

/** Its parts stay in place while a make goes on, so that nobody loses the button under the finger. */
export function makePane() {
  const own = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", id: "own-sleds", "aria-describedby": "own-sleds-help",
    change: () => void withoutSleds(own.checked) }));
  const solids = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", id: "solids", "aria-describedby": "solids-help" }));
  const solidsHelp = make("p", { class: "help", id: "solids-help" });
  const begin = make("button", { type: "button", click: () => void makeSet(solids.checked) }, "Make all files");
  const stop = make("button", { type: "button", click: () => void stopMaking() }, "Stop");
  const bar = /** @type {HTMLProgressElement} */ (make("progress", { "aria-label": "How much is made" }));
  const line = make("p", { role: "status" });
  const told = make("div");
  const root = make("section", { class: "make", "aria-label": "Making the files" },
    make("label", { for: "own-sleds" }, own, " Leave out sleds and boards: I use my own"), make("p", { class: "help", id: "own-sleds-help" }, HELP),
    make("label", { for: "solids" }, solids, " Make solids too (STEP)"), solidsHelp,
    make("div", { class: "line" }, begin, bar, stop), line, told);
  let shown = "";

  /** @param {import("./store.js").View} view */
  return ({ state, trying }) => {
    const { make: now, slow } = state;
    const working = now.state === "working";
    own.disabled = working;
    own.checked = state.lean;
    solids.disabled = working || !state.solids;
    solidsHelp.textContent = state.solids ? SOLIDS : NO_SOLIDS;
    begin.toggleAttribute("disabled", working || trying || slow.state !== "done");
    bar.hidden = stop.hidden = !working;
    if (now.of) [bar.max, bar.value] = [now.of, now.done];
    else bar.removeAttribute("value");
    line.textContent = summary(now);
    line.className = ["refused", "failed"].includes(now.state) ? "wrong" : "";
    const key = working ? "" : JSON.stringify([now.lists, now.findings]);
    if (key !== shown) told.replaceChildren(...(working ? [] : details(now)));
    shown = key;
    return [root];
  };
}

/** @param {Make} now */
function summary(now) {
  const again = now.stale ? " The job has changed since: make again before you use them." : "";
  switch (now.state) {
    case "working": return `Making: ${now.what || "working out the job"} …`;
    case "made": return `${now.files} files, each measured back, are in ${now.folder}. ${now.first}${again}`;
    case "stopped": return "Stopped. The earlier files are as they were.";
    case "refused": case "failed": return "Not made. The earlier files are as they were.";
    default: return "Gauges to print, wedges and sleds to cut, the shop book.";
  }
}

/** @param {Make} now */
function details(now) {
  const findings = now.findings.length ? [make("ul", { class: "findings" }, ...now.findings.map((one) =>
    make("li", { class: one.severity }, one.text)))] : [];
  return [...findings, ...now.lists.map(list)];
}

/** @param {import("./contract.js").Listed} one */
function list({ head, lines }) {
  const title = head[0].toUpperCase() + head.slice(1);
  if (!lines.length) return make("p", {}, title);
  return make("details", { open: lines.length <= 12 }, make("summary", {}, lines.length > 12 ? `${title} (${lines.length})` : title),
    make("ul", {}, ...lines.map((text) => make("li", {}, text))));
}
