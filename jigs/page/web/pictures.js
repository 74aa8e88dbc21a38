// Pictures that the slow half draws: jigs with their sizes, steps of the work. Shown as images, so no script in one runs.

import { piece } from "./api.js";
import { make } from "./dom.js";

/** @type {Map<string, string>} addresses of those that were shown, by id */
const shown = new Map();
/** @type {Record<string, string>} SVG texts by id */
let texts = {};
let have = 0;
let wanted = 0;
/** @type {HTMLDialogElement|null} */
let large = null;

/** Fetch the pictures that the state tells of, unless they are here. @param {import("./contract.js").State} state */
export async function fetchPictures(state) {
  const number = state.pieces.pictures ?? 0;
  if (!number || number === wanted) return;
  wanted = number;
  const fresh = await piece("pictures").catch(() => null);
  if (!fresh || number !== wanted) return;
  [texts, have] = [fresh, number];
  for (const address of shown.values()) URL.revokeObjectURL(address);
  shown.clear();
  for (const image of /** @type {NodeListOf<HTMLImageElement>} */ (document.querySelectorAll("img[data-picture]"))) fill(image);
}

/** @param {HTMLImageElement} image */
function fill(image) {
  const id = image.dataset.picture ?? "";
  if (have && !shown.has(id) && id in texts) shown.set(id, URL.createObjectURL(new Blob([texts[id]], { type: "image/svg+xml" })));
  const address = shown.get(id);
  if (address) image.src = address;
}

/** A picture that is filled as soon as it is here; pressed, it or another of the same thing is shown large.
 * @param {string} id @param {string} what @param {string} kind @param {string} [drawing] */
export function pictureButton(id, what, kind, drawing = id) {
  const image = picture(id, "");
  return make("button", { type: "button", class: `zoom ${kind}`, "aria-label": `Show large: ${what}`,
    click: () => showLarge(drawing, what) }, image);
}

/** @param {string} id @param {string} what */
function picture(id, what) {
  const image = /** @type {HTMLImageElement} */ (make("img", { alt: what, "data-picture": id }));
  fill(image);
  return image;
}

/** @param {string} id @param {string} what */
function showLarge(id, what) {
  large ??= /** @type {HTMLDialogElement} */ (document.body.appendChild(make("dialog", { id: "large", "aria-label": "Picture" })));
  const close = make("button", { type: "button", click: () => large?.close() }, "Close");
  large.replaceChildren(close, picture(id, what));
  large.showModal();
}
