// How a number follows a handle that goes along a way: in proportion.

/** @typedef {import("./contract.js").Way} Way */

const LEAST = 0.5; // mm, of any size

/** The number, when a handle has gone so many mm along its way. @param {Way} way @param {number} mm */
export function valueAfter(way, mm) {
  return way.value + mm * way.rate;
}

/** How many mm a handle goes for a number. @param {Way} way @param {number} value */
export function wayTo(way, value) {
  return (value - way.value) / way.rate;
}

/** Nothing is left of no size, neither here nor of the ring above. @param {Way} way @param {number} mm */
export function within(way, mm) {
  const both = way.listed.length ? way.value + way.listed[way.place[0] + 1] : Infinity;
  return Math.max(LEAST, Math.min(mm, both - LEAST));
}

/** @param {Way} way @param {number} mm @returns {import("./contract.js").Change} */
export function changeOf({ key, place, listed, value }, mm) {
  if (!listed.length) return place.length ? { key, mm, place } : { key, mm };
  const list = [...listed];
  list[place[0]] = mm;
  list[place[0] + 1] += value - mm;
  return { key, list };
}
