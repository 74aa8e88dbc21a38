// Which segment a point of the surface belongs to, and lists of woods as the job file has them.

/** @typedef {import("./contract.js").PatternView} PatternView */
/** @typedef {{ring: number, segment: number}} Spot numbers from 1 */
/** @typedef {string|(string|string[])[]} Species as the file has it */

/** @param {PatternView} pattern @param {number} radius @param {number} phi @param {number} height @returns {Spot} */
export function spotAt(pattern, radius, phi, height) {
  return pattern.centre ? onTorus(pattern, radius, phi, height) : onVessel(pattern, radius, phi, height);
}

/** @param {PatternView} pattern @param {number} radius @param {number} phi @param {number} height */
function onTorus({ rings, centre }, radius, phi, height) {
  const wide = rings[0].high - rings[0].low;
  const ring = rings[turned(Math.round(phi / wide), rings.length)];
  const out = radius * Math.cos(phi - (ring.low + ring.high) / 2) - centre;
  return { ring: ring.number, segment: piece(ring, Math.atan2(height, out)) };
}

/** @param {PatternView} pattern @param {number} radius @param {number} phi @param {number} height */
function onVessel({ rings }, radius, phi, height) {
  const ring = rings.find((one) => height < one.high) ?? rings[rings.length - 1];
  return { ring: ring.number, segment: radius < ring.plug ? 1 : piece(ring, phi) };
}

/** @param {import("./contract.js").RingView} ring @param {number} angle */
function piece({ segments, first }, angle) {
  return segments ? turned(Math.round(((angle - first) * segments) / (2 * Math.PI)), segments) + 1 : 1;
}

/** @param {number} number @param {number} count */
function turned(number, count) {
  return ((number % count) + count) % count;
}

/** All rings' woods with some pieces of another. `reach`: "piece", "ring", "column" (the same piece of every ring), or
 * every so many pieces of the ring. @param {PatternView} pattern @param {Spot} spot @param {string} wood @param {string} reach */
export function painted({ rings }, { ring, segment }, wood, reach) {
  const every = Number(reach);
  return rings.map((one) => one.woods.map((now, k) => {
    if (!one.paint || (reach !== "column" && one.number !== ring)) return now;
    const here = reach === "ring" || k === segment - 1 || (every > 1 && turned(k - segment + 1, every) === 0);
    return here ? wood : now;
  }));
}

/** As short as the file may have it: a ring's woods repeat round it, a torus's rings repeat, a vessel's last goes on.
 * @param {string[][]} rows @param {boolean} repeats @returns {Species} */
export function shortened(rows, repeats) {
  const short = rows.map((row) => row.slice(0, period(row)));
  const same = (/** @type {number} */ a, /** @type {number} */ b) => short[a].join("\n") === short[b].join("\n");
  let count = short.length;
  if (repeats) count = period(short.map((row) => row.join("\n")), true);
  else while (count > 1 && same(count - 1, count - 2)) count -= 1;
  const listed = short.slice(0, count).map((row) => (row.length === 1 ? row[0] : row));
  return listed.length === 1 && typeof listed[0] === "string" ? listed[0] : listed;
}

/** After how many entries a list repeats. @param {string[]} list @param {boolean} [whole] a whole number of times */
function period(list, whole = false) {
  for (let k = 1; k < list.length; k += 1) {
    if ((!whole || list.length % k === 0) && list.every((one, i) => one === list[i % k])) return k;
  }
  return list.length;
}
