// The work step by step, in the words of the shop book: boxes to tick, boxes for readings, and what these come to.

import { piece } from "./api.js";
import { make } from "./dom.js";
import { fetchPictures } from "./pictures.js";
import { kept, stepCard } from "./step-card.js";

/** @typedef {import("./contract.js").Steps} Steps */
/** @typedef {import("./contract.js").Step} Step */
/** @typedef {import("./contract.js").State} State */
/** @typedef {import("./step-card.js").Card} Card */

export function stepsPane() {
  const line = make("p", { class: "grow", role: "status" });
  const next = /** @type {HTMLButtonElement} */ (make("button", { type: "button", click: goOn }, "Go to the next step"));
  const ids = make("datalist", { id: "step-ids" });
  const find = /** @type {HTMLInputElement} */ (make("input", { type: "text", id: "find-step", list: "step-ids", autocomplete: "off",
    spellcheck: "false", size: 24, change: () => void show(find.value.trim()), keydown: again }));
  const missing = make("span", { class: "fault", role: "alert" });
  const search = make("div", { class: "line find" }, make("label", { for: "find-step" }, "Find a step or reading by its id"), find, ids, missing);
  const cautions = make("details", { class: "caution", open: true });
  const answers = make("section", { "aria-label": "What your readings say" });
  const list = make("div");
  const root = make("section", { "aria-label": "The work" }, make("div", { class: "line" }, line, next), search, answers, cautions, list);
  /** @type {Steps|null} */
  let steps = null;
  /** @type {Map<string, Card>} */
  const cards = new Map();
  /** @type {Map<string, HTMLElement>} */
  const chapters = new Map();
  let wanted = 0;
  let sought = "";
  let pending = ""; // to be shown once the steps are here
  let told = "";
  /** @type {State|null} */
  let last = null;

  /** Its steps are made when it is opened. @param {import("./contract.js").Chapter} chapter */
  function chapterOf(chapter) {
    const made = make("details", { class: "kind", toggle: () => fill(chapter.id) },
      make("summary", {}, make("h2", {}, chapter.title), make("span", { class: "quiet count" })), make("div"));
    chapters.set(chapter.id, made);
    return made;
  }

  /** @param {string} id */
  function fill(id) {
    const chapter = steps?.chapters.find((one) => one.id === id);
    const at = /** @type {HTMLDetailsElement|undefined} */ (chapters.get(id));
    if (!chapter || !at?.open || !steps || !last) return;
    const into = /** @type {HTMLElement} */ (at.lastElementChild);
    const focus = /** @type {HTMLElement|null} */ (into.contains(document.activeElement) ? document.activeElement : null);
    for (const step of chapter.steps) {
      const key = last.unit + JSON.stringify(step);
      const had = cards.get(step.id);
      if (had?.key === key) continue;
      const card = stepCard(steps.job, step, key, last.unit, tell);
      card.follow(last);
      if (had?.root.parentElement === into) had.root.replaceWith(card.root);
      else into.append(card.root);
      cards.set(step.id, card);
    }
    const own = new Set(chapter.steps.map((step) => step.id));
    for (const child of [...into.children]) if (!own.has(/** @type {HTMLElement} */ (child).dataset.step ?? "")) child.remove();
    chapter.steps.forEach((step, k) => {
      const card = /** @type {Card} */ (cards.get(step.id)).root;
      if (into.children[k] !== card) into.insertBefore(card, into.children[k] ?? null);
    });
    if (focus?.isConnected) focus.focus({ preventScroll: true });
  }

  /** @param {Step} step */
  const done = (step) => steps !== null && kept(steps.job, step.id);

  function tell() {
    const all = steps?.chapters.flatMap((one) => one.steps) ?? [];
    const before = last?.slow.state === "refused" ? "These steps are of the job before; as it is now it cannot be made: see Check. " : "";
    line.textContent = all.length ? `${before}${all.filter(done).length} of ${all.length} steps done` : "";
    next.hidden = !all.some((step) => !done(step));
    for (const chapter of steps?.chapters ?? []) {
      const count = chapters.get(chapter.id)?.querySelector(".count");
      if (count) count.textContent = ` ${chapter.steps.filter(done).length} of ${chapter.steps.length} done`;
    }
  }

  /** The same id once more, which is no change. @param {KeyboardEvent} event */
  function again(event) {
    if (event.key !== "Enter" || find.value.trim() !== sought) return;
    event.preventDefault();
    show(sought);
  }

  function goOn() {
    const chapter = steps?.chapters.find((one) => one.steps.some((step) => !done(step)));
    const step = chapter?.steps.find((one) => !done(one));
    if (chapter && step) open(chapter, step)?.querySelector("input")?.focus({ preventScroll: true });
  }

  /** A step's card, in view. @param {import("./contract.js").Chapter} chapter @param {Step} step */
  function open(chapter, step) {
    /** @type {HTMLDetailsElement} */ (chapters.get(chapter.id)).open = true;
    fill(chapter.id);
    const card = cards.get(step.id)?.root;
    card?.scrollIntoView({ block: "start" });
    return card;
  }

  /** The step of an id, or that of a reading, with its box. @param {string} id */
  function show(id) {
    sought = id;
    pending = steps ? "" : id;
    if (!steps) return;
    const all = steps.chapters.flatMap((chapter) => chapter.steps.map((step) => ({ chapter, step })));
    const found = all.find(({ step }) => id === step.id || step.readings.some((one) => id === `${step.id}.${one.id}`));
    missing.textContent = found || !id ? "" : "No step or reading has this id.";
    if (!found) return;
    const card = open(found.chapter, found.step);
    const box = found.step.readings.find((one) => id === `${found.step.id}.${one.id}`);
    const input = /** @type {HTMLElement|null} */ (card?.querySelector(box ? `[data-reading="${box.id}"] input` : "input") ?? null);
    if (box) input?.scrollIntoView({ block: "center" });
    input?.focus({ preventScroll: true });
  }

  /** @param {Steps} fresh */
  function take(fresh) {
    const same = steps && steps.chapters.map((one) => one.id).join() === fresh.chapters.map((one) => one.id).join();
    steps = fresh;
    if (!same) {
      chapters.clear();
      cards.clear();
      list.replaceChildren(...fresh.chapters.map(chapterOf));
    }
    for (const chapter of fresh.chapters) fill(chapter.id);
    cautions.replaceChildren(make("summary", {}, "Before every step"), make("ul", {}, ...fresh.cautions.map((text) => make("li", {}, text))));
    ids.replaceChildren(...fresh.chapters.flatMap((one) => one.steps).flatMap((step) => [step.id, ...step.readings.map((one) =>
      `${step.id}.${one.id}`)]).map((id) => make("option", { value: id })));
    search.hidden = cautions.hidden = false;
    tell();
    if (pending) show(pending);
  }

  /** @param {State} state */
  async function fetchSteps(state) {
    const number = state.pieces.work ?? 0;
    if (!number || number === wanted) return;
    wanted = number;
    const fresh = await piece("work").catch(() => null);
    if (fresh && number === wanted) take(fresh);
  }

  window.addEventListener("storage", () => { // another tab has ticked
    for (const card of cards.values()) card.tick();
    tell();
  });

  /** @param {import("./store.js").View} view */
  return ({ state }) => {
    last = state;
    void fetchPictures(state);
    void fetchSteps(state);
    for (const card of cards.values()) card.follow(state);
    if (steps) tell();
    else line.textContent = state.slow.state === "working" ? "Working out the steps …" : "No steps yet: see Check for what is wrong.";
    next.hidden ||= !steps;
    search.hidden = cautions.hidden = !steps;
    root.classList.toggle("stale", state.slow.state !== "done");
    const key = JSON.stringify(state.slow.measured ?? null);
    if (key !== told && state.slow.state === "done") {
      told = key;
      answers.replaceChildren(...measuredLines(state.slow.measured));
    }
    return [root];
  };
}

/** @param {import("./contract.js").Measured|null} found */
function measuredLines(found) {
  if (!found || !(found.advice.length || found.wrong.length)) return [];
  const wrong = found.wrong.length ? [make("details", { class: "kind" }, make("summary", {}, `Jigs of the last make that are wrong now: ${found.wrong.length}`),
    make("p", {}, "Make all files again (under Jigs), then print and cut these anew."),
    make("ul", {}, ...found.wrong.map((text) => make("li", {}, text))))] : [];
  return [...(found.advice.length ? [make("h2", {}, "What your readings say")] : []), ...found.advice.map(adviceLines), ...wrong];
}

/** @param {import("./contract.js").Advice} one */
function adviceLines(one) {
  return make("div", { class: "answer" }, make("p", {}, make("b", {}, one.head)), ...one.says.map((text) => make("p", {}, text)));
}
