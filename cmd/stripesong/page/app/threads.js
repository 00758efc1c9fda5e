// @ts-check
// How cloth lies: which yarn covers how much of a patch, and where. The same model as
// the program's package look; its tables come from the program.

import { light, mix, pack, through } from "./colour.js";

/** @typedef {import("./colour.js").Light} Light */
/** @typedef {[string, number, number]} Run block, units, colour */
/**
 * @typedef {{name: string, runs: Run[], ground: number, hem: number, weave: number,
 *   end_mm: number, unit_mm: number}} Strip
 * @typedef {{width_mm: number, ends: number, hem_pick_mm: number, scatter: number,
 *   hex: string[], widths: number[][], threading: Object<string, number[]>, closing?: boolean,
 *   tabby: number[], weaves: {pattern: number[], picks: Object<string, number[]>}[]}} Tables
 * @typedef {{tables: Tables, warp: {runs: Run[]}, pieces: Strip[],
 *   shows?: {grade?: string, weak?: boolean}[]}} Cloth
 * @typedef {{from: number, to: number, wide: boolean, pattern: number, float: boolean,
 *   between: number, crossing: boolean, ground: number, behind: boolean}} Row
 */

/** HEM stands for the pattern of a hem; plain is -1. */
export const HEM = -2;

/** PATTERN, WARP and GROUND number the yarns of a patch. */
export const PATTERN = 0, WARP = 1, GROUND = 2;

/** covers tells whether a shed covers a shaft. @param {number} shed @param {number} shaft */
export const covers = (shed, shaft) => (shed >>> (shaft - 1) & 1) === 1;

/**
 * A patch is where a row of a piece crosses a stripe of the warp.
 * @typedef {{warp: number, block: string, woven: string, ground: number, pattern: number,
 *   weave: number}} Patch
 */

/** Looks works out the colours of one cloth for some eyes, each once. */
export class Looks {
  /** @param {Tables} tables @param {number} eyes */
  constructor(tables, eyes) {
    this.tables = tables;
    this.eyes = eyes;
    /** @type {Map<string, any>} */
    this.known = new Map();
  }

  /** @template T @param {string} key @param {() => T} make @returns {T} */
  once(key, make) {
    let found = this.known.get(key);
    if (found === undefined) this.known.set(key, found = make());
    return found;
  }

  /** ink is a yarn by itself. @param {number} colour */
  ink(colour) {
    return this.once("ink" + colour, () => through(this.eyes, light(this.tables.hex[colour])));
  }

  /** widths of pattern, warp and ground. @param {Patch} p */
  widths(p) {
    const t = this.tables, [warp] = t.widths[p.warp], [, ground, hem] = t.widths[p.ground];
    if (p.pattern === HEM) return [0, warp, hem];
    return [p.pattern < 0 ? 0 : t.weaves[p.weave].pattern[p.pattern], warp, ground];
  }

  /** phi is the share of the ends that the pattern passes over. */
  phi(/** @type {Patch} */ p, /** @type {boolean} */ back) {
    const ends = this.tables.threading[p.block];
    let over = 0, of = 0;
    for (const pick of this.tables.weaves[p.weave].picks[p.woven]) {
      if (!(pick & 1)) continue;
      for (const shaft of ends) if (covers(pick >>> 1, shaft) !== back) over++;
      of += ends.length;
    }
    return over / of;
  }

  /** shares of pattern, warp and ground. */
  shares(/** @type {Patch} */ p, /** @type {boolean} */ back) {
    const [c, a, t] = this.widths(p);
    if (p.pattern < 0) {
      const gaps = (1 - a) * (1 - t) / 2;
      return [0, a * (1 - t / 2) + gaps, t * (1 - a / 2) + gaps];
    }
    const h = Math.min(c, 1 - t), phi = this.phi(p, back);
    const over = [c, (1 - c) * a / 2, (1 - c) * (1 - a / 2)];
    const under = [(1 - a) * h, a * (1 - t / 2), t * (1 - a / 2) + (1 - a) * (1 - t - h)];
    return over.map((v, i) => phi * v + (1 - phi) * under[i]);
  }

  /** @param {Patch} p */
  yarns(p) {
    const of = (/** @type {number} */ c) => light(this.tables.hex[c]);
    return [of(Math.max(0, p.pattern)), of(p.warp), of(p.ground)];
  }

  /** mixed is the light of a patch to eyes that see all colours. */
  mixed(/** @type {Patch} */ p, /** @type {boolean} */ back) {
    const shares = this.shares(p, back), [pattern, warp, ground] = this.yarns(p);
    return mix(this.tables.scatter, [[warp, shares[1]], [ground, shares[2]],
      [pattern, shares[0]]]);
  }

  /** @param {Patch} p @param {boolean} back */
  key(p, back) {
    const plain = p.pattern < 0;
    return [p.warp, p.ground, p.pattern, plain ? 0 : p.weave, p.woven, plain ? "" : p.block,
      plain ? false : back].join();
  }

  /** shade is what eyes see of a patch. @param {Patch} p @param {boolean} back @returns {Light} */
  shade(p, back) {
    return this.once("s" + this.key(p, back), () => through(this.eyes, this.mixed(p, back)));
  }

