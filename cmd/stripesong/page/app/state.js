// @ts-check
// What is shown and how it is looked at. The program's view is the truth; what is in the
// hand is laid over it until the program has answered.

/** @typedef {import("./threads.js").Cloth} Cloth */

export const WARP = -1, WEFT = -2;

/** selection: a strip, and a run of it or null for the whole of it; via is the piece
 *  through which a stripe of the warp was reached, over that it was in the strip over the
 *  pieces. null is nothing.
 *  @typedef {{strip: number, run: number | null, via: number, over?: boolean}} Selection */

export const state = {
  /** @type {any} */ view: null,
  /** @type {any} */ lists: null,
  kept: { where: "", wrong: "" },
  noFile: false, // there is none that saving writes to
  /** @type {any[]} */ left: [],
  again: "",

  /** @type {Selection | null} */ selected: null,
  colour: -1, // whose card is shown; -1 for none
  hand: -1, // the yarn in the hand; -1 for none
  edges: false, // handles are asked for
  choosing: 0, // how often something else was chosen

  eyes: 0,
  metres: 0, // 0 is as it is
  back: false,
  /** @type {Set<number>} */ turned: new Set(), // pieces that are turned otherwise
  dark: false,

  /** @type {any} */ preview: null, // an offer that is looked at
  /** @type {{what: string, cloth: Cloth} | null} */ beside: null, // held against it
  /** @type {{what: string, cloth: Cloth} | null} */ against: null, // in place of the view
  divider: 0.5,
  offersOf: -9, // the strip that the tray's offers are of; -9 for none
};

/** @type {Set<(cloth: Cloth) => Cloth>} */
const guesses = new Set();

/** @type {(() => void)[]} */
const listeners = [];

/** watch calls when anything is another. @param {() => void} f */
export const watch = f => { listeners.push(f); };

/** @type {Cloth | null} */
let laid = null;

/** changed tells all who watch. */
export function changed() {
  laid = null;
  for (const f of listeners) f();
}

/** guess lays something over the view until it is taken away again.
 *  @param {(cloth: Cloth) => Cloth} change @returns {() => void} takes it away */
export function guess(change) {
  guesses.add(change);
  laid = null;
  return () => { guesses.delete(change); laid = null; };
}

/** cloth is what is to be drawn: the view with what is in the hand, or a preview.
 *  @returns {Cloth} */
export function cloth() {
  if (state.preview) return state.preview;
  if (state.against) return state.against.cloth;
  if (!laid) {
    laid = state.view;
    for (const change of guesses) laid = change(/** @type {Cloth} */ (laid));
  }
  return /** @type {Cloth} */ (laid);
}

/** whole is another version as a cloth: what its sketch does not say is as it is now.
 *  @param {any} sketch @returns {Cloth} */
export function whole(sketch) {
  const { view } = state;
  return { tables: sketch.tables || view.tables, warp: sketch.warp || view.warp,
    shows: sketch.shows,
    pieces: sketch.pieces.map((/** @type {any} */ p, /** @type {number} */ i) =>
      p || view.pieces[i]) };
}

/** runsOf are the runs of a strip. @param {Cloth} of @param {number} strip */
export const runsOf = (of, strip) => strip === WARP ? of.warp.runs : of.pieces[strip].runs;

/** withRuns is a cloth with other runs of one strip. @param {Cloth} of
 *  @param {number} strip @param {(runs: any[]) => any[]} change @returns {Cloth} */
export function withRuns(of, strip, change) {
  if (strip === WARP) return { ...of, warp: { ...of.warp, runs: change(of.warp.runs) } };
  if (!of.pieces[strip]) return of;
  const pieces = of.pieces.map((p, i) => i === strip ? { ...p, runs: change(p.runs) } : p);
  return { ...of, pieces };
}

/** label names a run in words. @param {any[]} run */
export const label = ([block, units, colour]) => block
  ? block + " " + units + " " + (state.view.colours[colour] || {}).name : "plain " + units;

/** nameOf is what a strip is called. @param {number} strip */
export const nameOf = strip => strip === WARP ? "the warp" : strip === WEFT
  ? "what all pieces start from" : strip + 1 + "  " + state.view.pieces[strip].name;

/** shownBack tells which side of a piece is up. @param {number} piece */
export const shownBack = piece => state.back !== state.turned.has(piece);

const REMEMBERED = ["selected", "eyes", "metres", "back", "dark"];

/** remember keeps how one looks through a reload; what one made the program keeps. */
export function remember() {
  const kept = Object.fromEntries(REMEMBERED.map(k => [k, /** @type {any} */ (state)[k]]));
  try { sessionStorage.setItem("look", JSON.stringify(kept)); } catch (e) { /* forgotten */ }
}

export function recall() {
  try {
    Object.assign(state, JSON.parse(sessionStorage.getItem("look") || "{}"));
  } catch (e) { /* as new */ }
}
