// Handles of the section: dragged by mouse or finger, moved by keys, typed as numbers beside. One drag is one change.

import { make, svg } from "./dom.js";
import { length, readLength, typedLength } from "./lengths.js";
import { change, drag, dropTrial } from "./store.js";
import { changeOf, valueAfter, wayTo, within } from "./ways.js";

/** @typedef {import("./contract.js").Handle} Handle */
/** @typedef {import("./contract.js").Way} Way */

const DOT = 7; // pixels, the radius that shows
const GRIP = 13; // and that can be gripped
const FIRM = 3; // pixels of a drag until it is clear which way it goes
const REST = 900; // ms after the last key, until what keys changed is kept
const NO_LENGTH = "This is no length. Write it as 69.85, 2 3/4 or 70 mm.";
const KEYS = { ArrowRight: [1, 0, 1], ArrowLeft: [-1, 0, 1], ArrowUp: [0, 1, 1], ArrowDown: [0, -1, 1], PageUp: [0, 1, 10], PageDown: [0, -1, 10] };

/** @param {Element} stage @param {SVGGElement} picture */
export function handles(stage, picture) {
  const group = svg("g");
  const beside = make("form", { class: "beside", hidden: true, novalidate: true, submit: typed, focusout: left, keydown: back,
    input: (/** @type {Event} */ event) => { /** @type {HTMLInputElement} */ (event.target).dataset.typing = "yes"; } });
  picture.append(group);
  stage.append(beside);
  /** @type {Handle[]} */
  let all = [];
  let unit = "mm";
  /** @type {{id: string, from: DOMPoint, screen: [number, number], start: Handle, way: number|null, value: number}|null} */
  let held = null;
  /** @type {{id: string, way: number, value: number, timer: number}|null} */
  let keyed = null;
  /** @type {{id: string, way: number, value: number}|null} what keys have changed, until the server has kept it */
  let sent = null;
  let shown = ""; // the handle whose numbers are beside
  let grid = new DOMMatrix(); // from the picture to the screen, and the stage there: read before anything is moved
  let box = stage.getBoundingClientRect();
  let [wide, high] = [0, 0]; // of the numbers

  /** @param {string} id */
  const handleOf = (id) => all.find((one) => one.id === id);

  /** @param {Handle[]} now @param {string} newUnit */
  function follow(now, newUnit) {
    const same = now.length === all.length && now.every((one, k) => one.id === all[k].id);
    [all, unit] = [now, newUnit];
    if (!same && !held) {
      const focused = /** @type {Element|null} */ (document.activeElement)?.getAttribute("data-id");
      group.replaceChildren(...inOrder(now).map(made));
      if (focused) /** @type {SVGElement|null} */ (group.querySelector(`[data-id="${focused}"]`))?.focus({ preventScroll: true });
    }
    if (held) place();
    else measure();
  }

  /** Look where the picture is on the screen, then put everything there. */
  function measure() {
    grid = picture.getScreenCTM() ?? new DOMMatrix();
    box = stage.getBoundingClientRect();
    place();
  }

  /** @param {Handle} handle */
  function made(handle) {
    const element = svg("g", {
      class: `handle ${handle.id.replace(/-\d+$/, "")}`, "data-id": handle.id, tabindex: 0, role: "slider",
      pointerdown: grip, pointermove: move,
      pointerup: release, pointercancel: drop, keydown: (/** @type {KeyboardEvent} */ event) => key(event, handle.id),
      focus: () => show(handle.id), blur: () => settle(),
    }, svg("circle", { class: "grip", r: GRIP }), svg("circle", { class: "dot", r: DOT }));
    element.addEventListener("focusout", left);
    return element;
  }

  /** Everything where it now is, as large on every screen. */
  function place() {
    all.forEach((handle) => {
      const element = group.querySelector(`[data-id="${handle.id}"]`);
      if (!element) return;
      const [x, y] = spot(handle);
      put(element, "transform", `translate(${x} ${-y}) scale(${1 / grid.a})`);
      put(element, "aria-label", handle.label);
      put(element, "aria-valuenow", handle.ways[0].value.toFixed(2));
      put(element, "aria-valuetext", handle.ways.map((way) => (handle.ways.length > 1 ? `${shortly(way)} ` : "") + length(way.value, unit)).join(", "));
    });
    numbers();
  }

  /** Where a handle is: the dragged one goes with the hand, also before the server answers. @param {Handle} handle */
  function spot(handle) {
    const pull = held?.id === handle.id && held.way !== null ? held : keyed?.id === handle.id ? keyed : null;
    if (!pull) return [handle.x, handle.y];
    const way = handle.ways[/** @type {number} */ (pull.way)];
    const mm = wayTo(way, pull.value);
    return [handle.x + mm * way.along[0], handle.y + mm * way.along[1]];
  }

  /** @param {PointerEvent} event */
  const at = (event) => new DOMPoint(event.clientX, event.clientY).matrixTransform(grid.inverse());

  /** Of handles that lie over one another the nearest is gripped. @param {PointerEvent} event */
  function grip(event) {
    if (held) return;
    settle();
    measure();
    const to = at(event);
    const far = (/** @type {Handle} */ one) => Math.hypot(one.x - to.x, one.y + to.y);
    const start = all.reduce((best, one) => (far(one) < far(best) ? one : best));
    const id = start.id;
    const element = /** @type {SVGElement} */ (group.querySelector(`[data-id="${id}"]`));
    element.setPointerCapture(event.pointerId);
    held = { id, from: to, screen: [event.clientX, event.clientY], start, way: start.ways.length > 1 ? null : 0, value: start.ways[0].value };
    show(id);
    event.preventDefault();
    element.focus({ preventScroll: true });
  }

  /** @param {PointerEvent} event */
  function move(event) {
    if (!held) return;
    const to = at(event);
    const [dx, dy] = [to.x - held.from.x, held.from.y - to.y];
    if (held.way === null) {
      if (Math.hypot(event.clientX - held.screen[0], event.clientY - held.screen[1]) < FIRM) return;
      const along = held.start.ways.map((way) => Math.abs(dx * way.along[0] + dy * way.along[1]));
      held.way = along.indexOf(Math.max(...along));
    }
    const way = held.start.ways[held.way];
    pull(held, held.way, valueAfter(way, dx * way.along[0] + dy * way.along[1]));
  }

  /** @param {{id: string, value: number, start: Handle}} one @param {number} number @param {number} value */
  function pull(one, number, value) {
    const way = one.start.ways[number];
    const next = within(way, rounded(value, unit));
    if (next === one.value) return;
    one.value = next;
    drag({ id: one.id, way: number, value: next }, [changeOf(way, next)]);
  }

  function release() {
    if (!held) return;
    const { id, way, value, start } = held;
    held = null;
    if (way === null || value === start.ways[way].value) dropTrial();
    else void keep(id, start.ways, way, value);
  }

  /** The handle then is as the changes before have left it: a list has its other sizes from there.
   * @param {string} id @param {Way[]} ways as they are now @param {number} way @param {number} value */
  const keep = (id, ways, way, value) => change(() => [changeOf(handleOf(id)?.ways[way] ?? ways[way], value)]).catch(() => {});

  function drop() {
    held = null;
    dropTrial();
  }

  /** @param {KeyboardEvent} event @param {string} id */
  function key(event, id) {
    const handle = handleOf(id);
    if (!handle) return;
    if (event.key === "Enter") {
      settle();
      const first = beside.querySelector("input");
      first?.focus();
      first?.select();
    } else if (event.key === "Escape") {
      forget();
      held = null;
      dropTrial();
    } else {
      const step = KEYS[event.key];
      if (!step) return;
      stepOn(handle, step);
    }
    event.preventDefault();
  }

  /** A handle with one way goes along it by any arrow. @param {Handle} handle @param {number[]} step */
  function stepOn(handle, [x, level, times]) {
    const y = grid.d < 0 ? -level : level; // turned over
    const single = handle.ways.length === 1;
    const number = single ? 0 : handle.ways.findIndex((way) => (x ? way.along[0] : way.along[1]));
    if (number < 0) return;
    if (keyed && keyed.way !== number) settle();
    const way = handle.ways[number];
    const sign = single ? x + y : (x * way.along[0] + y * way.along[1]) * Math.sign(way.rate);
    const before = keyed ?? (sent?.id === handle.id && sent.way === number ? sent : null);
    const value = before ? before.value : way.value;
    const next = within(way, rounded(value + sign * times * coarse(unit), unit));
    clearTimeout(keyed?.timer);
    keyed = { id: handle.id, way: number, value: next, timer: window.setTimeout(settle, REST) };
    drag({ id: handle.id, way: number, value: next }, [changeOf(way, next)]);
  }

  /** Keep what keys have changed. */
  function settle() {
    if (!keyed) return;
    const { id, way, value } = keyed;
    forget();
    const handle = handleOf(id);
    if (!handle) return;
    const own = { id, way, value };
    sent = own;
    keep(id, handle.ways, way, value).finally(() => { if (sent === own) sent = null; });
  }

  function forget() {
    clearTimeout(keyed?.timer);
    keyed = null;
  }

  /** @param {string} id */
  function show(id) {
    const handle = handleOf(id);
    if (!handle) return;
    shown = id;
    beside.setAttribute("aria-label", handle.label);
    beside.replaceChildren(...handle.ways.map((way, k) => make("label", {}, shortly(way),
      make("input", { type: "text", size: 7, "data-way": k, autocomplete: "off" }))), make("button", { class: "unseen", type: "submit", tabindex: -1 }, "Keep"));
    beside.hidden = false;
    [wide, high] = [beside.offsetWidth, beside.offsetHeight];
    numbers();
  }

  /** The numbers beside, where the handle is. */
  function numbers() {
    const handle = handleOf(shown);
    if (!handle) beside.hidden = true;
    if (beside.hidden || !handle) return;
    const pulled = held?.id === shown ? held : keyed?.id === shown ? keyed : null;
    for (const input of beside.querySelectorAll("input")) {
      const number = Number(input.dataset.way);
      const value = pulled?.way === number ? pulled.value : handle.ways[number].value;
      if (input !== document.activeElement && !input.dataset.typing) input.value = typedLength(value, unit);
    }
    const spots = all.map((one) => {
      const [x, y] = spot(one);
      const to = new DOMPoint(x, -y).matrixTransform(grid);
      return { id: one.id, x: to.x - box.left, y: to.y - box.top };
    });
    const [left, top] = clearOf(spots, shown, box, wide, high);
    beside.style.transform = `translate(${left}px, ${top}px)`;
  }

  /** @param {Event} event */
  function typed(event) {
    event.preventDefault();
    const handle = handleOf(shown);
    const inputs = [...beside.querySelectorAll("input")];
    const changed = inputs.flatMap((input) => {
      const way = handle?.ways[Number(input.dataset.way)];
      const mm = readLength(input.value, unit);
      input.setAttribute("aria-invalid", String(mm === null));
      input.setCustomValidity(mm === null ? NO_LENGTH : "");
      return way && mm !== null && typedLength(way.value, unit) !== input.value.trim() ? [changeOf(way, mm)] : [];
    });
    if (event.type === "submit") beside.reportValidity(); // it takes the hand back to the number
    if (changed.length) change(changed).then(() => inputs.forEach((input) => delete input.dataset.typing)).catch(() => {});
  }

  /** @param {KeyboardEvent} event */
  function back(event) {
    if (event.key === "Escape") /** @type {SVGElement|null} */ (group.querySelector(`[data-id="${shown}"]`))?.focus();
  }

  /** @param {FocusEvent} event */
  function left(event) {
    const to = /** @type {Node|null} */ (event.relatedTarget);
    if (held || (to && (beside.contains(to) || group.contains(to)))) return;
    if (beside.querySelector("[data-typing]")) typed(event);
    beside.hidden = !beside.querySelector("[aria-invalid=true]"); // what is no length stays to be put right
  }

  return { follow, measure, dragging: () => held !== null || keyed !== null };
}

