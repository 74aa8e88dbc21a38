// The jigs, each with its drawing and its file to take away.

import { download } from "./api.js";
import { make } from "./dom.js";
import { fetchPictures, pictureButton } from "./pictures.js";

/** @typedef {import("./contract.js").Jig} Jig */
/** @type {[string, string, string][]} process, heading, button */
const KINDS = [
  ["print", "To print", "Save all to print"],
  ["cut", "To cut from sheet", "Save all to cut"],
  ["turn", "To turn", "Save all to turn"],
  ["paper", "To saw out by a paper pattern", "Save all patterns"],
];

export function jigsPane() {
  const wrong = make("p", { class: "fault", role: "alert" });
  const list = make("div");
  const root = make("section", { "aria-label": "Jigs" }, wrong, list);
  let shown = "";

  /** @param {string} wanted */
  const take = async (wanted) => {
    wrong.textContent = "";
    try {
      await download(wanted);
    } catch (error) {
      wrong.textContent = /** @type {Error} */ (error).message;
    }
  };

  /** @param {import("./store.js").View} view */
  return ({ state }) => {
    void fetchPictures(state);
    const { jigs, state: now } = state.slow;
    const key = jigs.length ? JSON.stringify(jigs) : now === "working" ? shown : now;
    root.classList.toggle("stale", now === "working");
    if (key !== shown) {
      wrong.textContent = "";
      list.replaceChildren(...(jigs.length ? kinds(jigs, take) : [waits()]));
    } else if (!list.childNodes.length) {
      list.replaceChildren(make("p", { class: "quiet" }, "Drawing the jigs …"));
    }
    shown = key;
    return [root];
  };
}

function waits() {
  return make("p", { class: "quiet" }, "No jigs yet: see Check for what is wrong.");
}

/** @param {Jig[]} jigs @param {(wanted: string) => void} take */
function kinds(jigs, take) {
  const made = KINDS.map(([process, head, all]) => ({ own: jigs.filter((one) => one.process === process), process, head, all }));
  return [
    make("p", { class: "line" }, `${jigs.length} jigs. `, make("button", { type: "button", click: () => take("all") }, "Save all jigs")),
    ...made.filter(({ own }) => own.length).map(({ own, process, head, all }) =>
      make("details", { open: true, class: "kind" }, make("summary", {}, `${head}: ${counted(own)}`),
        make("button", { type: "button", click: () => take(process) }, all),
        make("ul", { class: "cards" }, ...own.map((one) => card(one, take))))),
  ];
}

/** @param {Jig[]} own */
function counted(own) {
  const hours = own.reduce((sum, one) => sum + (one.hours ?? 0), 0);
  const pieces = own.reduce((sum, one) => sum + one.quantity, 0);
  return `${own.length} jigs, ${pieces} pieces${hours ? `, about ${hoursText(hours)} on the printer` : ""}`;
}

/** @param {number} hours */
function hoursText(hours) {
  return hours < 1 ? `${Math.max(5, Math.round(hours * 12) * 5)} min` : `${hours < 10 ? hours.toFixed(1) : Math.round(hours)} h`;
}

/** @param {Jig} one @param {(wanted: string) => void} take */
function card(one, take) {
  const what = `${one.code}, ${one.name.replace(/-/g, " ")}`;
  const facts = [`${one.quantity} × ${one.material}`, ...(one.hours ? [`about ${hoursText(one.hours)}`] : [])];
  return make("li", { class: "card" }, pictureButton(`part.${one.name}`, what, "thumb", `drawing.${one.name}`),
    make("div", {}, make("p", {}, make("b", {}, one.code), ` ${one.name.replace(/-/g, " ")}`), make("p", {}, one.purpose),
      make("p", { class: "quiet" }, facts.join(", ")),
      make("button", { type: "button", "aria-label": `Save the file of ${what}`, click: () => take(one.code) }, "Save the file")));
}
