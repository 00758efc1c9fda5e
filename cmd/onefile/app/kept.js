// @ts-check
// What is not saved is kept in the browser until it is saved or thrown away, and what was
// saved last stays as a copy, since a page does not see the file again. Each brief that is
// opened has a place of its own, so that two windows keep apart what they hold.

const PREFIX = "stripesong unsaved ", PAGE = "stripesong page ", LEFT = "stripesong left";

/** @typedef {{name: string, text: string, base: string, when: string, at?: number,
 *   page?: string, fromFile?: boolean, saved?: boolean}} Kept
 * @typedef {Kept & {id: number, place: string}} Left */

const page = crypto.randomUUID(); // this page, as long as it is open

/** arrive makes it known that this page is open: it holds a lock that the browser takes
 *  away when the page ends, however it ends. */
export function arrive() {
  navigator.locks?.request(PAGE + page, () => new Promise(() => {})).catch(() => {});
  gone = sessionStorage.getItem(LEFT) || "";
  sessionStorage.removeItem(LEFT);
  addEventListener("pagehide", () => sessionStorage.setItem(LEFT, page));
  addEventListener("pageshow", e => { if (e.persisted) location.reload(); });
}

let gone = ""; // the page before this one in the same tab

/** others are the pages that are open elsewhere. @returns {Promise<Set<string>>} */
async function others() {
  try {
    const { held = [] } = await navigator.locks.query();
    const names = held.map(l => (l.name || "").slice(PAGE.length));
    return new Set(names.filter(n => n !== page && n !== gone));
  } catch (e) {
    return new Set(); // a browser that does not tell
  }
}

export class Keeper {
  /** @param {string} name of the brief @param {boolean} fromFile */
  constructor(name, fromFile) {
    this.name = name;
    this.fromFile = fromFile;
    this.place = PREFIX + crypto.randomUUID();
    this.unsaved = false;
    /** what was saved last; null for nothing yet. @type {string | null} */
    this.saved = null;
  }

  /** keep keeps a text, or with null what was saved last; it says where. @param {string |
   *  null} text @param {string} base what the text was begun with */
  keep(text, base) {
    this.unsaved = text !== null;
    if (text !== null) this.put({ text, base });
    else if (this.saved !== null) this.put({ text: this.saved, base: this.saved, saved: true });
    else localStorage.removeItem(this.place);
    return "this browser";
  }

  /** @param {{text: string, base: string, saved?: boolean}} what */
  put(what) {
    const now = new Date(), { name, fromFile } = this;
    localStorage.setItem(this.place, JSON.stringify({ name, fromFile, page, ...what,
      when: now.toLocaleString(), at: now.getTime() }));
  }
}

/** left is what earlier pages left, and this one before it opened another brief: all that
 *  is not saved, and of what was saved the latest. What a page holds that is still open is
 *  its own. @param {{text: string}} open @param {Keeper} own @returns {Promise<Left[]>} */
export async function left(open, own) {
  const elsewhere = await others(), all = [], saved = [];
  for (const place of places()) {
    const kept = parsed(localStorage.getItem(place));
    if (!kept || place === own.place || elsewhere.has(kept.page || "")) continue;
    (kept.saved ? saved : all).push({ ...kept, place });
  }
  const latest = (/** @type {Kept} */ a, /** @type {Kept} */ b) => (b.at || 0) - (a.at || 0);
  saved.sort(latest).slice(1).forEach(k => localStorage.removeItem(k.place));
  return [...all.sort(latest), ...saved.slice(0, 1).filter(k => k.text !== open.text)].map((k, i) =>
    ({ ...k, id: i + 1 }));
}

const places = () => Object.keys(localStorage).filter(k => k.startsWith(PREFIX)).sort();

/** @param {string | null} text @returns {Kept | null} */
function parsed(text) {
  try {
    const kept = JSON.parse(text || "");
    return typeof kept.text === "string" && typeof kept.base === "string" ? kept : null;
  } catch (e) {
    return null;
  }
}
