// Lengths as people read and type them: in mm, or in inches with fractions.

const INCH = 25.4;
const NEAR = 0.03; // of 1/64 in: what the file rounds away
const LENGTH = /^\s*([-−])?(?:(\d+)[ -]+)?(?:(\d+)\s*\/\s*(\d+)|(\d*\.?\d+))\s*(mm|in|")?\s*$/;

/** For people. @param {number} mm @param {string} unit */
export function length(mm, unit) {
  return unit === "in" ? `${(mm / INCH).toFixed(3)} in` : `${mm.toFixed(1)} mm`;
}

/** As it is typed, without the unit: inches to 1/64 as fractions. @param {number} mm @param {string} unit */
export function typedLength(mm, unit) {
  const parts = Math.round((64 * mm) / INCH);
  if (unit === "in" && mm > 0 && Math.abs(parts - (64 * mm) / INCH) < NEAR) return fraction(parts);
  return String(Number((unit === "in" ? mm / INCH : mm).toFixed(unit === "in" ? 4 : 2)));
}

/** @param {number} parts of 1/64 */
function fraction(parts) {
  const [whole, rest] = [Math.floor(parts / 64), parts % 64];
  if (!rest) return String(whole);
  const even = rest & -rest; // the largest power of two in it
  return `${whole || ""} ${rest / even}/${64 / even}`.trim();
}

/** "2 3/4", "69.85", "70 mm" as mm; null for what is no length. @param {string} text @param {string} unit */
export function readLength(text, unit) {
  const [, minus, whole = "0", over, under, plain, named] = LENGTH.exec(text) ?? [null];
  if (over === undefined && (plain === undefined || whole !== "0")) return null;
  const size = Number(whole) + (plain === undefined ? Number(over) / Number(under) : Number(plain));
  return Number.isFinite(size) ? (minus ? -size : size) * ((named ?? unit) === "mm" ? 1 : INCH) : null;
}
