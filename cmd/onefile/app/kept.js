// @ts-check
// What is not saved is kept in the browser, under the name of its brief, until it is saved
// or thrown away. Each start of the page has a place of its own, so that two windows keep
// apart what they hold.

const PREFIX = "stripesong unsaved ";

/** @typedef {{name: string, text: string, base: string, when: string}} Kept */

export class Keeper {
  /** @param {string} name of the brief */
  constructor(name) {
    this.name = name;
    this.place = PREFIX + crypto.randomUUID();
  }

  /** keep keeps a text, or with null nothing any more; it says where. @param {string | null}
   *  text @param {string} base what the text was begun with */
  keep(text, base) {
    if (text === null) localStorage.removeItem(this.place);
    else {
      const kept = { name: this.name, text, base, when: new Date().toLocaleString() };
      localStorage.setItem(this.place, JSON.stringify(kept));
    }
    return "this browser";
  }
}

/** left is what earlier pages of a brief left, with numbers to speak of them.
 *  @param {string} name */
export function left(name) {
  const all = [];
  for (const place of places()) {
    const kept = parsed(localStorage.getItem(place));
    if (!kept || kept.name !== name) continue;
    all.push({ id: all.length + 1, place, text: kept.text, base: kept.base,
      says: "left unsaved on " + kept.when + ", kept in this browser" });
  }
  return all;
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
