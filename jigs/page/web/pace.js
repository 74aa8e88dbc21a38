// How many pixels of the form are drawn while something is dragged: as many as the machine draws 30 times a second.

const FRAME = 1000 / 30; // ms
const STEPS = [1, 0.7, 0.5, 0.35, 0.25]; // of the pixels each way
const SLOW = 2; // the step at which a machine without a graphics card begins
const TIMED = 4; // frames, of which the middle one counts

/** @param {boolean} slow whether no graphics card draws
 * @returns {{share: (dragged: boolean) => number, drawn: () => void}} */
export function pacer(slow) {
  const first = slow ? SLOW : 0;
  let [step, dragging, under] = [first, false, false];
  /** @type {number[]} */
  let times = [];

  /** The share of the pixels each way. A new drag tries one step finer than the one before came down to.
   * @param {boolean} dragged */
  function share(dragged) {
    if (dragged && !dragging) step = Math.max(first, step - 1);
    dragging = dragged;
    return dragged ? STEPS[step] : 1;
  }

  /** A frame is drawn: the next comes when the browser has put it on the screen. */
  function drawn() {
    if (!dragging || under) return;
    under = true;
    const begun = performance.now();
    requestAnimationFrame(() => {
      under = false;
      times.push(performance.now() - begun);
      if (times.length < TIMED) return;
      const [, , long] = times.sort((a, b) => a - b);
      times = [];
      if (long > FRAME && step < STEPS.length - 1) step += 1;
    });
  }

  return { share, drawn };
}