/** What is there already costs nothing. @param {Element} element @param {string} name @param {string} value */
function put(element, name, value) {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

/** Where the numbers stand: beside their handle, or else in a corner, so that they cover no handle.
 * @param {{id: string, x: number, y: number}[]} spots @param {string} own @param {DOMRect} box @param {number} wide @param {number} high */
function clearOf(spots, own, box, wide, high) {
  const at = spots.find((one) => one.id === own) ?? { x: 0, y: 0 };
  const [most, low] = [Math.max(0, box.width - wide), Math.max(0, box.height - high)];
  const sides = [at.x + 1.5 * GRIP, at.x - wide - 1.5 * GRIP].filter((left) => left >= 0 && left <= most);
  const places = [...sides.map((left) => [left, Math.max(0, Math.min(low, at.y - high / 2))]), [most, low], [0, 0], [most, 0], [0, low]];
  const covered = ([left, top]) => spots.filter((one) => one.x > left - GRIP && one.x < left + wide + GRIP &&
    one.y > top - GRIP && one.y < top + high + GRIP).length;
  return places.reduce((best, one) => (covered(one) < covered(best) ? one : best));
}

/** Joints first, so that points of the form lie over them. @param {Handle[]} all */
function inOrder(all) {
  return [...all.filter((one) => one.id.startsWith("joint")), ...all.filter((one) => !one.id.startsWith("joint"))];
}

/** A way of several is named by what it changes. @param {Way} way */
function shortly({ label }) {
  const words = label.slice(label.indexOf(": ") + 1).trim();
  return words[0].toUpperCase() + words.slice(1);
}

/** @param {string} unit */
function coarse(unit) {
  return unit === "in" ? 25.4 / 32 : 1;
}

/** To the nearest half millimetre, or 1/32 in. @param {number} mm @param {string} unit */
function rounded(mm, unit) {
  const fine = unit === "in" ? 25.4 / 32 : 0.5;
  return Math.round(mm / fine) * fine;
}
