// One step of the work as a card.

import { make } from "./dom.js";
import { pictureButton } from "./pictures.js";
import { note, told } from "./store.js";

/** @typedef {import("./contract.js").Step} Step */
/** @typedef {import("./contract.js").State} State */
/** @typedef {{root: HTMLElement, key: string, follow: (state: State) => void, tick: () => void}} Card */

const UNITS = { mm: "Lengths in mm, angles in degrees.", in: "Lengths in inches, such as 0.031 or 1/32; angles in degrees." };

/** Whether a step is done, as this browser keeps it. @param {string} job @param {string} step */
export function kept(job, step) {
  try {
    return localStorage.getItem(`jigs:${job}:${step}:done`) === "1";
  } catch {
    return false;
  }
}

/** @param {string} job @param {string} step @param {boolean} done */
function keep(job, step, done) {
  try {
    if (done) localStorage.setItem(`jigs:${job}:${step}:done`, "1");
    else localStorage.removeItem(`jigs:${job}:${step}:done`);
  } catch { /* a browser that keeps nothing still shows the work */ }
}

/** @param {string} job @param {Step} step @param {string} key @param {string} unit @param {() => void} ticked @returns {Card} */
export function stepCard(job, step, key, unit, ticked) {
  const box = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", "aria-label": `Done: step ${step.number}`,
    change: () => { keep(job, step.id, box.checked); tick(); ticked(); } }));
  const head = make("div", { class: "head" }, make("span", { class: "quiet" }, `${step.number} · ${step.place}`),
    make("label", {}, box, " Done"));
  const boxes = step.readings.map((one) => readingOf(job, step, one));
  const root = make("article", { class: "step", "data-step": step.id, "aria-label": `Step ${step.number}` }, head, make("h3", {}, step.does),
    ...words(step), ...(boxes.length ? [make("h4", {}, "Write down ", make("span", { class: "key" }, `[${step.id}]`)), make("p", { class: "quiet" }, UNITS[unit === "in" ? "in" : "mm"]), ...boxes.map((one) => one.root)] : []));
  function tick() {
    box.checked = kept(job, step.id);
    root.classList.toggle("done", box.checked);
  }
  tick();
  return { root, key, tick, follow: (state) => boxes.forEach((one) => one.follow(state)) };
}

/** @param {Step} step @returns {(Node|string)[]} */
function words(step) {
  const cautions = [...step.cautions, ...(step.reminder ? [step.reminder] : [])];
  return [
    step.made.length ? make("p", { class: "quiet" }, step.made.join(" · ")) : "",
    lines(step.settings, "set"),
    cautions.length ? make("ul", { class: "caution", "aria-label": "Caution" }, ...cautions.map((text) => make("li", {}, text))) : "",
    step.picture ? pictureButton(step.picture, `step ${step.number}, ${step.does}`, "wide") : "",
    ...jigs(step),
    ...(step.trial ? [make("h4", {}, "Try first"), make("p", {}, step.trial)] : []),
    ...(step.how.length ? [make("h4", {}, "How"), make("ol", {}, ...step.how.map((text) => make("li", {}, text)))] : []),
    ...(step.known.length ? [make("h4", {}, "To judge by"), lines(step.known, "")] : []),
    ...step.checks.flatMap((one) => [make("h4", {}, "Check"), make("p", {}, one.how), lines(one.sizes, ""),
      one.if_not ? make("p", {}, make("b", {}, "If not: "), one.if_not) : ""]),
  ];
}

/** @param {import("./contract.js").Line[]} rows @param {string} kind */
function lines(rows, kind) {
  if (!rows.length) return "";
  return make("dl", { class: kind }, ...rows.map((row) => make("div", {}, make("dt", {}, row.label), make("dd", {}, row.value))));
}