  /** flat is that, packed. @param {Patch} p @param {boolean} back @returns {number} */
  flat(p, back) {
    return this.once("f" + this.key(p, back), () => pack(this.shade(p, back)));
  }

  /**
   * threads are the three yarns of a patch as they are drawn singly: brought down by as
   * much as light is lost between them, so that their average is the mixture.
   * @param {Patch} p @param {boolean} back @returns {Light[]}
   */
  threads(p, back) {
    return this.once("t" + this.key(p, back), () => {
      const shares = this.shares(p, back), mixed = this.mixed(p, back);
      const yarns = this.yarns(p).map(y => [...y]);
      for (let c = 0; c < 3; c++) {
        const plain = yarns.reduce((sum, y, i) => sum + shares[i] * y[c], 0);
        if (!(plain > 0)) continue;
        for (const y of yarns) y[c] = Math.min(1, Math.max(0, y[c] * mixed[c] / plain));
      }
      return yarns.map(y => through(this.eyes, y));
    });
  }

  /**
   * rows divide one weft unit, its foot first, into rows in which what lies on top
   * changes only from end to end.
   * @param {number} weave @param {string} woven @param {number} pattern
   * @param {number} ground @returns {Row[]}
   */
  rows(weave, woven, pattern, ground) {
    const plain = pattern < 0, t = this.tables.widths[ground][pattern === HEM ? 2 : 1];
    return this.once(["r", weave, woven, pattern, t].join(), () => {
      const w = this.tables.weaves[weave], unit = pattern === HEM
        ? this.tables.tabby.map(shed => shed << 1) : w.picks[plain ? "" : woven];
      return plain ? plainRows(unit, t) : patternRows(unit, w.pattern[pattern], t);
    });
  }
}

/** @type {Row} */
const NOTHING = { from: 0, to: 0, wide: false, pattern: 0, float: false, between: 0,
  crossing: false, ground: 0, behind: false };

/** @param {number[]} edges @param {(at: number) => Partial<Row>} what */
function between(edges, what) {
  /** @type {Row[]} */
  const rows = [];
  let from = 0;
  for (const to of [...edges].sort((a, b) => a - b)) {
    if (to <= from) continue;
    rows.push({ ...NOTHING, ...what((from + to) / 2), from, to });
    from = to;
  }
  return rows;
}

const turned = (/** @type {Row[]} */ rows) => rows.map(r =>
  ({ ...r, from: 1 - r.to, to: 1 - r.from })).reverse();

/** @param {Row[][]} halves each of 0 to 1 */
const stacked = halves => halves.flatMap((rows, i) => rows.map(r =>
  ({ ...r, from: (i + r.from) / halves.length, to: (i + r.to) / halves.length })));

/** @param {number[]} unit @param {number} t how wide ground lies */
function plainRows(unit, t) {
  return stacked(unit.flatMap(pick => {
    const half = between([1 - t, 1], at => at < 1 - t ? { wide: true }
      : { crossing: true, ground: pick >>> 1 });
    return [half, turned(half)];
  }));
}

/** @param {number[]} unit @param {number} c how wide pattern lies @param {number} t */
function patternRows(unit, c, t) {
  const behind = Math.max(1 - c, t);
  return stacked(unit.flatMap((pick, i) => {
    if (!(pick & 1)) return [];
    const half = (/** @type {number} */ step) => {
      const beside = groundBeside(unit, i, step), edges = [1, 1 - c, t, behind];
      for (const g of beside) edges.push(g.to * (1 - c), g.to * t);
      const shedAt = (/** @type {number} */ at, /** @type {number} */ top) =>
        (beside.find(g => at < g.to * top) || beside[beside.length - 1]).shed;
      return between(edges, at => ({ pattern: pick >>> 1, float: at > 1 - c,
        between: shedAt(at, 1 - c), crossing: at < t, ground: shedAt(at, t),
        behind: at > behind }));
    };
    return [half(-1), turned(half(1))];
  }));
}

/** groundBeside are the ground picks of one side of a pattern pick, the farthest first. */
function groundBeside(/** @type {number[]} */ unit, /** @type {number} */ i,
  /** @type {number} */ step) {
  const n = unit.length, at = (/** @type {number} */ k) => unit[((i + step * k) % n + n) % n];
  let first = 1, count = 0;
  while (at(first) & 1) first++;
  while (!(at(first + count) & 1)) count++;
  const all = [];
  for (let k = count - 1 >> 1; k >= 0; k--) {
    all.push({ shed: at(first + k) >>> 1, to: 1 - 2 * k / count });
  }
  return all;
}

/**
 * top is the yarn on top where a row meets an end's pitch: in its middle, or in the gap.
 * @param {Row} row @param {number} shaft @param {boolean} inEnd @param {boolean} back
 */
export function top(row, shaft, inEnd, back) {
  const over = (/** @type {number} */ shed) => covers(shed, shaft) !== back;
  if (row.pattern && over(row.pattern)) {
    if (row.float) return PATTERN;
    return !inEnd || over(row.between) ? GROUND : WARP;
  }
  if (!inEnd) return row.behind ? PATTERN : GROUND;
  return row.crossing && over(row.ground) ? GROUND : WARP;
}
