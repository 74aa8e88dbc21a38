// Closed lines with bulges as SVG paths. Arcs become cubics of at most 30°: some renderers draw SVG's own out of round.

const MOST = Math.PI / 6;

/** @param {number[][]} points (x, y, bulge) @returns {string} y upward in, downward out */
export function loopPath(points) {
  const parts = [`M${spot(points[0])}`];
  points.forEach((from, k) => {
    const to = points[(k + 1) % points.length];
    parts.push(from[2] ? arc(from, to, from[2]) : `L${spot(to)}`);
  });
  return `${parts.join("")}Z`;
}

/** @param {number[]} point */
function spot(point) {
  return `${round(point[0])} ${round(-point[1])}`;
}

/** @param {number} value */
function round(value) {
  return Math.round(value * 1e4) / 1e4;
}

/** @param {number[]} from @param {number[]} to @param {number} bulge */
function arc(from, to, bulge) {
  const sweep = 4 * Math.atan(bulge);
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const off = (1 / bulge - bulge) / 4; // from the chord's middle to the centre, in chords, to the left
  const [cx, cy] = [(from[0] + to[0]) / 2 - dy * off, (from[1] + to[1]) / 2 + dx * off];
  const radius = Math.hypot(from[0] - cx, from[1] - cy);
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / MOST - 1e-9));
  const [each, start] = [sweep / count, Math.atan2(from[1] - cy, from[0] - cx)];
  const reach = (4 / 3) * Math.tan(each / 4) * radius;
  const parts = [];
  for (let k = 0; k < count; k += 1) {
    const [a, b] = [start + k * each, start + (k + 1) * each];
    const [p, q] = [[cx + radius * Math.cos(a), cy + radius * Math.sin(a)], [cx + radius * Math.cos(b), cy + radius * Math.sin(b)]];
    parts.push(`C${spot([p[0] - reach * Math.sin(a), p[1] + reach * Math.cos(a)])} ` +
      `${spot([q[0] + reach * Math.sin(b), q[1] - reach * Math.cos(b)])} ${spot(q)}`);
  }
  return parts.join("");
}
