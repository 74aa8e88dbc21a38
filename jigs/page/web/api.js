// Asking the server. The token came behind # in the address, and goes into a header that no other site can send.

const FROZEN = 45_000; // ms; none waits so long: a question for news is answered after 20 s, if only that there are none
const KEPT = "page-token";

/** What the server would not do, or that it does not answer (`status` 0). */
export class NotDone extends Error {
  /** @param {number} status @param {string} message @param {import("./contract.js").Said[]} findings */
  constructor(status, message, findings = []) {
    super(message);
    this.status = status;
    this.findings = findings;
  }
}

/** The token of this start, kept for when the page is loaded again; it leaves the address. */
function token() {
  const given = location.hash.slice(1);
  if (given) {
    sessionStorage.setItem(KEPT, given);
    history.replaceState(null, "", location.pathname);
  }
  return sessionStorage.getItem(KEPT) ?? "";
}

const TOKEN = token();

/** @param {string} path @param {RequestInit} [more] @returns {Promise<Response>} */
async function ask(path, more = {}) {
  let answer;
  try {
    answer = await fetch(`/api/${path}`, { signal: AbortSignal.timeout(FROZEN), ...more, headers: { "page-token": TOKEN, ...more.headers } });
  } catch {
    throw new NotDone(0, "The server does not answer.");
  }
  if (answer.ok) return answer;
  const told = await answer.json().catch(() => ({}));
  throw new NotDone(answer.status, told.error ?? `The server answers ${answer.status}.`, told.findings);
}

/** @param {string} name @param {object} body @returns {Promise<any>} */
export async function post(name, body) {
  const headers = { "content-type": "application/json" };
  return (await ask(name, { method: "POST", headers, body: JSON.stringify(body) })).json();
}

/** The state, or one newer than a tick; null when there is none for a while.
 * @param {number} [after] @returns {Promise<import("./contract.js").State|null>} */
export async function news(after) {
  const answer = await ask(after === undefined ? "state" : `state?after=${after}`);
  return answer.status === 204 ? null : answer.json();
}

/** What is too large to come with every state. @param {string} name @returns {Promise<any>} */
export async function piece(name) {
  return (await ask(`pieces/${name}`)).json();
}

/** Let the browser keep a file: a jig's by its code, all of a process, or "all". @param {string} wanted */
export async function download(wanted) {
  const answer = await ask(`files/${encodeURIComponent(wanted)}`, { signal: null }); // many take long
  const name = /filename="([^"]+)"/.exec(answer.headers.get("content-disposition") ?? "")?.[1] ?? wanted;
  const link = document.createElement("a");
  link.href = URL.createObjectURL(await answer.blob());
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** A picture by the server, for where the browser draws no 3D. @returns {Promise<Blob>} */
export async function picture() {
  return (await ask("picture")).blob();
}
