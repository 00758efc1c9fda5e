// @ts-check
// Cloth from a distance: every patch is spread by the eye's filters, exactly, since the
// Gaussians of which they are made divide into one across and one down.

import { FROM_OPPONENT, level, opponent } from "./colour.js";
import { bands, patchOf, stripes } from "./geometry.js";

/** @typedef {import("./threads.js").Cloth} Cloth */

// FILTERS are those of S-CIELAB (Zhang & Wandell, J. SID 5(1), 1997) for light, red-green
// and blue-yellow: weights, and widths in degrees; as package palette has them.
const FILTERS = [
  [[1.00327 / (1.00327 + 0.114416), 0.05], [0.114416 / (1.00327 + 0.114416), 0.225]],
  [[0.616725, 0.0685], [0.383275, 0.826]],
  [[0.567885, 0.0920], [0.432115, 0.6451]],
];

const MM = Math.PI / 180 * 1000 / (2 * Math.sqrt(Math.LN2)); // of a degree at a metre

/** finestMM is the least that is blurred. @param {number} metres */
export const finestMM = metres => FILTERS[0][0][1] * MM * metres;

// ERF is the error function from 0 to 4, by a series and a table (W. J. Cody's values
// agree within 1e-7).
const STEPS = 4096, ERF = (() => {
  const table = new Float64Array(STEPS + 2);
  const h = 4 / STEPS, slope = (/** @type {number} */ x) => Math.exp(-x * x);
  for (let i = 1; i < table.length; i++) { // Simpson's rule, step by step
    const a = (i - 1) * h;
    table[i] = table[i - 1] + h / 6 * (slope(a) + 4 * slope(a + h / 2) + slope(a + h));
  }
  return table.map(v => v * 2 / Math.sqrt(Math.PI));
})();

/** below is the part of a Gaussian exp(-(x/scale)^2) to the left of x. */
function below(/** @type {number} */ x, /** @type {number} */ scale) {
  const z = Math.abs(x) / scale;
  let half = 0.5;
  if (z < 4) {
    const at = z / 4 * STEPS, i = Math.floor(at);
    half = (ERF[i] + (ERF[i + 1] - ERF[i]) * (at - i)) / 2;
  }
  return x > 0 ? 0.5 + half : 0.5 - half;
}

/**
 * shares are, for the middles of n equal parts, what each band gives to them.
 * @param {{from: number, to: number}[]} all @param {number} n @param {number} scale
 * @returns {{first: number, parts: number[]}[]}
 */
function shares(all, n, scale) {
  const total = all[all.length - 1].to, out = [];
  for (let k = 0; k < n; k++) {
    const at = (k + 0.5) / n * total, parts = [];
    let first = -1, before = 0;
    for (let i = 0; i < all.length; i++) {
      const upTo = i < all.length - 1 ? below(all[i].to - at, scale) : 1;
      if (upTo - before > 1e-5) {
        if (first < 0) first = i;
        parts[i - first] = upTo - before;
      } else if (first >= 0) break;
      before = upTo;
    }
    out.push({ first, parts });
  }
  return out;
}

/**
 * seen is one side of a piece as it looks from a distance, in so many points.
 * @param {Cloth} cloth @param {import("./threads.js").Looks} looks @param {number} number
 * @param {boolean} back @param {number} metres @param {number} across @param {number} down
 */
export function seen(cloth, looks, number, back, metres, across, down) {
  const piece = cloth.pieces[number], columns = stripes(cloth), rows = bands(piece);
  const planes = rows.map(b => columns.map(s =>
    opponent(looks.shade(patchOf(cloth, piece, b.run, s.run), back))));
  const image = new ImageData(across, down), out = image.data;
  const sums = [0, 1, 2].map(() => new Float64Array(across * down));
  FILTERS.forEach((filter, channel) => filter.forEach(([weight, degrees]) => {
    const scale = degrees * MM * metres;
    const over = shares(columns, across, scale), up = shares(rows, down, scale);
    const spread = rows.map((_, j) => {
      const line = new Float64Array(across);
      over.forEach((s, x) => s.parts.forEach((part, i) => {
        line[x] += part * planes[j][s.first + i][channel];
      }));
      return line;
    });
    const sum = sums[channel];
    up.forEach((s, y) => {
      const from = (down - 1 - y) * across;
      s.parts.forEach((part, i) => {
        const line = spread[s.first + i], w = part * weight;
        for (let x = 0; x < across; x++) sum[from + x] += w * line[x];
      });
    });
  }));
  const [light, red, blue] = sums, m = FROM_OPPONENT;
  for (let y = 0; y < down; y++) {
    for (let x = 0; x < across; x++) {
      const k = y * across + x, to = 4 * (y * across + (back ? across - 1 - x : x));
      for (let c = 0; c < 3; c++) {
        out[to + c] = level(m[c][0] * light[k] + m[c][1] * red[k] + m[c][2] * blue[k]);
      }
      out[to + 3] = 255;
    }
  }
  return image;
}
