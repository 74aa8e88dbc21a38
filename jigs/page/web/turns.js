// Each ring turned on the one before by a rule: in line, as bricks, a spiral, a zigzag.

import { make } from "./dom.js";
import { change, told } from "./store.js";

const KEYS = { torus: "form.turn", vessel: "rings.turn" };
const USUAL = { torus: "Joints and woods in line", vessel: "Bricks: half a segment and back" };

/** The rule as the file has it. @param {string} text @param {number} usual by how many segments */
export function ruleOf(text, usual) {
  if (!text) return { rule: "usual", by: usual, run: 2 };
  const turns = /** @type {number[]} */ ([JSON.parse(text.replace(/,\s*]/, "]"))].flat());
  const up = turns.findIndex((one) => one !== turns[0]);
  if (up < 0) return turns[0] ? { rule: "spiral", by: turns[0], run: 2 } : { rule: "line", by: usual, run: 2 };
  const zigzag = turns.length === 2 * up && turns.every((one, k) => one === (k < up ? turns[0] : -turns[0]));
  return { rule: zigzag ? "zigzag" : "own", by: turns[0], run: up };
}

/** @param {{rule: string, by: number, run: number}} wanted @returns {number|number[]|null} as the file has it */
export function turnsOf({ rule, by, run }) {
  if (rule === "usual") return null;
  if (rule === "line") return 0;
  return rule === "spiral" ? by : [...Array(run).fill(by), ...Array(run).fill(-by)];
}

export function turnRow() {
  const wrong = make("p", { class: "fault", role: "alert" });
  const rule = /** @type {HTMLSelectElement} */ (make("select", { id: "turn-rule", change: write }));
  const [by, run] = [["turn-by", 0.25], ["turn-run", 1]].map(([id, step]) =>
    /** @type {HTMLInputElement} */ (make("input", { type: "number", id, step, change: write })));
  [run.min, run.max] = ["1", "1"];
  const rows = [["turn-by", "Turned by, in segments", by], ["turn-run", "Rings until it turns back", run]].map(([id, text, input]) =>
    make("div", { class: "row" }, make("label", { for: id }, text), input));
  const box = make("fieldset", {}, make("legend", {}, "Each ring turned on the one before"),
    make("div", { class: "row whole" }, make("label", { for: "turn-rule" }, "Pattern"), rule), ...rows, wrong);
  let kind = "torus";

  function write() {
    wrong.textContent = "";
    const wanted = { rule: rule.value, by: Number(by.value || by.step), run: Math.min(Number(run.max), Math.max(1, Math.round(Number(run.value)))) };
    shown(wanted);
    if (wanted.rule !== "own") {
      change([{ key: KEYS[kind], value: turnsOf(wanted) }]).catch((error) => { wrong.textContent = told(error); });
    }
  }

  /** @param {{rule: string, by: number, run: number}} now */
  function shown(now) {
    [by.value, run.value] = [String(now.by), String(now.run)];
    rows[0].hidden = !["spiral", "zigzag"].includes(now.rule);
    rows[1].hidden = now.rule !== "zigzag";
  }

  /** @param {import("./contract.js").State} state */
  return (state) => {
    const text = state.fields.find((one) => one.key === KEYS[state.kind])?.text ?? "";
    if (kind !== state.kind || !rule.options.length) {
      kind = state.kind;
      const rules = [["usual", USUAL[kind]], ...(kind === "vessel" ? [["line", "Joint over joint"]] : []), ["spiral", "Spiral"],
        ["zigzag", "Zigzag"], ["own", "As the job file lists it"]];
      rule.replaceChildren(...rules.map(([value, name]) => make("option", { value }, name)));
      by.step = kind === "torus" ? "1" : "0.25";
    }
    run.max = String(state.fast.drawing?.pattern.rings.length ?? run.max);
    const now = ruleOf(text, Number(by.step));
    if (box.dataset.job === text || box.contains(document.activeElement) && document.activeElement !== rule) return box;
    box.dataset.job = text;
    rule.value = now.rule;
    shown(now);
    return box;
  };
}
