// @ts-check
// Light and colour: what a screen is told, how yarns mix, what other eyes see. The same
// formulas as the program's package palette, which names their sources.

/** @typedef {number[]} Light linear red, green and blue, 0 to 1 */

const CURVE = Float64Array.from({ length: 256 }, (_, i) => {
  const v = i / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});

const FINE = 1 << 16;

// LEVELS is the nearest of 256 levels for every step of light.
const LEVELS = Uint8Array.from({ length: FINE + 1 }, (_, i) => {
  const v = (i + 0.5) / FINE;
  const coded = v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055;
  return Math.min(255, Math.round(255 * coded));
});

/** @type {Map<string, Light>} */
const known = new Map();

/** light is what a colour written in six digits stands for. @param {string} hex */
export function light(hex) {
  let found = known.get(hex);
  if (!found) {
    const long = hex.length === 4 ? hex.replace(/[0-9a-f]/gi, d => d + d) : hex;
    const n = parseInt(long.slice(1), 16);
    found = [CURVE[n >> 16], CURVE[n >> 8 & 255], CURVE[n & 255]];
    if (known.size > 5000) known.clear();
    known.set(hex, found);
  }
  return found;
}

/** level is the nearest level of a channel. @param {number} v */
export const level = v => LEVELS[Math.max(0, Math.min(FINE, v * FINE | 0))];

/** exact is level without a table. @param {number} v */
function exact(v) {
  if (!(v > 0)) return 0;
  const coded = v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055;
  return Math.min(255, Math.round(255 * coded));
}

/** pack is a colour as a canvas holds it. @param {Light} c */
export const pack = c => (255 << 24 | exact(c[2]) << 16 | exact(c[1]) << 8 | exact(c[0])) >>> 0;

/** hexOf writes a packed colour. @param {number} packed */
export const hexOf = packed => "#" +
  [packed, packed >> 8, packed >> 16].map(v => (v & 255).toString(16).padStart(2, "0")).join("");

/** css is light as a style sheet has it. @param {Light} c */
export const css = c => hexOf(pack(c));

const DARK = 0.01;

/**
 * mix is the light of parts that let light through to one another.
 * @param {number} scatter 0 for none
 * @param {[Light, number][]} parts colours and their areas
 */
export function mix(scatter, parts) {
  const used = parts.filter(p => p[1] > 0), area = used.reduce((sum, p) => sum + p[1], 0);
  if (!(area > 0)) return [0, 0, 0];
  return [0, 1, 2].map(c => channel(scatter, used, c, area));
}

/**
 * @param {number} scatter @param {[Light, number][]} parts
 * @param {number} c @param {number} area
 */
function channel(scatter, parts, c, area) {
  const base = parts[0][0][c], depth = (/** @type {number} */ r) =>
    (1 - r) / (scatter * (r - DARK) + DARK);
  if (parts.every(p => p[0][c] === base)) return base;
  let more = 0;
  for (const [colour, part] of parts) {
    more += part * (scatter ? depth(colour[c]) - depth(base) : colour[c] - base);
  }
  if (!scatter) return base + more / area;
  const v = depth(base) + more / area;
  return (1 - DARK * v * (1 - scatter)) / (1 + scatter * v);
}

const TO_XYZ = [
  [506752 / 1228815, 87881 / 245763, 12673 / 70218],
  [87098 / 409605, 175762 / 245763, 12673 / 175545],
  [7918 / 409605, 87881 / 737289, 1001167 / 1053270],
];
const FROM_XYZ = [
  [12831 / 3959, -329 / 214, -1974 / 3959],
  [-851781 / 878810, 1648619 / 878810, 36519 / 878810],
  [705 / 12673, -2585 / 12673, 705 / 667],
];
const WHITE = [0.3127 / 0.3290, 1, (1 - 0.3127 - 0.3290) / 0.3290];

/** @param {number[][]} m @param {number[]} v */
const times = (m, v) => m.map(r => r[0] * v[0] + r[1] * v[1] + r[2] * v[2]);

const evenly = (/** @type {number[][]} */ rows) => rows.map(row => {
  const sum = row[0] + row[1] + row[2];
  return row.map(v => v / sum);
});

// MACHADO is what protan and deutan eyes see, as numbered among EYES.
const MACHADO = [
  evenly([[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998]]),
  evenly([[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413],
    [-0.011820, 0.042940, 0.968881]]),
];

/** EYES are the ways to look at cloth. */
export const EYES = ["all colours", "light and dark alone",
  "red-green blind (protan)", "red-green blind (deutan)"];

/** through is a colour as eyes see it. @param {number} eyes @param {Light} c */
export function through(eyes, c) {
  if (eyes === 0) return c;
  if (eyes === 1) {
    const y = times(TO_XYZ, c)[1];
    return [y, y, y];
  }
  return times(MACHADO[eyes - 2], c).map(v => Math.min(1, Math.max(0, v)));
}

/** opponent is light, red against green, yellow against blue. @param {Light} c */
export function opponent(c) {
  const [x, y, z] = times(TO_XYZ, c);
  return [y, x / WHITE[0] - y, y - z / WHITE[2]];
}

/** FROM_OPPONENT takes that back to light. */
export const FROM_OPPONENT = (() => {
  const columns = [[1, 0, 0], [0, 1, 0], [0, 0, 1]].map(([y, r, b]) =>
    times(FROM_XYZ, [(r + y) * WHITE[0], y, (y - b) * WHITE[2]]));
  return [0, 1, 2].map(i => columns.map(c => c[i]));
})();
