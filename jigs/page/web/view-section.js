// The section: blank, core, allowance and finished form, what is too thin where it is, and handles to drag.

import { length, svg } from "./dom.js";
import { loopPath } from "./paths.js";
import { change, dropTrial, subscribe, tryOut } from "./store.js";

/** @typedef {import("./contract.js").Handle} Handle */

const ROLES = ["blank", "finished", "core", "allowance"]; // the core is cut out of both
const MARGIN = 0.06;
const STEP = 1; // mm, by an arrow key
const HOLD = 14; // pixels, radius of what can be gripped

/** @type {SVGSVGElement} */
let picture;
/** @type {{handle: Handle, from: DOMPoint, value: number}|null} */
let drag = null;
/** @type {string} what a handle that has the keyboard is called */
let focused = "";
let unit = "mm";

/** @param {Element} stage */
export function sectionView(stage) {
  picture = /** @type {SVGSVGElement} */ (svg("svg", { role: "group", "aria-label": "Section through the form and its blank" }));
  stage.append(picture);
  subscribe(({ state, fast }) => {
    unit = state.unit;
    picture.classList.toggle("stale", !fast.drawing);
    if (fast.drawing) draw(fast.drawing.section, fast.verdicts);
  });
  new ResizeObserver(() => sizeHandles()).observe(picture);
}

/** @param {import("./contract.js").SectionView} section @param {import("./contract.js").Verdict[]} verdicts */
function draw(section, verdicts) {
  if (!drag) frame(section.loops);
  const loops = ROLES.flatMap((role) => section.loops.filter((one) => one.role === role));
  const lines = loops.map((one) => svg("path", { class: `loop ${one.role}`, d: loopPath(one.points) }));
  const wrong = verdicts.filter((one) => !one.ok && one.at).map((one) =>
    svg("circle", { class: "wrong", cx: one.at[0], cy: -one.at[1], r: 1 }, svg("title", {}, one.label)));
  if (drag) {
    // The element that is being dragged stays, or the browser would let go of it.
    picture.querySelectorAll(".loop, .wrong, .axis").forEach((old) => old.remove());
    picture.prepend(axis(), ...lines, ...wrong);
    for (const handle of section.handles) place(handle);
  } else {
    picture.replaceChildren(axis(), ...lines, ...wrong, ...section.handles.map(handleOf));
    if (focused) picture.querySelector(`[data-id="${focused}"]`)?.focus({ preventScroll: true });
  }
  sizeHandles();
}

/** @param {import("./contract.js").Loop[]} loops */
function frame(loops) {
  const points = loops.flatMap((one) => one.points.flatMap(([x, y, bulge]) => (bulge ? [[x, y], [x, y + span(one)], [x, y - span(one)]] : [[x, y]])));
  const [xs, ys] = [points.map((at) => at[0]), points.map((at) => -at[1])];
  const [left, right, top, foot] = [Math.min(0, ...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const edge = Math.max(right - left, foot - top) * MARGIN;
  picture.setAttribute("viewBox", [left - edge, top - edge, right - left + 2 * edge, foot - top + 2 * edge].join(" "));
}

/** Of a circle, given by two points, how far it reaches above them; else nothing. @param {import("./contract.js").Loop} loop */
function span(loop) {
  return loop.points.length === 2 ? Math.abs(loop.points[0][0] - loop.points[1][0]) / 2 : 0;
}

function axis() {
  const box = picture.viewBox.baseVal;
  return svg("line", { class: "axis", x1: 0, x2: 0, y1: box.y, y2: box.y + box.height });
}

/** @param {Handle} handle */
function handleOf(handle) {
  const element = svg("circle", {
    class: "handle", "data-id": handle.id, tabindex: 0, role: "slider", "aria-label": handle.label,
    pointerdown: (/** @type {PointerEvent} */ event) => grip(event, handle, element),
    pointermove: move, pointerup: release, pointercancel: letGo,
    keydown: (/** @type {KeyboardEvent} */ event) => key(event, handle),
    focus: () => { focused = handle.id; }, blur: () => { if (element.isConnected) focused = ""; },
  });
  setPlace(element, handle);
  return element;
}

/** @param {Handle} handle */
function place(handle) {
  const element = picture.querySelector(`[data-id="${handle.id}"]`);
  if (element) setPlace(element, handle);
}

/** @param {Element} element @param {Handle} handle */
function setPlace(element, handle) {
  element.setAttribute("cx", String(handle.x));
  element.setAttribute("cy", String(-handle.y));
  element.setAttribute("aria-valuenow", handle.value.toFixed(2));
  element.setAttribute("aria-valuetext", length(handle.value, unit));
}

/** Handles and marks are as large on every screen. */
function sizeHandles() {
  const scale = picture.getScreenCTM()?.a ?? 1;
  for (const [what, pixels] of [[".handle", HOLD], [".wrong", HOLD / 2]]) {
    picture.querySelectorAll(String(what)).forEach((one) => one.setAttribute("r", String(Number(pixels) / scale / 1.6)));
  }
}

/** @param {PointerEvent} event */
function spotOf(event) {
  return new DOMPoint(event.clientX, event.clientY).matrixTransform(picture.getScreenCTM()?.inverse());
}

/** @param {PointerEvent} event @param {Handle} handle @param {Element} element */
function grip(event, handle, element) {
  element.setPointerCapture(event.pointerId);
  drag = { handle, from: spotOf(event), value: handle.value };
  event.preventDefault();
}

/** @param {PointerEvent} event */
function move(event) {
  if (!drag) return;
  const { handle, from } = drag;
  const to = spotOf(event);
  const way = (to.x - from.x) * handle.along[0] - (to.y - from.y) * handle.along[1];
  drag.value = rounded(handle.value + way * handle.rate);
  void tryOut([changeOf(handle, drag.value)]);
}

function release() {
  if (!drag) return;
  const { handle, value } = drag;
  drag = null;
  if (value === handle.value) dropTrial();
  else change([changeOf(handle, value)]).catch(() => {});
}

function letGo() {
  drag = null;
  dropTrial();
}

/** @param {KeyboardEvent} event @param {Handle} handle */
function key(event, handle) {
  const way = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
  if (!way) return;
  event.preventDefault();
  change([changeOf(handle, rounded(handle.value + way * step()))]).catch(() => {});
}

/** To the nearest half millimetre, or 1/32 in. @param {number} mm */
function rounded(mm) {
  const fine = unit === "in" ? 25.4 / 32 : 0.5;
  return Math.max(fine, Math.round(mm / fine) * fine);
}

function step() {
  return unit === "in" ? 25.4 / 32 : STEP;
}

/** @param {Handle} handle @param {number} mm */
function changeOf(handle, mm) {
  return handle.place.length ? { key: handle.key, mm, place: handle.place } : { key: handle.key, mm };
}
