// Lengths as people read and type them: in mm, or in inches with fractions.

const INCH = 25.4;
const LENGTH = /^\s*([-−])?(?:(\d+)[ -]+)?(?:(\d+)\s*\/\s*(\d+)|(\d*[.,]?\d+))\s*(mm|in|")?\s*$/;

/** For people. @param {number} mm @param {string} unit */
export function length(mm, unit) {
  return unit === "in" ? `${(mm / INCH).toFixed(3)} in` : `${mm.toFixed(1)} mm`;
}

/** As it is typed, without the unit. @param {number} mm @param {string} unit */
export function typedLength(mm, unit) {
  return String(Number((unit === "in" ? mm / INCH : mm).toFixed(unit === "in" ? 4 : 2)));
}

/** "2 3/4", "69.85", "70 mm" as mm; null for what is no length. @param {string} text @param {string} unit */
export function readLength(text, unit) {
  const [, minus, whole = "0", over, under, plain, named] = LENGTH.exec(text) ?? [null];
  if (over === undefined && (plain === undefined || whole !== "0")) return null;
  const size = Number(whole) + (plain === undefined ? Number(over) / Number(under) : Number(plain.replace(",", ".")));
  return Number.isFinite(size) ? (minus ? -size : size) * ((named ?? unit) === "mm" ? 1 : INCH) : null;
}
