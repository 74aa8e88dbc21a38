// Making elements: text is only ever text.

/** @param {string} tag @param {Record<string, unknown>} [attributes] @param {...(Node|string)} children */
export function make(tag, attributes = {}, ...children) {
  return filled(document.createElement(tag), attributes, children);
}

/** @param {string} tag @param {Record<string, unknown>} [attributes] @param {...(Node|string)} children */
export function svg(tag, attributes = {}, ...children) {
  return filled(document.createElementNS("http://www.w3.org/2000/svg", tag), attributes, children);
}

/** @template {Element} E @param {E} element @param {Record<string, unknown>} attributes @param {(Node|string)[]} children */
function filled(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(name, /** @type {EventListener} */ (value));
    else if (value !== false && value !== undefined) element.setAttribute(name, value === true ? "" : String(value));
  }
  element.append(...children);
  return element;
}
