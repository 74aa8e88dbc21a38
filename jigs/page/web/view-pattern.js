// The surface laid flat: each stretch of the pattern in its true proportions.

import { make } from "./dom.js";
import { follow } from "./store.js";

/** @typedef {import("./contract.js").PatternView} PatternView */

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

/** @param {Element} stage @param {PatternView} pattern @param {ImageBitmap} picture */
function show(stage, pattern, picture) {
  const canvases = pattern.stretches.map((stretch) => {
    const [top, foot] = [Math.min(stretch.top, stretch.foot), Math.max(stretch.top, stretch.foot)];
    const rows = Math.max(1, Math.round((foot - top) * pattern.height));
    const canvas = /** @type {HTMLCanvasElement} */ (make("canvas", {
      width: pattern.width, height: rows, role: "img", "aria-label": `Surface laid flat: ${stretch.name}`,
    }));
    const pen = canvas.getContext("2d");
    if (stretch.top > stretch.foot) {
      pen?.translate(0, rows);
      pen?.scale(1, -1);
    }
    pen?.drawImage(picture, 0, top * pattern.height, pattern.width, rows, 0, 0, pattern.width, rows);
    return canvas;
  });
  stage.replaceChildren(...canvases);
}
