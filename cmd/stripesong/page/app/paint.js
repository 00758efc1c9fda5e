// @ts-check
// Painting cloth: the points of a part of a piece, from flat colours where it is seen
// from afar to single threads from near. Lines that are alike are worked out once.

import { pack } from "./colour.js";
import { bands, endMM, heightMM, patchOf, shaftsOf } from "./geometry.js";
import { HEM, top } from "./threads.js";

/** @typedef {import("./threads.js").Cloth} Cloth */
/** @typedef {import("./threads.js").Looks} Looks */

// Threads are seen singly from BEGIN pixels from end to end, and nothing else from ALL on.
const BEGIN = 4, ALL = 8;

/** @type {WeakMap<object, {runs: Uint16Array, shafts: Uint8Array}>} */
const ends = new WeakMap();

/** endsOf are the run and the shaft of every end. @param {Cloth} cloth */
function endsOf(cloth) {
  const of = cloth.warp.runs;
  let found = ends.get(of);
  if (!found) {
    const all = shaftsOf(cloth), shafts = all.flat();
    const runs = all.flatMap((ends, i) => ends.map(() => i));
    found = { runs: Uint16Array.from(runs), shafts: Uint8Array.from(shafts) };
    ends.set(of, found);
  }
  return found;
}

/** threadsShown is how far threads are seen singly, 0 to 1. @param {number} pitch pixels */
export const threadsShown = pitch => Math.min(1, Math.max(0, (pitch - BEGIN) / (ALL - BEGIN)));

/**
 * paint fills an image with a part of a piece as one side is seen. Back means the
 * back; turned over too, which a corner that is folded is not.
 * @param {ImageData} image @param {Cloth} cloth @param {Looks} looks @param {number} number
 * @param {{back: boolean, over?: boolean, left: number, top: number, scale: number,
 *   tall?: number}} part left and top in mm from the piece's corner as it is seen; pixels to
 *   a millimetre across, and up where that is not the same
 */
export function paint(image, cloth, looks, number, part) {
  const { width, height } = image, out = new Uint32Array(image.data.buffer);
  const over = part.over === undefined ? part.back : part.over;
  const columns = columnsOf(cloth, looks, width, { ...part, over });
  const rows = rowsOf(cloth, looks, number, height, part, columns.shown);
  /** @type {Map<number, Uint32Array>} */
  const lines = new Map();
  const pick = painter(cloth, looks, number, part.back, columns, rows);
  for (let y = 0; y < height; y++) {
    const row = rows.of[y];
    let line = lines.get(row);
    if (!line) {
      const colours = columns.classes.map((_, c) => pick(row, c));
      line = Uint32Array.from(columns.of, c => colours[c]);
      lines.set(row, line);
    }
    out.set(line, y * width);
  }
}

/**
 * columnsOf sorts the columns of an image into classes that show the same in any row.
 * @param {Cloth} cloth @param {Looks} looks @param {number} width
 * @param {{over: boolean, left: number, scale: number}} part
 */
function columnsOf(cloth, looks, width, part) {
  const pitch = endMM(cloth), { runs, shafts } = endsOf(cloth), n = runs.length;
  const shown = threadsShown(pitch * part.scale), of = new Uint16Array(width);
  /** @type {{run: number, shaft: number, near: number}[]} */
  const classes = [];
  /** @type {Map<number, number>} */
  const known = new Map();
  const wide = cloth.warp.runs.map(r => looks.tables.widths[r[2]][0]);
  for (let x = 0; x < width; x++) {
    const at = (part.left + (x + 0.5) / part.scale) / pitch;
    let k = Math.min(n - 1, Math.max(0, Math.floor(at)));
    const off = Math.abs(at - Math.floor(at) - 0.5) * 2;
    if (part.over) k = n - 1 - k;
    const run = runs[k], a = wide[run];
    const near = shown ? off < a ? 0 : off < (1 + a) / 2 ? 1 : 2 : 0;
    const shaft = shown ? shafts[k] : 0, key = (run * 64 + shaft) * 3 + near;
    let c = known.get(key);
    if (c === undefined) {
      known.set(key, c = classes.length);
      classes.push({ run, shaft, near });
    }
    of[x] = c;
  }
  return { of, classes, shown };
}

/**
 * @param {Cloth} cloth @param {Looks} looks @param {number} number @param {number} height
 * @param {{top: number, scale: number, tall?: number}} part @param {number} shown
 */
function rowsOf(cloth, looks, number, height, part, shown) {
  const piece = cloth.pieces[number], all = bands(piece), whole = heightMM(piece);
  const of = new Int32Array(height);
  /** @type {{band: number, row: import("./threads.js").Row | null}[]} */
  const classes = [];
  /** @type {Map<number, number>} */
  const known = new Map();
  const tall = part.tall || part.scale;
  let k = all.length - 1;
  for (let y = 0; y < height; y++) {
    const up = whole - part.top - (y + 0.5) / tall;
    while (k > 0 && up < all[k].from) k--;
    const { run, from } = all[k];
    let row = null, index = 0;
    if (shown) {
      const [woven, , pattern] = run < 0 ? ["", 0, HEM] : piece.runs[run];
      const unit = run < 0 ? 2 * cloth.tables.hem_pick_mm : piece.unit_mm;
      const rows = looks.rows(run < 0 ? 0 : piece.weave, woven, pattern,
        run < 0 ? piece.hem : piece.ground);
      const at = ((up - from) / unit % 1 + 1) % 1;
      while (index < rows.length - 1 && at >= rows[index].to) index++;
      row = rows[index];
    }
    const key = (run + 1) * 512 + index;
    let c = known.get(key);
    if (c === undefined) {
      known.set(key, c = classes.length);
      classes.push({ band: run, row });
    }
    of[y] = c;
  }
  return { of, classes };
}

/**
 * painter gives the colour of a class of rows over a class of columns.
 * @param {Cloth} cloth @param {Looks} looks @param {number} number @param {boolean} back
 * @param {ReturnType<typeof columnsOf>} columns @param {ReturnType<typeof rowsOf>} rows
 */
function painter(cloth, looks, number, back, columns, rows) {
  const piece = cloth.pieces[number], { shown } = columns;
  return (/** @type {number} */ r, /** @type {number} */ c) => {
    const { band, row } = rows.classes[r], { run, shaft, near } = columns.classes[c];
    const patch = patchOf(cloth, piece, band, run);
    if (!row) return looks.flat(patch, back);
    const inEnd = near === 0 || near === 1 && row.wide;
    const yarn = looks.threads(patch, back)[top(row, shaft, inEnd, back)];
    if (shown === 1) return pack(yarn);
    const mixed = looks.shade(patch, back);
    return pack(yarn.map((v, i) => shown * v + (1 - shown) * mixed[i]));
  };
}
