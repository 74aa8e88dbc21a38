// The surface laid flat: each stretch of the pattern in its true proportions.

import { make } from "./dom.js";
import { pick } from "./brush.js";
import { current, follow } from "./store.js";

/** @typedef {import("./contract.js").PatternView} PatternView */
/** @typedef {import("./contract.js").Stretch} Stretch */

/** The pattern as a picture. @param {PatternView} pattern @returns {Promise<ImageBitmap>} */
export async function bitmapOf(pattern) {
  const bytes = Uint8Array.from(atob(pattern.png), (letter) => letter.charCodeAt(0)); // a data address is not allowed
  return createImageBitmap(new Blob([bytes], { type: "image/png" }));
}

/** @param {Element} stage */
export function patternView(stage) {
  /** @type {PatternView|undefined} */
  let shown;
  follow(async ({ drawing }) => {
    const pattern = drawing?.pattern;
    stage.classList.toggle("stale", !pattern);
    if (!pattern || pattern === shown || !stage.clientWidth) return;
    shown = pattern;
    const picture = await bitmapOf(pattern);
    if (shown === pattern) show(stage, pattern, picture);
    picture.close();
  });
}

/** Canvases that are there already are drawn on again. @param {Element} stage @param {PatternView} pattern @param {ImageBitmap} picture */
function show(stage, pattern, picture) {
  const old = [...stage.querySelectorAll("canvas")];
  const same = old.length === pattern.stretches.length && pattern.stretches.every((one, k) => old[k].dataset.name === one.name);
  const canvases = same ? old : pattern.stretches.map((stretch) => /** @type {HTMLCanvasElement} */ (make("canvas", {
    role: "img", "data-name": stretch.name, "aria-label": `Surface laid flat: ${stretch.name}`, click: point })));
  canvases.forEach((canvas, k) => draw(canvas, pattern, pattern.stretches[k], picture));
  if (same) return;
  stage.replaceChildren(...(canvases.length < 2 ? canvases : canvases.map((canvas, k) => {
    const { name } = pattern.stretches[k];
    return make("div", { class: "stretch" }, canvas, make("p", {}, `${name[0].toUpperCase()}${name.slice(1)}`));
  })));
}

/** @param {HTMLCanvasElement} canvas @param {PatternView} pattern @param {Stretch} stretch @param {ImageBitmap} picture */
function draw(canvas, pattern, stretch, picture) {
  const [top, foot] = [Math.min(stretch.top, stretch.foot), Math.max(stretch.top, stretch.foot)];
  const rows = Math.max(1, Math.round((foot - top) * pattern.height));
  if (canvas.width !== pattern.width) canvas.width = pattern.width;
  if (canvas.height !== rows) canvas.height = rows;
  Object.assign(canvas.dataset, { top: stretch.top, foot: stretch.foot });
  const pen = canvas.getContext("2d", { willReadFrequently: true }); // drawn by the processor: it is small
  if (stretch.top > stretch.foot) pen?.setTransform(1, 0, 0, -1, 0, rows);
  else pen?.resetTransform();
  pen?.drawImage(picture, 0, top * pattern.height, pattern.width, rows, 0, 0, pattern.width, rows);
}

/** A click points at a segment. @param {MouseEvent} event */
function point(event) {
  const form = current()?.fast.drawing?.form;
  const canvas = /** @type {HTMLCanvasElement} */ (event.currentTarget);
  const scale = Math.min(canvas.clientWidth / canvas.width, canvas.clientHeight / canvas.height);
  const [wide, high] = [canvas.width * scale, canvas.height * scale];
  const across = (event.offsetX - (canvas.clientWidth - wide) / 2) / wide;
  const down = (event.offsetY - (canvas.clientHeight - high) / 2) / high;
  if (!form || across < 0 || across > 1 || down < 0 || down > 1) return;
  const [top, foot] = [Number(canvas.dataset.top), Number(canvas.dataset.foot)];
  const v = top + down * (foot - top);
  const nearest = form.v.reduce((best, one, k) => (Math.abs(one - v) < Math.abs(form.v[best] - v) ? k : best), 0);
  const beside = v > form.v[nearest] === form.v[1] > form.v[0] ? nearest + 1 : nearest - 1;
  const next = Math.max(0, Math.min(form.v.length - 1, beside));
  const gap = form.v[next] - form.v[nearest];
  const share = gap ? (v - form.v[nearest]) / gap : 0;
  const between = (/** @type {number[]} */ list) => list[nearest] + share * (list[next] - list[nearest]);
  pick(between(form.radius), -Math.PI + 2 * Math.PI * across, between(form.height));
}
