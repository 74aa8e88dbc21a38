// The section: blank, core, allowance and finished form, what is too thin where it is, and handles to drag.

import { make, svg } from "./dom.js";
import { handles } from "./handles.js";
import { length } from "./lengths.js";
import { outlines } from "./outlines.js";
import { follow } from "./store.js";

const MARGIN = 0.06;
const MARK = 8; // pixels

/** @param {Element} stage */
export function sectionView(stage) {
  const picture = /** @type {SVGSVGElement} */ (svg("svg", { role: "group", "aria-label": "Section through the form and its blank" }));
  const [lines, marks, axis] = [svg("g"), svg("g"), svg("line", { class: "axis", x1: 0, x2: 0 })];
  const form = svg("g"); // all that is of the form: of a lid turned over
  const notes = make("ul", { class: "marks" });
  const without = make("details", { class: "without", hidden: true }, make("summary", {}, "Without handles"), make("ul"));
  form.append(lines, marks);
  picture.append(axis, form);
  stage.append(picture, notes, without);
  const grips = handles(stage, form);
  const outline = outlines(picture, lines);
  let [drawn, judged, moving] = [null, null, false];
  follow(({ state, fast, drawing, trying }) => {
    stage.classList.toggle("stale", !fast.drawing);
    if (!drawing) return notes.replaceChildren();
    const section = drawing.section;
    form.setAttribute("transform", drawing.form.over ? "scale(1 -1)" : "");
    if (!grips.dragging()) frame(picture, axis, section.loops, state.kind, drawing.form.over);
    if (drawn !== section || moving !== trying) {
      outline(section.loops, trying);
      caption(stage, state, drawing);
      explain(without, section.without);
    }
    if (judged !== fast.verdicts) {
      mark(marks, notes, fast.verdicts);
      size(picture);
    }
    [drawn, judged, moving] = [section, fast.verdicts, trying];
    grips.follow(section.handles, state.unit);
  });
  new ResizeObserver(() => {
    size(picture);
    grips.measure();
  }).observe(picture);
}

/** @param {Element} group @param {Element} notes @param {import("./contract.js").Verdict[]} verdicts */
function mark(group, notes, verdicts) {
  const wrong = verdicts.filter((one) => !one.ok);
  group.replaceChildren(...wrong.filter((one) => one.at).map((one) =>
    svg("circle", { class: "wrong", cx: one.at[0], cy: -one.at[1], r: 1 }, svg("title", {}, one.label))));
  const texts = wrong.map((one) => `${one.label}: ${one.value_text}, ${one.sense} ${one.limit_text}`);
  if (notes.textContent !== texts.join("")) notes.replaceChildren(...texts.map((text) => make("li", {}, text)));
}

/** Why some things cannot be dragged. @param {HTMLElement} box @param {string[]} reasons */
function explain(box, reasons) {
  const list = /** @type {Element} */ (box.lastElementChild);
  box.hidden = !reasons.length;
  if (list.textContent !== reasons.join("")) list.replaceChildren(...reasons.map((text) => make("li", {}, text)));
}

/** All lines in view; a vessel's axis too, but a torus's is far off.
 * @param {SVGSVGElement} picture @param {Element} axis @param {import("./contract.js").Loop[]} loops @param {string} kind
 * @param {boolean} over */
function frame(picture, axis, loops, kind, over) {
  const points = loops.flatMap((one) => one.points.flatMap(([x, y, bulge]) => (bulge ? [[x, y], [x, y + span(one)], [x, y - span(one)]] : [[x, y]])));
  const [xs, ys] = [points.map((at) => at[0]), points.map((at) => (over ? at[1] : -at[1]))];
  const [left, right, top, foot] = [Math.min(...(kind === "torus" ? xs : [0, ...xs])), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const edge = Math.max(right - left, foot - top) * MARGIN;
  const box = [left - edge, top - edge, right - left + 2 * edge, foot - top + 2 * edge].join(" ");
  if (picture.getAttribute("viewBox") === box) return;
  picture.setAttribute("viewBox", box);
  axis.toggleAttribute("hidden", kind === "torus");
  axis.setAttribute("y1", String(top - edge));
  axis.setAttribute("y2", String(foot + edge));
}

/** Of a circle, given by two points, how far it reaches above them; else nothing. @param {import("./contract.js").Loop} loop */
function span(loop) {
  return loop.points.length === 2 ? Math.abs(loop.points[0][0] - loop.points[1][0]) / 2 : 0;
}

/** @param {Element} stage @param {import("./contract.js").State} state @param {import("./contract.js").Drawing} drawing */
function caption(stage, state, drawing) {
  const words = stage.parentElement?.querySelector("figcaption");
  if (!words) return;
  const finished = drawing.section.loops.find((one) => one.role === "finished");
  const out = (finished?.points ?? []).map((point) => point[0]);
  const middle = out.length && (Math.min(...out) + Math.max(...out)) / 2;
  const text = state.kind === "torus" && middle ? `Section: the axis is ${length(middle, state.unit)} to the left of the tube's middle` : "Section";
  if (words.textContent !== text) words.textContent = text;
}

/** Marks are as large on every screen. @param {SVGSVGElement} picture */
function size(picture) {
  const scale = picture.getScreenCTM()?.a ?? 1;
  picture.querySelectorAll(".wrong").forEach((one) => one.setAttribute("r", String(MARK / scale)));
}
