// The one state of the page, and all that may change it. Views subscribe; none changes anything by itself.

import { NotDone, news, post } from "./api.js";
import { bent } from "./bend.js";
import { wayTo } from "./ways.js";

/** @typedef {import("./contract.js").State} State */
/** @typedef {import("./contract.js").Fast} Fast */
/** @typedef {import("./contract.js").Change} Change */
/** What views show: the state, and its fast half or that of a change which is only tried. `drawing` goes ahead of
 * `fast` while a handle is dragged.
 * @typedef {{state: State, fast: Fast, drawing: import("./contract.js").Drawing|null, trying: boolean, problem: string, mistaken?: boolean}} View */
/** What is dragged: the handle, which of its ways, and to which value.
 * @typedef {{id: string, way: number, value: number}} Pull */

const REST = 800; // ms without a change, until the surface is asked for in more pixels
const LET_DRAW = 120; // ms at most, from an answer while something is dragged until the server is asked again
const AGAIN = 1500; // ms, until a server that does not answer is asked again

/** @type {View|null} */
let view = null;
/** @type {Set<(view: View) => void>} */
const listeners = new Set();
/** @type {Set<(view: View) => void>} pictures, which also follow what is dragged */
const pictures = new Set();
/** @type {Pull|null} */
let pulled = null;
/** @type {{revision: number, pattern: import("./contract.js").PatternView}|null} with mistakes put in */
let wrong = null;
/** @type {{revision: number, pattern: import("./contract.js").PatternView}|null} in more pixels */
let fine = null;
let rest = 0; // the timer until the fine one is asked for
/** @type {Change[]|null} the newest change to try, while another is under way */
let waiting = null;
let busy = false;
let serial = 0; // of what is shown for good: what was tried before it no longer counts
let lost = false;
/** @type {Promise<unknown>} the change before */
let before = Promise.resolve();

/** What shows now. */
export function current() {
  return view;
}

/** @param {(view: View) => void} listener */
export function subscribe(listener) {
  listeners.add(listener);
  if (view) listener(view);
}

/** A picture: called at every step of a drag too. @param {(view: View) => void} listener */
export function follow(listener) {
  pictures.add(listener);
  if (view) listener(view);
}

/** @param {Partial<View>} part */
function show(part) {
  if (!view && !part.state) return;
  view = { ...(view ?? { fast: part.state.fast, drawing: null, trying: false, problem: "" }), ...part };
  for (const listener of listeners) listener(view);
  draw();
}

/** All pictures, ahead of the server where something is dragged. */
export function draw() {
  const drawing = view.fast.drawing;
  const handle = pulled && drawing?.section.handles.find((one) => one.id === pulled.id);
  const way = handle?.ways[pulled.way];
  const shown = way ? bent(drawing, way, wayTo(way, pulled.value)) : drawing;
  const other = !view.trying && [wrong, fine].find((one) => one?.revision === view.state.revision);
  view = { ...view, mistaken: Boolean(other) && other === wrong, drawing: shown && other ? { ...shown, pattern: other.pattern } : shown };
  for (const picture of pictures) picture(view);
}

/** Show a handle dragged so far at once, and ask the server for the rest. @param {Pull} pull @param {Change[]} changes */
export function drag(pull, changes) {
  if (!view) return;
  pulled = pull;
  if (!view.trying) show({ trying: true });
  else draw();
  void tryOut(changes);
}

/** Show mistakes, each a share of the most that shows, until the job changes; they are returned in words. Throws NotDone.
 * @param {Record<string, number>} mistakes @returns {Promise<string[]>} */
export async function mistaken(mistakes) {
  const revision = view?.state.revision ?? -1;
  const none = !Object.keys(mistakes).length;
  const told = none ? { pattern: null, said: [] } : await post("wrong", { mistakes });
  wrong = none ? null : { revision, pattern: told.pattern };
  if (view) draw();
  return told.said;
}

/** @param {State} state */
function take(state) {
  if (view && state.tick < view.state.tick) return;
  const same = view?.trying && view.state.revision === state.revision;
  const anew = view?.state.revision !== state.revision;
  show(same ? { state } : { state, fast: state.fast, trying: false, ...(anew && { problem: "" }) });
  clearTimeout(rest);
  if (fine?.revision !== state.revision) rest = window.setTimeout(refine, REST);
}

/** The surface in more pixels, once nothing has changed for a while and the server has time. */
async function refine() {
  const { state, trying } = view;
  if (trying || state.slow.state === "working" || !state.fast.drawing) return;
  const pattern = await post("fine", {}).catch(() => null);
  if (!pattern || view.state.revision !== state.revision) return;
  fine = { revision: state.revision, pattern };
  draw();
}

