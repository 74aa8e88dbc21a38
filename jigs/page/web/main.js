// What belongs where: pictures on one side, the job's values, verdicts and work on the other.

import { make } from "./dom.js";
import { boardsPane } from "./pane-boards.js";
import { checkPane } from "./pane-check.js";
import { choicesPane } from "./pane-choices.js";
import { fieldsPane } from "./pane-fields.js";
import { jigsPane } from "./pane-jigs.js";
import { makePane } from "./pane-make.js";
import { mistakesPane } from "./pane-mistakes.js";
import { stepsPane } from "./pane-steps.js";
import { textPane } from "./pane-text.js";
import { woodsPane } from "./pane-woods.js";
import { calm, draw, follow, listen, step, subscribe } from "./store.js";
import { formView } from "./view-form.js";
import { patternView } from "./view-pattern.js";
import { sectionView } from "./view-section.js";

/** @typedef {import("./store.js").View} View */

/** In the order in which a turner comes to them. @type {[string, string, ((view: View) => (Node|string)[])[]][]} */
const PANES = [
  ["shape", "Shape", [fieldsPane("shape")]],
  ["check", "Check", [checkPane(), mistakesPane()]],
  ["wood", "Wood", [woodsPane(), fieldsPane("wood"), boardsPane]],
  ["shop", "Shop", [fieldsPane("shop")]],
  ["choices", "Choices", [choicesPane()]],
  ["jigs", "Jigs", [makePane(), jigsPane(), fieldsPane("jigs")]],
  ["work", "Work", [stepsPane()]],
  ["text", "Job file", [textPane()]],
];

/** @param {string} id */
const byId = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

let open = "shape";
/** @type {View|null} */
let last = null;

function tabs() {
  const made = PANES.map(([id, label]) => make("button", { type: "button", role: "tab", id: `tab-${id}`,
    "aria-controls": "pane", click: () => choose(id), keydown: (/** @type {KeyboardEvent} */ event) => along(event, id) }, label));
  byId("tabs").replaceChildren(...made);
  choose(open);
}

/** @param {string} id */
function choose(id) {
  if (open !== id) byId("pane").scrollTop = 0;
  open = id;
  document.body.dataset.pane = id;
  for (const [other] of PANES) {
    byId(`tab-${other}`).setAttribute("aria-selected", String(other === id));
    byId(`tab-${other}`).tabIndex = other === id ? 0 : -1;
  }
  byId("pane").setAttribute("aria-labelledby", `tab-${id}`);
  if (last) fill(last);
}

/** @param {KeyboardEvent} event @param {string} id */
function along(event, id) {
  const way = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
  if (!way) return;
  const at = PANES.findIndex(([one]) => one === id);
  const [next] = PANES[(at + way + PANES.length) % PANES.length];
  choose(next);
  byId(`tab-${next}`).focus();
}

/** @param {View} view */
function fill(view) {
  const [, , parts] = PANES.find(([id]) => id === open) ?? PANES[0];
  const wanted = parts.flatMap((part) => part(view)).filter((one) => one !== "");
  const pane = byId("pane");
  const held = pane.contains(document.activeElement);
  for (const one of [...pane.childNodes]) if (!wanted.includes(one)) one.remove();
  wanted.forEach((one, k) => { if (pane.childNodes[k] !== one) pane.insertBefore(/** @type {Node} */ (one), pane.childNodes[k] ?? null); }); // what stays is not moved: someone may be typing there
  if (held && !pane.contains(document.activeElement)) pane.focus({ preventScroll: true }); // a button is gone: keys go on from here
}

/** @param {View} view */
function head({ state, fast, trying, problem }) {
  byId("title").textContent = state.title;
  document.title = `${state.title} – turning job`;
  const [undo, redo] = [byId("undo"), byId("redo")];
  undo.toggleAttribute("disabled", !state.can_undo);
  redo.toggleAttribute("disabled", !state.can_redo);
  const wrong = fast.findings.some((one) => one.severity === "refused") || fast.verdicts.some((one) => !one.ok && one.stops);
  const refused = !fast.drawing || wrong || (!trying && state.slow.state === "refused");
  const line = !fast.drawing ? "Cannot be drawn: see Check. Faded pictures are of the job before" : refused ? "Cannot be made yet: see Check" : trying ? "Let go to keep this" :
    { working: "Checking …", done: "Can be made", failed: "Could not be checked" }[state.slow.state] ?? "";
  byId("verdict").textContent = line;
  byId("verdict").className = refused ? "wrong" : state.slow.state === "done" && !trying ? "right" : "";
  const news = byId("news");
  news.hidden = !(problem || state.news);
  news.className = problem ? "problem" : "";
  const back = state.disk === "gone" ? make("button", { type: "button", click: () => step("put-back") }, "Put the file back") : "";
  news.replaceChildren(problem || state.news, back);
}

function pictures() {
  formView(/** @type {Element} */ (document.querySelector("#form .stage")));
  sectionView(/** @type {Element} */ (document.querySelector("#section .stage")));
  patternView(/** @type {Element} */ (document.querySelector("#pattern .stage")));
  const shows = new ResizeObserver(() => { if (last) draw(); }); // a picture that does not show waits until it does
  for (const stage of document.querySelectorAll(".stage")) shows.observe(stage);
  const buttons = [...document.querySelectorAll("#choose button")];
  for (const button of buttons) {
    button.addEventListener("click", () => {
      byId("pictures").dataset.view = /** @type {HTMLElement} */ (button).dataset.view;
      buttons.forEach((one) => one.setAttribute("aria-pressed", String(one === button)));
    });
  }
}

document.addEventListener("no-page", (event) => {
  byId("news").hidden = false;
  byId("news").className = "problem";
  byId("news").textContent = /** @type {CustomEvent} */ (event).detail;
});
document.addEventListener("keydown", (event) => {
  const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
  if (typing || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
  event.preventDefault();
  void step(event.shiftKey ? "redo" : "undo");
});
document.addEventListener("input", () => setTimeout(calm)); // once what is chosen has been taken
byId("undo").addEventListener("click", () => void step("undo"));
byId("redo").addEventListener("click", () => void step("redo"));
tabs();
pictures();
subscribe((view) => {
  last = view;
  head(view);
  fill(view);
});
follow(({ mistaken }) => { byId("mistaken").hidden = !mistaken; });
void listen();
