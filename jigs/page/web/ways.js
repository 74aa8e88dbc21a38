// How a number follows a handle that goes along a way: in proportion, or as the radius of an arc over its chord.

/** @typedef {import("./contract.js").Way} Way */

const LEAST = 0.5; // mm, of any size
const FLATTEST = 0.01; // rise of an arc, of its chord: what is flatter is drawn as a straight edge

/** The number, when a handle has gone so many mm along its way. @param {Way} way @param {number} mm */
export function valueAfter(way, mm) {
  if (!way.chord) return way.value + mm * way.rate;
  const rise = riseOf(way.value, way.chord) + mm * way.rate;
  const least = Math.sign(way.value) * Math.max(way.chord * FLATTEST, Math.min(way.chord / 2, Math.sign(way.value) * rise));
  return (way.chord ** 2 / 4 + least ** 2) / (2 * least);
}

/** How many mm a handle goes for a number. @param {Way} way @param {number} value */
export function wayTo(way, value) {
  return (way.chord ? riseOf(value, way.chord) - riseOf(way.value, way.chord) : value - way.value) / way.rate;
}

/** Nothing is left of no size, neither here nor of the ring above. @param {Way} way @param {number} mm */
export function within(way, mm) {
  if (way.chord) return Math.sign(mm || way.value) * Math.max(Math.abs(mm), way.chord / 2 + 0.1);
  const both = way.listed.length ? way.value + way.listed[way.place[0] + 1] : Infinity;
  return Math.max(LEAST, Math.min(mm, both - LEAST));
}

/** From the middle of a chord to that of its arc. @param {number} radius + outward @param {number} chord */
function riseOf(radius, chord) {
  return radius - Math.sign(radius) * Math.sqrt(Math.max(0, radius ** 2 - chord ** 2 / 4));
}

/** @param {Way} way @param {number} mm @returns {import("./contract.js").Change} */
export function changeOf({ key, place, listed, value }, mm) {
  if (!listed.length) return place.length ? { key, mm, place } : { key, mm };
  const list = [...listed];
  list[place[0]] = mm;
  list[place[0] + 1] += value - mm;
  return { key, list };
}