/** Make changes and write them into the job file. Throws NotDone.
 * @param {Change[]|(() => Change[])} changes or what they come to once the changes before them are made */
export async function change(changes) {
  await done(() => post("change", { changes: Array.isArray(changes) ? changes : changes(), revision: view?.state.revision }));
}

/** Take a whole text and write it into the job file. Throws NotDone. @param {string} text */
export async function rewrite(text) {
  await done(() => post("text", { text, revision: view?.state.revision }));
}

/** @param {"undo"|"redo"|"put-back"} name */
export async function step(name) {
  await done(() => post("step", { step: name })).catch(() => {});
}

/** Begin to compare other ways to build the work. Throws NotDone. @param {object} wish */
export async function choose(wish) {
  await done(() => post("choices", { ...wish, revision: view?.state.revision }));
}

export async function stopChoosing() {
  await done(() => post("choices-stop", {})).catch(() => {});
}

/** Write down what was read. Throws NotDone. @param {string} id @param {string[]} texts */
export async function note(id, texts) {
  await done(() => post("reading", { id, texts }));
}

/** Begin to make the set in the job's folder, with STEP files too if `solids`. @param {boolean} solids */
export async function makeSet(solids) {
  await done(() => post("make", { revision: view?.state.revision, solids })).catch(() => {});
}

/** Show jigs and work without what a turner who owns sleds can do without, or with it. @param {boolean} lean */
export async function withoutSleds(lean) {
  await done(() => post("lean", { lean })).catch(() => {});
}

export async function stopMaking() {
  await done(() => post("make-stop", {})).catch(() => {});
}

/** One change after the other: each is of the job as the one before has left it. @param {() => Promise<State>} ask */
function done(ask) {
  const now = before.catch(() => {}).then(() => doneNow(ask));
  before = now;
  return now;
}

/** @param {() => Promise<State>} ask */
async function doneNow(ask) {
  waiting = null;
  serial += 1;
  try {
    const state = await ask();
    pulled = null;
    take(state);
    if (view.trying) show({ fast: view.state.fast, trying: false }); // what was tried is as the file already has it
    calm();
  } catch (error) {
    if (!(error instanceof NotDone)) throw error;
    pulled = null;
    const newest = await news().catch(() => null);
    if (newest) take(newest);
    show({ fast: view?.state.fast, trying: false, problem: told(error) });
    throw error;
  }
}

/** @param {NotDone} error */
export function told(error) {
  const named = error.findings.length > 1 ? /^/ : /^(?=is |does )/; // one alone stands beside its field
  return [error.message, ...error.findings.map((one) => (one.key ? one.text.replace(named, `${one.key} `) : one.line ? `Line ${one.line}: ${one.text}` : one.text))].join(" ");
}

/** Show what changes would do, and keep nothing; of many in a row the newest counts. @param {Change[]} changes */
async function tryOut(changes) {
  waiting = changes;
  if (busy) return;
  busy = true;
  try {
    while (waiting) {
      const now = waiting;
      waiting = null;
      const [begun, at] = [serial, performance.now()];
      const fast = await post("try", { changes: now });
      if (begun === serial) show({ fast, trying: true, problem: "" });
      const took = performance.now() - at;
      await new Promise((resolve) => setTimeout(resolve, Math.min(took, LET_DRAW))); // half of the time is for drawing
    }
  } catch (error) {
    if (error instanceof NotDone) show({ problem: told(error) });
    else throw error;
  } finally {
    busy = false;
  }
}

/** Back from what was only tried. */
export function dropTrial() {
  waiting = pulled = null;
  serial += 1;
  if (view) show({ fast: view.state.fast, trying: false });
  calm();
}

/** What was not done is read once something else is begun. */
export function calm() {
  if (view?.problem && !lost) show({ problem: "" });
}

/** Listen for news for as long as the page is open: another tab, the file on disk, the slow half. */
export async function listen() {
  for (;;) {
    try {
      const state = await news(view && !lost ? view.state.tick : undefined);
      if (lost && view) show({ problem: "", state: { ...view.state, tick: 0 } }); // a new server counts from the beginning
      lost = false;
      if (state) take(state);
    } catch (error) {
      if (!(error instanceof NotDone)) throw error;
      const stopped = "The server has stopped. Your file is as last saved; start jigs page again and open its address.";
      lost = true;
      show({ problem: error.status === 0 ? stopped : error.message });
      if (!view) document.dispatchEvent(new CustomEvent("no-page", { detail: error.status ? error.message : stopped }));
      await new Promise((resolve) => setTimeout(resolve, AGAIN));
    }
  }
}
