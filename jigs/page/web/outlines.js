// The section's lines: elements of the picture at rest, and drawn on a canvas while something is dragged, which is
// far cheaper than paths drawn anew where no graphics card draws.

import { make, svg } from "./dom.js";
import { loopPath } from "./paths.js";

/** @typedef {import("./contract.js").Loop} Loop */

const ROLES = ["blank", "finished", "knob", "core", "allowance"]; // the core is cut out of both

/** @param {SVGSVGElement} picture @param {SVGGElement} group @returns {(loops: Loop[], moving: boolean) => void} */
export function outlines(picture, group) {
  const canvas = /** @type {HTMLCanvasElement} */ (make("canvas", { class: "moving", hidden: true, "aria-hidden": true }));
  picture.before(canvas);
  const pen = canvas.getContext("2d", { willReadFrequently: true }); // drawn by the processor
  /** @type {Loop[]} */
  let shown = [];
  /** @type {SVGElement[]} */
  let paths = [];
  /** @type {{fill: string, opacity: number, stroke: string, width: number}[]} */
  let looks = [];

  /** @param {Loop[]} wanted */
  function atRest(wanted) {
    if (wanted.length !== shown.length || wanted.some((one, k) => one.id !== shown[k].id)) {
      shown = [];
      paths = wanted.map((one) => /** @type {SVGElement} */ (svg("path", { class: `loop ${one.role}`, "data-loop": one.id })));
      group.replaceChildren(...paths);
    }
    wanted.forEach((one, k) => {
      if (shown[k]?.points !== one.points) paths[k].setAttribute("d", loopPath(one.points));
    });
    shown = wanted;
  }

  /** The picture's place and its lines' looks are read once, before anything moves. */
  function begin() {
    const [grid, box, dots] = [group.getScreenCTM() ?? new DOMMatrix(), picture.getBoundingClientRect(), devicePixelRatio];
    const stage = /** @type {Element} */ (picture.parentElement).getBoundingClientRect();
    canvas.hidden = false;
    Object.assign(canvas.style, { left: `${box.x - stage.x}px`, top: `${box.y - stage.y}px`, width: `${box.width}px`, height: `${box.height}px` });
    [canvas.width, canvas.height] = [Math.round(box.width * dots), Math.round(box.height * dots)];
    pen?.setTransform(dots * grid.a, 0, 0, dots * grid.d, dots * (grid.e - box.x), dots * (grid.f - box.y));
    looks = ROLES.map((role) => {
      const { fill, fillOpacity, stroke, strokeWidth } = getComputedStyle(paths.find((one) => one.classList.contains(role)) ?? group);
      return { fill, opacity: Number(fillOpacity), stroke, width: parseFloat(strokeWidth) / grid.a };
    });
    group.setAttribute("visibility", "hidden");
  }

  /** @param {Loop[]} wanted */
  function inMotion(wanted) {
    if (!pen) return;
    pen.save();
    pen.resetTransform();
    pen.clearRect(0, 0, canvas.width, canvas.height);
    pen.restore();
    for (const one of wanted) {
      const look = looks[ROLES.indexOf(one.role)];
      const path = new Path2D(loopPath(one.points));
      [pen.fillStyle, pen.strokeStyle, pen.lineWidth, pen.globalAlpha] = [look.fill, look.stroke, look.width, look.opacity];
      if (look.fill !== "none") pen.fill(path);
      pen.globalAlpha = 1;
      pen.stroke(path);
    }
  }

  return (loops, moving) => {
    const wanted = ROLES.flatMap((role) => loops.filter((one) => one.role === role));
    if (moving && canvas.hidden) begin();
    if (moving) return inMotion(wanted);
    canvas.hidden = true;
    group.removeAttribute("visibility");
    atRest(wanted);
  };
}
