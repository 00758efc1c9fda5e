// @ts-check
// Where things lie in millimetres: stripes across a warp, bands up a piece.

/** @typedef {import("./threads.js").Cloth} Cloth */
/** @typedef {import("./threads.js").Strip} Strip */

/** endMM is from end to end. @param {Cloth} cloth */
export const endMM = cloth => cloth.tables.width_mm / cloth.tables.ends;

/** @type {WeakMap<object, number[][]>} */
const threaded = new WeakMap();

/** shaftsOf are the shafts of the ends of each stripe, left to right: unit by unit, and
 *  where the structure has a closing end, that end and all after it turned round; as
 *  package weave has it (Structure.Thread). @param {Cloth} cloth */
export function shaftsOf(cloth) {
  const { runs } = cloth.warp;
  let all = threaded.get(runs);
  if (!all) {
    const closing = cloth.tables.closing ? closingAt(runs) : runs.length;
    all = runs.map(([block, units], i) => {
      const unit = [...cloth.tables.threading[block]];
      const ends = Array.from({ length: units }, () => i > closing ? [...unit].reverse() : unit);
      return i === closing ? [...ends.flat(), unit[0]] : ends.flat();
    });
    threaded.set(runs, all);
  }
  return all;
}

/** closingAt is the stripe that has the closing end: the middle one of a mirrored warp, or
 *  the last one that belongs to its middle block, else the last of all. */
function closingAt(/** @type {import("./threads.js").Run[]} */ runs) {
  const mirrored = (/** @type {any[]} */ all) =>
    all.every((r, i) => r[0] === all[all.length - 1 - i][0] && r[1] === all[all.length - 1 - i][1]);
  if (mirrored(runs)) return runs.length - 1 >> 1;
  const blocks = /** @type {[string, number, number][]} */ ([]); // and the last stripe of each
  runs.forEach(([block, units], i) => {
    const last = blocks[blocks.length - 1];
    if (last && last[0] === block) Object.assign(last, [block, last[1] + units, i]);
    else blocks.push([block, units, i]);
  });
  return mirrored(blocks) ? blocks[blocks.length - 1 >> 1][2] : runs.length - 1;
}

/** stripeMM is how wide each stripe of the warp is. @param {Cloth} cloth */
export const stripeMM = cloth => shaftsOf(cloth).map(ends => ends.length * endMM(cloth));

/** widthMM is the cloth's width, as its stripes are now. @param {Cloth} cloth */
export const widthMM = cloth => stripeMM(cloth).reduce((a, b) => a + b, 0);

/** bodyMM is a piece without its hems. @param {Strip} piece */
export const bodyMM = piece => piece.unit_mm * piece.runs.reduce((sum, r) => sum + r[1], 0);

/** heightMM is a piece with its hems unfolded. @param {Strip} piece */
export const heightMM = piece => bodyMM(piece) + 2 * piece.end_mm;

/**
 * bands are what lies across a piece, its foot first: a hem, its runs, a hem. Run is
 * the number of the run, -1 for a hem; from and to are millimetres from the foot.
 * @param {Strip} piece
 */
export function bands(piece) {
  /** @type {{run: number, from: number, to: number}[]} */
  const all = [];
  let at = 0;
  const add = (/** @type {number} */ run, /** @type {number} */ mm) => {
    if (mm > 0) all.push({ run, from: at, to: at += mm });
  };
  add(-1, piece.end_mm);
  piece.runs.forEach((r, i) => add(i, r[1] * piece.unit_mm));
  add(-1, piece.end_mm);
  return all;
}

/** stripes are what lies beside each other across the warp. @param {Cloth} cloth */
export function stripes(cloth) {
  let at = 0;
  return stripeMM(cloth).map((mm, run) => ({ run, from: at, to: at += mm }));
}

/** at finds what a place lies in. @template {{from: number, to: number}} T
 *  @param {T[]} all @param {number} mm */
export const at = (all, mm) => all.find(b => mm < b.to) || all[all.length - 1];

/** patchOf is where a band of a piece crosses a stripe. @param {Cloth} cloth
 *  @param {Strip} piece @param {number} band run of the piece, -1 for a hem
 *  @param {number} stripe */
export function patchOf(cloth, piece, band, stripe) {
  const [block, , warp] = cloth.warp.runs[stripe];
  if (band < 0) {
    return { warp, block, woven: "", ground: piece.hem, pattern: -2, weave: 0 };
  }
  const [woven, , pattern] = piece.runs[band];
  return { warp, block, woven, ground: piece.ground, pattern, weave: piece.weave };
}
