// @ts-check
// What she does, as operations of the program, and what they will look like.

import { WARP, changed, cloth, runsOf, state, withRuns } from "./state.js";
import { send } from "./work.js";

/** @typedef {import("./work.js").How} How */

let gestures = 0;

/** newGesture names what is to be one step. */
export const newGesture = () => "g" + ++gestures + "-" + Math.floor(performance.now());

/** op carries out an operation. @param {any} fields @param {How} [how] */
export const op = (fields, how = {}) =>
  send("do", { op: { strip: strip(), ...fields, gesture: how.gesture || "" } }, how);

const strip = () => state.selected ? state.selected.strip : WARP;

/** edgeTo moves the edge after a run so that it has so many units; it stops at its
 *  neighbours. @param {number} of @param {number} run @param {number} units
 *  @param {How} how */
export function edgeTo(of, run, units, how) {
  const set = (/** @type {any[]} */ runs) => {
    const a = runs[run], b = runs[run + 1];
    if (!a || !b) return runs;
    const now = [...runs], both = a[1] + b[1], to = Math.min(Math.max(1, units), both - 1);
    now[run] = [a[0], to, a[2]];
    now[run + 1] = [b[0], both - to, b[2]];
    return now;
  };
  return send("do", (/** @type {any} */ view) => {
    const runs = runsOf(view, of), now = set(runs);
    if (!runs[run + 1] || now[run][1] === runs[run][1]) return null;
    return { op: { do: "edge", strip: of, run, to: now[run][1] - runs[run][1],
      gesture: how.gesture || "" } };
  }, { ...how, guess: c => withRuns(c, of, set) });
}

let burst = "", burstAt = "";

/** edgeOf is the edge that is moved for a run: the one after it, of the last run the one
 *  before it. @param {any[]} runs @param {number} run */
export const edgeOf = (runs, run) => run < runs.length - 1 ? run : run - 1;

/** nudge makes a run wider by units, or narrower, at its edge; presses at one edge with
 *  nothing between are one step. @param {number} of @param {number} run @param {number} by */
export function nudge(of, run, by) {
  const runs = runsOf(cloth(), of), edge = edgeOf(runs, run);
  if (edge < 0) return;
  if (burstAt !== of + " " + run) burst = newGesture();
  burstAt = of + " " + run;
  edgeTo(of, edge, runs[edge][1] + (edge === run ? by : -by), { gesture: burst });
}

/** recolour gives a run another yarn; plain runs have none. @param {number} of
 *  @param {number} run @param {number} colour */
export function recolour(of, run, colour) {
  const set = (/** @type {any[]} */ runs) => runs.map((r, i) =>
    i === run && r[0] ? [r[0], r[1], colour] : r);
  return send("do", { op: { do: "recolour", strip: of, run,
    colour: state.view.colours[colour].name } }, { guess: c => withRuns(c, of, set) });
}

/** divide makes two of a run, the second in the next colour, so that it is seen.
 *  @param {number} of @param {number} run */
export function divide(of, run) {
  const runs = runsOf(cloth(), of), own = runs[run][2];
  const used = [...new Set(runs.map(r => r[2]).filter(c => c >= 0))];
  const all = used.length > 1 ? used : state.view.colours.map((/** @type {any} */ _,
    /** @type {number} */ i) => i);
  const next = own < 0 ? "" : state.view.colours[all[(all.indexOf(own) + 1) % all.length]].name;
  return send("do", { op: { do: "split", strip: of, run, colour: next } });
}

/** hex gives a yarn another colour. @param {number} colour @param {string} value
 *  @param {How} how */
export const hex = (colour, value, how) =>
  send("do", { op: { do: "colour.hex", colour: state.view.colours[colour].name, value,
    gesture: how.gesture || "" } }, { ...how, guess: /^#([0-9a-f]{3}){1,2}$/i.test(value)
    ? c => ({ ...c, tables: { ...c.tables,
      hex: c.tables.hex.map((/** @type {string} */ h, /** @type {number} */ i) =>
        i === colour ? value : h) } }) : undefined });

/** move gives a piece another place. @param {number} piece @param {number} to */
export const move = (piece, to) => send("do", { op: { do: "piece.move", strip: piece, to } });

/** swap exchanges a run with the next, and stays with it. */
export async function swap() {
  const s = state.selected;
  if (!s || s.run === null) return;
  const { strip, run } = s, answer = await op({ do: "swap", run });
  const same = state.selected && state.selected.strip === strip && state.selected.run === run;
  if (answer.ok && same && run + 1 < runsOf(state.view, strip).length) {
    state.selected = { ...s, run: run + 1 };
    changed();
  }
}
