// @ts-check
// The one place that talks to the program. A message is a verb and what goes with it; an
// answer is an object. Another program behind the same page has this module to replace:
// call, news and product are all that the page knows of it.

/**
 * @typedef {{ok: boolean, said?: string, view?: any, problems?: Problem[], asks?: any,
 *   busy?: {job: number, what: string}, kept?: {where: string, wrong: string}, left?: any[],
 *   again?: string, no_file?: boolean, edition?: number, saved?: boolean, wrote?: any,
 *   offers?: any[], files?: string[], colours?: any[], gone?: "ended" | "anew"}} Answer
 * @typedef {{what: string, hint?: string, key?: string}} Problem
 */

// LOOKING are the verbs that change nothing and bring nothing along.
const LOOKING = new Set(["view", "lists", "status", "files"]);

/**
 * call sends one message. It always answers; where the program can't be reached the
 * answer says so.
 * @param {string} verb @param {object} [body] @returns {Promise<Answer>}
 */
export async function call(verb, body) {
  if (LOOKING.has(verb)) return ask(verb);
  return ask(verb, { method: "POST", headers: { "Content-Type": "application/json" },
    body: JSON.stringify(body || {}) });
}

/** news waits until there is another edition than the one shown, or it is saved where the
 *  one shown is not, or a while. @param {{edition: number, saved: boolean}} shown
 *  @returns {Promise<Answer>} */
export const news = ({ edition, saved }) => ask("wait?edition=" + edition + "&saved=" + saved);

/** product is where a file of the plan is to be had, as it would be written now:
 *  "plan.svg", "packet.html", or all of them as "NAME.zip".
 *  @param {string} name @param {boolean} [save] as a file */
export const product = (name, save) =>
  "file?name=" + encodeURIComponent(name) + (save ? "&save" : "");

/** @param {string} path @param {RequestInit} [how] @returns {Promise<Answer>} */
async function ask(path, how) {
  try {
    const r = await fetch(path, how);
    const kind = r.headers.get("Content-Type") || "";
    if (kind.startsWith("application/json")) return { ...await r.json(), ok: r.ok };
    const why = (await r.text()).trim();
    if (why === "there is no such page") return { ok: false, gone: "anew" };
    return { ok: false, problems: [{ what: "the program did not take that", hint: why }] };
  } catch (e) {
    return { ok: false, gone: "ended" };
  }
}
