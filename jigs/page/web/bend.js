// What a drawing looks like while a handle is dragged, about, until the server has drawn it anew.

/** @typedef {import("./contract.js").Drawing} Drawing */
/** @typedef {import("./contract.js").Way} Way */

/** A drawing with one of its ways dragged on by so many mm. @param {Drawing} drawing @param {Way} way @param {number} mm
 * @returns {Drawing} */
export function bent(drawing, way, mm) {
  const bend = way.bend;
  if (!bend || !mm) return drawing;
  const move = mover(bend, mm);
  const loops = drawing.section.loops.map((loop) => {
    if (bend.roles.includes(loop.role)) return { ...loop, points: loop.points.map(([x, y, bulge]) => [...move(x, y), bulge]) };
    return bend.shifts.length && loop.role === "finished" ? { ...loop, points: shifted(loop.points, bend, mm) } : loop;
  });
  return { ...drawing, section: { ...drawing.section, loops }, form: bend.form ? moved(drawing.form, move) : drawing.form };
}

/** Some corners. @param {number[][]} points @param {import("./contract.js").Bend} bend @param {number} mm */
function shifted(points, { shifts }, mm) {
  const now = points.map((one) => [...one]);
  for (const [k, out, up] of shifts) now[k] = [Math.max(0, now[k][0] + mm * out), now[k][1] + mm * up, now[k][2]];
  return now;
}

/** @param {import("./contract.js").FormView} form @param {(x: number, y: number) => [number, number]} move */
function moved(form, move) {
  const places = form.radius.map((x, k) => move(x, form.height[k]));
  return { ...form, radius: places.map((at) => at[0]), height: places.map((at) => at[1]) };
}

/** @param {import("./contract.js").Bend} bend @param {number} mm @returns {(x: number, y: number) => [number, number]} */
function mover({ centre, grow, rise, out, up }, mm) {
  const [by, high] = [1 + grow * mm, 1 + rise * mm];
  return (x, y) => [
    Math.max(0, centre[0] + (x - centre[0]) * by + mm * share(out, y)), centre[1] + (y - centre[1]) * high + mm * share(up, y),
  ];
}

/** The share at a height, in proportion between those listed. @param {[number, number][]} listed @param {number} y */
function share(listed, y) {
  if (!listed.length) return 0;
  if (y <= listed[0][0]) return listed[0][1];
  for (let k = 1; k < listed.length; k += 1) {
    const [[low, a], [high, b]] = [listed[k - 1], listed[k]];
    if (y <= high) return a + ((b - a) * (y - low)) / (high - low);
  }
  return listed[listed.length - 1][1];
}
