// The job's values as fields: typed as in the job file, in mm or in fractions of an inch.

import { make } from "./dom.js";
import { pointsTable } from "./points.js";
import { change, told } from "./store.js";

/** @typedef {import("./contract.js").Field} Field */

const NONE = "Nothing to fill in until the job file can be read: see Check.";

/** One group of fields, made once for each set of keys; values then follow the job.
 * @param {string} group */
export function fieldsPane(group) {
  /** @type {Map<string, {input: HTMLInputElement|HTMLSelectElement, wrong: HTMLElement}>} */
  const inputs = new Map();
  let keys = "";
  const root = make("div", { class: "fields" });

  /** @param {import("./store.js").View} view */
  return ({ state }) => {
    const fields = state.fields.filter((one) => one.group === group);
    const now = fields.map((one) => (one.kind === "points" ? `${one.key}${one.text ? " listed" : ""}` : one.key)).join();
    if (now !== keys) {
      keys = now;
      inputs.clear();
      root.replaceChildren(...(fields.length ? sections(fields, inputs) : [make("p", { class: "quiet" }, NONE)]));
    }
    for (const field of fields) follow(field, inputs.get(field.key));
    return [root];
  };
}

/** By section of the file, its stated keys first. @param {Field[]} fields @param {Map<string, any>} inputs */
function sections(fields, inputs) {
  const names = [...new Set(fields.map((one) => one.key.split(".").slice(0, -1).join(".")))];
  return names.map((name) => {
    const own = fields.filter((one) => one.key.split(".").slice(0, -1).join(".") === name);
    const stated = own.filter((one) => one.text);
    const more = own.filter((one) => !one.text);
    const head = name ? name[0].toUpperCase() + name.slice(1).replace(/_/g, " ") : "The job";
    return make("fieldset", {}, make("legend", {}, head), ...stated.map((one) => row(one, inputs)),
      more.length ? make("details", {}, make("summary", {}, `${stated.length ? "More" : "Usual values"} (${more.length})`),
        ...more.map((one) => row(one, inputs))) : "");
  });
}

/** @param {Field} field @param {Map<string, any>} inputs */
function row(field, inputs) {
  if (field.kind === "points" && field.text) return table(field, inputs);
  const [id, help, wrong] = [`field-${field.key}`, `help-${field.key}`, make("p", { class: "fault", role: "alert" })];
  const input = field.kind === "choice" || field.kind === "flag" ? chooser(field) : make("input", { type: "text",
    inputmode: field.kind === "count" ? "numeric" : "text", autocomplete: "off", spellcheck: "false" });
  input.id = id;
  input.setAttribute("aria-describedby", help);
  const write = () => { delete input.dataset.typing; void send(field.key, /** @type {any} */ (input), /** @type {any} */ (wrong)); };
  input.addEventListener("input", () => { input.dataset.typing = "yes"; });
  input.addEventListener("blur", () => { // typed, and put back as it was: nothing is sent
    if (!input.dataset.typing) return;
    delete input.dataset.typing;
    /** @type {any} */ (input).value = input.dataset.job ?? "";
    wrong.textContent = "";
  });
  input.addEventListener("change", write);
  input.addEventListener("keydown", (event) => { // once more, as it stands: the server may have been away
    if (/** @type {KeyboardEvent} */ (event).key === "Enter" && input.dataset.kept === "no" && input.dataset.sent === /** @type {any} */ (input).value) write();
  });
  inputs.set(field.key, { input, wrong });
  return make("div", { class: "row" }, make("label", { for: id }, field.label), input,
    make("p", { class: "help", id: help }, field.help), wrong);
}

/** @param {Field} field @param {Map<string, any>} inputs */
function table(field, inputs) {
  const wrong = make("p", { class: "fault", role: "alert" });
  const points = pointsTable(field, async (text) => {
    wrong.textContent = "";
    await change([{ key: field.key, text }]).catch((error) => { wrong.textContent = told(error); });
  });
  inputs.set(field.key, { points, wrong });
  return make("div", {}, points.root, make("p", { class: "quiet" }, field.help), wrong);
}

/** @param {Field} field */
function chooser(field) {
  const choices = field.kind === "flag" ? ["true", "false"] : field.choices;
  return make("select", {}, make("option", { value: "" }, `usual: ${field.without}`),
    ...choices.map((one) => make("option", { value: one }, { true: "yes", false: "no" }[one] ?? one)));
}

/** @param {string} key @param {HTMLInputElement} input @param {HTMLElement} wrong */
async function send(key, input, wrong) {
  wrong.textContent = "";
  Object.assign(input.dataset, { kept: "no", sent: input.value });
  try {
    await change([{ key, text: input.value }]);
    delete input.dataset.kept;
  } catch (error) {
    wrong.textContent = told(/** @type {any} */ (error));
  }
}

/** A field whose value was not taken is left alone until the job's own value changes; one in which somebody types,
 * until they leave it.
 * @param {Field} field @param {any} made */
function follow(field, made) {
  if (!made) return;
  if (made.points) return made.points.follow(field.text);
  const { input, wrong } = made;
  if ("placeholder" in input) input.placeholder = field.without;
  if (input === document.activeElement && input.dataset.typing) {
    if ((input.dataset.job ?? "") !== field.text) wrong.textContent = `The file now has ${field.text || "no value"} here. Press Enter to write yours over it.`;
    input.dataset.job = field.text;
    return;
  }
  if (input.dataset.job === field.text && (input === document.activeElement || input.dataset.kept === "no")) return;
  if (input.dataset.job !== field.text) wrong.textContent = "";
  input.dataset.job = field.text;
  delete input.dataset.kept;
  if (input.value !== field.text) input.value = field.text;
}
