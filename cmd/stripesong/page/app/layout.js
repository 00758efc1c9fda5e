// @ts-check
// Where pieces stand: in reading order, as large as there is room, at one scale, over
// each column the stripes of the warp; and what of it is in sight.

import { bands, heightMM, stripes, widthMM, at as bandAt } from "./geometry.js";

/** @typedef {import("./threads.js").Cloth} Cloth */
/**
 * A box is in pixels of the style sheet.
 * @typedef {{x: number, y: number, w: number, h: number}} Box
 * @typedef {{scale: number, columns: number, pieces: Box[], strips: (Box & {piece: number})[],
 *   width: number, height: number}} Laid
 */

/** gapOf is what lies between two columns of a window. @param {number} width */
export const gapOf = width => width < 560 ? 14 : 26;

const STRIP = 18, UNDER = 6, EDGE = 14, HEAD = 4;

/** TAG is what the name of a piece takes below it, in pixels. */
export const TAG = 58;

/** HEADBAND is what strips take that lie at the head of the window, in pixels. */
export const HEADBAND = HEAD + STRIP + UNDER;

/**
 * lay finds the places of all pieces in a window.
 * @param {Cloth} cloth @param {number} width @param {number} height @returns {Laid}
 */
export function lay(cloth, width, height) {
  const n = cloth.pieces.length, gap = gapOf(width), wide = widthMM(cloth);
  const tall = Math.max(...cloth.pieces.map(heightMM));
  let best = { scale: 0, columns: 1 };
  for (let columns = 1; columns <= n; columns++) {
    const rows = Math.ceil(n / columns);
    const scale = Math.min((width - 2 * EDGE - gap * (columns - 1)) / columns / wide,
      (height - 2 * EDGE - STRIP - UNDER - TAG * rows) / rows / tall);
    if (scale > best.scale * 1.001) best = { scale, columns };
  }
  const { columns } = best, rows = Math.ceil(n / columns);
  const scale = Math.max(best.scale, 40 / wide);
  const w = wide * scale, slot = w + gap, high = tall * scale + TAG;
  const left = Math.max(EDGE, (width - columns * slot + gap) / 2);
  const top = Math.max(EDGE, (height - rows * high - STRIP - UNDER) / 2);
  const pieces = cloth.pieces.map((p, i) => {
    const h = heightMM(p) * scale, foot = top + STRIP + UNDER +
      Math.floor(i / columns) * high + tall * scale;
    return { x: left + i % columns * slot, y: foot - h, w, h };
  });
  const strips = pieces.slice(0, columns).map((b, piece) =>
    ({ piece, x: b.x, y: b.y - UNDER - STRIP, w, h: STRIP }));
  return { scale, columns, pieces, strips, width: left * 2 + columns * slot - gap,
    height: top * 2 + STRIP + UNDER + rows * high };
}

/** Sight is what part of it is seen: enlarged so many times, moved by so many pixels. */
export class Sight {
  constructor() {
    this.zoom = 1;
    this.x = 0;
    this.y = 0;
  }

  /** box is where one lies on the screen. @param {Box} b @returns {Box} */
  box(b) {
    const { zoom } = this;
    return { x: b.x * zoom + this.x, y: b.y * zoom + this.y, w: b.w * zoom, h: b.h * zoom };
  }

  /** pinned tells whether a strip lies at the head of the window, over other cloth.
   *  @param {Box} b */
  pinned(b) {
    const at = this.box(b);
    return at.y + at.h - b.h < HEAD;
  }

  /** strip is where stripes of the warp lie: at the head of the window where they would
   *  be above it. @param {Box} b @returns {Box} */
  strip(b) {
    const at = this.box(b);
    return { ...at, y: Math.max(at.y + at.h - b.h, HEAD), h: b.h };
  }

  /** enlarge keeps a place where it is. @param {number} by @param {number} x
   *  @param {number} y @param {number} most */
  enlarge(by, x, y, most) {
    const zoom = Math.min(most, Math.max(1, this.zoom * by)), real = zoom / this.zoom;
    this.x = x - (x - this.x) * real;
    this.y = y - (y - this.y) * real;
    this.zoom = zoom;
  }

  /** stay keeps something in sight. @param {Laid} laid @param {number} w @param {number} h */
  stay(laid, w, h) {
    const held = (/** @type {number} */ at, /** @type {number} */ size,
      /** @type {number} */ room) => size <= room ? Math.min(Math.max(at, 0), room - size)
      : Math.min(Math.max(at, room - size), 0);
    this.x = held(this.x, Math.max(laid.width * this.zoom, 1), w);
    this.y = held(this.y, Math.max(laid.height * this.zoom, 1), h);
    if (this.zoom === 1 && laid.width <= w + 1 && laid.height <= h + 1) this.x = this.y = 0;
  }

  /** reveal moves a box wholly into a window, where there is room for it; by no more than
   *  that takes. @param {Box} b @param {number} w @param {number} h */
  reveal(b, w, h) {
    const by = (/** @type {number} */ at, /** @type {number} */ size,
      /** @type {number} */ room) => size > room ? 0
      : Math.max(0, -at) + Math.min(0, room - at - size);
    this.x += by(b.x, b.w, w);
    this.y += by(b.y, b.h, h);
  }
}

/**
 * Found is what lies at a place: a stripe of the warp's strip, or a band of a piece and
 * the stripe that crosses it there.
 * @typedef {{piece: number, stripe: number, band: number | null, box: Box}} Found
 */

/**
 * find tells what lies at a place.
 * @param {Cloth} cloth @param {Laid} laid @param {Sight} sight
 * @param {(piece: number) => boolean} backOf
 * @param {number} x @param {number} y @returns {Found | null}
 */
export function find(cloth, laid, sight, backOf, x, y) {
  const inside = (/** @type {Box} */ b) => x >= b.x && x < b.x + b.w && y >= b.y &&
    y < b.y + b.h;
  const across = (/** @type {Box} */ b, /** @type {boolean} */ back) => {
    const part = (x - b.x) / b.w * widthMM(cloth);
    return bandAt(stripes(cloth), back ? widthMM(cloth) - part : part).run;
  };
  for (const s of laid.strips) {
    const box = sight.strip(s);
    if (inside({ ...box, y: box.y - 4, h: box.h + 6 })) {
      return { piece: s.piece, stripe: across(box, false), band: null, box };
    }
  }
  for (let i = 0; i < laid.pieces.length; i++) {
    const box = sight.box(laid.pieces[i]);
    if (!inside(box)) continue;
    const piece = cloth.pieces[i], up = (box.y + box.h - y) / box.h * heightMM(piece);
    return { piece: i, stripe: across(box, backOf(i)), band: bandAt(bands(piece), up).run, box };
  }
  return null;
}
