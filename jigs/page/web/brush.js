// What is painted with, and the segment that was pointed at last.

import { painted, shortened, spotAt } from "./segments.js";
import { change, current } from "./store.js";

/** @typedef {import("./segments.js").Spot} Spot */

/** Keys of the rules that painting takes out, as the file states them. @param {import("./contract.js").State} state */
export function rulesLost(state) {
  return state.fields.filter((one) => one.text && RULES[state.kind]?.includes(one.key));
}

/** Rules that a list of every ring's woods takes the place of. */
const RULES = {
  torus: ["form.turn", "form.spread"],
  vessel: ["rings.feature", "rings.feature_species", "rings.repeat"],
};
const WOODS = { torus: "form.species", vessel: "rings.species" };

/** @type {{wood: string, reach: string, spot: Spot|null, note: string}} no wood: what is clicked is only named */
export const brush = { wood: "", reach: "piece", spot: null, note: "" };
/** @type {Set<() => void>} */
const listeners = new Set();

/** @param {() => void} listener */
export function watchBrush(listener) {
  listeners.add(listener);
}

/** @param {Partial<typeof brush>} part */
export function setBrush(part) {
  Object.assign(brush, part);
  for (const listener of listeners) listener();
}

/** A point of the surface was clicked. @param {number} radius @param {number} phi @param {number} height */
export function pick(radius, phi, height) {
  const pattern = current()?.fast.drawing?.pattern;
  if (!pattern) return;
  setBrush({ spot: spotAt(pattern, radius, phi, height) });
  paint();
}

/** Paint the segment that was pointed at with the wood that is chosen, or only name it. */
export function paint() {
  const { fast, state } = current() ?? {};
  const pattern = fast?.drawing?.pattern;
  const ring = pattern?.rings.find((one) => one.number === brush.spot?.ring);
  if (!state || !pattern || !brush.spot) return;
  const { wood, reach, spot } = brush;
  const { segment } = spot;
  if (!ring || !Number.isInteger(segment) || segment < 1 || segment > Math.max(1, ring.segments)) {
    setBrush({ note: ring ? `Ring ${ring.number} has segments 1 to ${Math.max(1, ring.segments)}.` : `There are rings 1 to ${pattern.rings.length}.` });
    return;
  }
  const had = ring.woods[segment - 1] ?? ring.woods[0];
  const why = wood && !ring.paint ? " This ring is of staves or plies: change it below." : "";
  /** @param {string} own */
  const name = (own) => setBrush({
    note: `Ring ${ring.number}${ring.segments ? `, segment ${segment}` : ""}: ${ring.paint ? own : "plies or staves"}.${why}` });
  name(wood || had);
  if (!wood || !ring.paint) return;
  change(() => {
    const now = current().state;
    const value = shortened(painted(now.fast.drawing?.pattern ?? pattern, spot, wood, reach), now.kind === "torus");
    return [{ key: WOODS[now.kind], value }, ...rulesLost(now).map(({ key }) => ({ key, value: null }))];
  }).catch(() => name(had));
}
