// The section: blank, core, allowance and finished form, what is too thin where it is, and handles to drag.

import { make, svg } from "./dom.js";
import { handles } from "./handles.js";
import { length } from "./lengths.js";
import { loopPath } from "./paths.js";
import { follow } from "./store.js";

const ROLES = ["blank", "finished", "core", "allowance"]; // the core is cut out of both
const MARGIN = 0.06;
const MARK = 8; // pixels

/** @param {Element} stage */
export function sectionView(stage) {
  const picture = /** @type {SVGSVGElement} */ (svg("svg", { role: "group", "aria-label": "Section through the form and its blank" }));
  const [lines, marks] = [svg("g"), svg("g")];
  const notes = make("ul", { class: "marks" });
  picture.append(lines, marks);
  stage.append(picture, notes);
  const grips = handles(stage, picture);
  let drawn = null;
  follow(({ state, fast, drawing }) => {
    picture.classList.toggle("stale", !fast.drawing);
    if (!drawing) return;
    const section = drawing.section;
    if (!grips.dragging()) frame(picture, section.loops, state.kind);
    if (drawn !== section) {
      outline(lines, section.loops);
      if (state.kind !== "torus") lines.prepend(axis(picture));
      caption(stage, state, drawing);
    }
    drawn = section;
    mark(marks, notes, fast.verdicts);
    grips.follow(section.handles, state.unit);
    size(picture);
  });
  new ResizeObserver(() => {
    size(picture);
    grips.place();
  }).observe(picture);
}

/** The lines; those that are there already are only moved. @param {Element} group @param {import("./contract.js").Loop[]} loops */
function outline(group, loops) {
  const wanted = ROLES.flatMap((role) => loops.filter((one) => one.role === role));
  const old = [...group.querySelectorAll(".loop")];
  const same = old.length === wanted.length && wanted.every((one, k) => old[k].getAttribute("data-loop") === one.id);
  const paths = same ? old : wanted.map((one) => svg("path", { class: `loop ${one.role}`, "data-loop": one.id }));
  wanted.forEach((one, k) => paths[k].setAttribute("d", loopPath(one.points)));
  if (!same) group.replaceChildren(...paths);
  else group.querySelector(".axis")?.remove();
}

/** @param {Element} group @param {Element} notes @param {import("./contract.js").Verdict[]} verdicts */
function mark(group, notes, verdicts) {
  const wrong = verdicts.filter((one) => !one.ok);
  group.replaceChildren(...wrong.filter((one) => one.at).map((one) =>
    svg("circle", { class: "wrong", cx: one.at[0], cy: -one.at[1], r: 1 }, svg("title", {}, one.label))));
  const texts = wrong.map((one) => `${one.label}: ${one.value_text}, ${one.sense} ${one.limit_text}`);
  if (notes.textContent !== texts.join("")) notes.replaceChildren(...texts.map((text) => make("li", {}, text)));
}

/** All lines in view; a vessel's axis too, but a torus's is far off.
 * @param {SVGSVGElement} picture @param {import("./contract.js").Loop[]} loops @param {string} kind */
function frame(picture, loops, kind) {
  const points = loops.flatMap((one) => one.points.flatMap(([x, y, bulge]) => (bulge ? [[x, y], [x, y + span(one)], [x, y - span(one)]] : [[x, y]])));
  const [xs, ys] = [points.map((at) => at[0]), points.map((at) => -at[1])];
  const [left, right, top, foot] = [Math.min(...(kind === "torus" ? xs : [0, ...xs])), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const edge = Math.max(right - left, foot - top) * MARGIN;
  const box = [left - edge, top - edge, right - left + 2 * edge, foot - top + 2 * edge].join(" ");
  if (picture.getAttribute("viewBox") !== box) picture.setAttribute("viewBox", box);
}

/** Of a circle, given by two points, how far it reaches above them; else nothing. @param {import("./contract.js").Loop} loop */
function span(loop) {
  return loop.points.length === 2 ? Math.abs(loop.points[0][0] - loop.points[1][0]) / 2 : 0;
}

/** @param {SVGSVGElement} picture */
function axis(picture) {
  const box = picture.viewBox.baseVal;
  return svg("line", { class: "axis", x1: 0, x2: 0, y1: box.y, y2: box.y + box.height });
}

/** @param {Element} stage @param {import("./contract.js").State} state @param {import("./contract.js").Drawing} drawing */
function caption(stage, state, drawing) {
  const words = stage.parentElement?.querySelector("figcaption");
  if (!words) return;
  const finished = drawing.section.loops.find((one) => one.role === "finished");
  const middle = finished && (finished.points[0][0] + finished.points[1][0]) / 2;
  const text = state.kind === "torus" && middle ? `Section: the axis is ${length(middle, state.unit)} to the left of the tube's middle` : "Section";
  if (words.textContent !== text) words.textContent = text;
}

/** Marks are as large on every screen. @param {SVGSVGElement} picture */
function size(picture) {
  const scale = picture.getScreenCTM()?.a ?? 1;
  picture.querySelectorAll(".wrong").forEach((one) => one.setAttribute("r", String(MARK / scale)));
}