/** @param {Step} step */
function jigs(step) {
  if (!step.jigs.length) return [];
  return [make("h4", {}, "Jigs"), make("ul", { class: "jigs" }, ...step.jigs.map((one) => make("li", {},
    one.picture ? pictureButton(one.picture, `${one.code}, ${one.name}`, "thumb", `drawing.${one.name}`) : "",
    make("div", {}, make("b", {}, one.code), ` ${one.name.replace(/-/g, " ")}${one.count > 1 ? ` × ${one.count}` : ""}`,
      one.for_what ? make("p", {}, one.for_what) : "", ...one.notes.map((text) => make("p", { class: "quiet" }, text))))))];
}

/** @typedef {{root: HTMLElement, count: number, relabel: (step: Step, box: import("./contract.js").Box) => void, follow: (state: State) => void}} Reading */
/** @type {Map<string, Reading>} they outlive their card, which is made anew when a reading changes its numbers */
const readings = new Map();

/** @param {string} job @param {Step} step @param {import("./contract.js").Box} box */
function readingOf(job, step, box) {
  const key = `${job}:${step.id}.${box.id}`;
  const had = readings.get(key);
  const one = had?.count === box.count ? had : reading(step, box);
  readings.set(key, one);
  one.relabel(step, box);
  return one;
}

/** @param {Step} step @param {import("./contract.js").Box} box @returns {Reading} */
function reading(step, box) {
  const id = `${step.id}.${box.id}`;
  const said = make("div", { class: "said", role: "status" });
  const inputs = Array.from({ length: box.count }, () => /** @type {HTMLInputElement} */ (make("input", { type: "text",
    inputmode: "decimal", autocomplete: "off", change: () => void save() })));
  const legend = make("legend");
  const root = make("fieldset", { class: "reading", "data-reading": box.id }, legend, make("div", { class: "boxes" }, ...inputs), said);
  /** @param {Step} at @param {import("./contract.js").Box} now */
  const relabel = (at, now) => {
    legend.replaceChildren(now.label, now.planned ? make("span", { class: "quiet" }, ` planned ${now.planned}`) : "", " ",
      make("span", { class: "key" }, now.id));
    inputs.forEach((input, k) => input.setAttribute("aria-label",
      `${now.label}${now.count > 1 ? `, ${k + 1} of ${now.count}` : ""}, step ${at.number}`));
  };
  /** @type {Set<string>|null} what was said before the reading that is being looked at */
  let before = null;
  /** @type {State|null} */
  let last = null;

  async function save() {
    const advice = last?.slow.measured?.advice ?? [];
    before = new Set(advice.map((one) => JSON.stringify(one)));
    said.className = "said";
    said.replaceChildren(make("p", {}, "Written down. Working out what follows …"));
    try {
      await note(id, inputs.map((one) => one.value));
    } catch (error) {
      before = null;
      said.className = "said fault";
      said.replaceChildren(make("p", {}, told(/** @type {any} */ (error))));
    }
  }

  /** @param {State} state */
  function answer(state) {
    if (!before || state.slow.state === "working") return;
    const known = before;
    before = null;
    const fresh = (state.slow.measured?.advice ?? []).filter((one) => !known.has(JSON.stringify(one)));
    const none = state.slow.state === "done" ? "Written down. Nothing else to do." : "Written down. With this reading the job cannot be made: see Check.";
    said.replaceChildren(...(fresh.length ? fresh.flatMap((one) => [make("p", {}, make("b", {}, one.head)),
      ...one.says.map((text) => make("p", {}, text))]) : [make("p", {}, none)]));
  }

  /** @param {State} state */
  function follow(state) {
    last = state;
    answer(state);
    const held = state.readings[id] ?? [];
    inputs.forEach((input, k) => {
      const value = held[k] ?? "";
      if (input.dataset.held === value) return;
      if (input === document.activeElement && input.value !== (input.dataset.held ?? "")) return;
      input.dataset.held = input.value = value;
    });
  }
  return { root, count: box.count, relabel, follow };
}
