// @ts-check
// The cloth on its canvas: all pieces, the stripes over them, what is chosen, the handles
// that were asked for, a turned corner of every back, and another version beside it.

import { css } from "./colour.js";
import { finestMM, seen } from "./distance.js";
import { bands, endMM, heightMM, stripes, widthMM } from "./geometry.js";
import { HEADBAND, Sight, TAG, find, lay } from "./layout.js";
import { paint } from "./paint.js";
import { WARP, cloth, shownBack, state } from "./state.js";
import { Looks } from "./threads.js";

/** @typedef {import("./threads.js").Cloth} Cloth */
/** @typedef {import("./layout.js").Box} Box */

const $ = (/** @type {string} */ id) => /** @type {HTMLElement} */ (document.getElementById(id));

export const canvas = /** @type {HTMLCanvasElement} */ ($("canvas"));
const pen = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
export const sight = new Sight();

/** @type {import("./layout.js").Laid} */
export let laid;

const dpr = () => Math.min(2, Math.max(1, devicePixelRatio || 1));

/** @type {WeakMap<object, Looks[]>} */
const looking = new WeakMap();

/** looksOf are the colours of a cloth for the eyes that look. @param {Cloth} of */
export function looksOf(of) {
  let all = looking.get(of.tables);
  if (!all) looking.set(of.tables, all = []);
  return all[state.eyes] = all[state.eyes] || new Looks(of.tables, state.eyes);
}

/** most is how far it may be enlarged: until an end is 40 pixels wide. */
const most = () => 40 / (endMM(cloth()) * laid.scale);

/** pixels of the screen to a millimetre of cloth. */
export const scale = () => laid.scale * sight.zoom;

/** at is what lies at a place of the window. @param {number} x @param {number} y */
export function at(x, y) {
  const box = canvas.getBoundingClientRect(), of = cloth();
  return find(of, laid, sight, shownBack, x - box.left, y - box.top);
}

/** enlarge is about a place of the window. @param {number} by @param {number} x
 *  @param {number} y */
export function enlarge(by, x, y) {
  const box = canvas.getBoundingClientRect();
  sight.enlarge(by, x - box.left, y - box.top, most());
  redraw();
}

/** shift moves what is seen. @param {number} x @param {number} y */
export function shift(x, y) {
  sight.x += x;
  sight.y += y;
  redraw();
}

let together = false; // all pieces are to be seen beside a panel, however small

export function showAll() {
  together = true;
  Object.assign(sight, { zoom: 1, x: 0, y: 0 });
  redraw();
}

/** show brings a piece into the middle, as large as there is room. @param {number} piece */
export function show(piece) {
  const b = laid.pieces[piece], w = canvas.clientWidth, h = canvas.clientHeight;
  sight.zoom = Math.max(1, Math.min(w / b.w, h / (b.h + 50)) * 0.9);
  sight.x = w / 2 - (b.x + b.w / 2) * sight.zoom;
  sight.y = h / 2 - (b.y + b.h / 2) * sight.zoom;
  redraw();
}

let asked = 0, accent = "";

/** redraw draws with the next frame. */
export function redraw() {
  if (!asked) asked = requestAnimationFrame(() => { asked = 0; draw(); });
}

/** @type {(() => void)[]} */
const after = [];

/** onDraw calls when all has been drawn. @param {() => void} f */
export const onDraw = f => { after.push(f); };

/** how long the last frames took to draw, in milliseconds */
export const frames = /** @type {number[]} */ ([]);

/** draw draws everything now. */
export function draw() {
  if (!state.view) return;
  const from = performance.now(), of = cloth();
  const w = canvas.clientWidth, h = canvas.clientHeight, d = dpr();
  if (!w || !h) return;
  const W = Math.round(w * d), H = Math.round(h * d);
  if (canvas.width !== W) canvas.width = W;
  if (canvas.height !== H) canvas.height = H;
  accent = getComputedStyle(canvas).color;
  const under = underPanels();
  if (!under) together = false;
  laid = lay(of, w, together ? h : h + under);
  sight.stay(laid, w, h);
  keepInSight(w, h, under);
  pen.setTransform(1, 0, 0, 1, 0, 0);
  pen.clearRect(0, 0, W, H);
  const cut = state.beside ? Math.round(state.divider * w) : w;
  part(of, 0, cut);
  if (state.beside) part(state.beside.cloth, cut, w);
  pen.setTransform(d, 0, 0, d, 0, 0);
  chosen(of);
  for (const f of after) f();
  frames.push(performance.now() - from);
  if (frames.length > 600) frames.shift();
}

const phone = matchMedia("(max-width: 52rem)");

/** underPanels is how much taller the cloth is without the panels below it that are about
 *  one piece or yarn: on a phone they leave pieces as large as they are, and in part out of
 *  sight. In pixels. */
function underPanels() {
  if (!phone.matches) return 0;
  const panels = ["card", "yarn-card", ...state.offersOf >= 0 ? ["tray"] : []];
  const hand = $("cloth").clientHeight - canvas.clientHeight; // where a yarn in it is told
  return panels.reduce((sum, id) => sum + $(id).offsetHeight, hand);
}

let seenFor = "";

/** keepInSight brings what is chosen, or what offers are of, out from below a panel. */
function keepInSight(/** @type {number} */ w, /** @type {number} */ h,
  /** @type {number} */ under) {
  const s = state.selected, strip = s ? s.strip : state.offersOf;
  const now = [strip, s && s.run, s && s.via, w, h].join();
  if (now === seenFor) return;
  seenFor = now;
  if (together || !under || s && s.over) return;
  const boxes = boxesOf(strip), box = s && boxes.find(b => b.piece === s.via) || boxes[0];
  if (!box) return;
  sight.reveal({ ...box, y: box.y - HEADBAND, h: box.h + HEADBAND + TAG }, w, h);
  if (!s || s.run === null || box.h <= h) return;
  sight.reveal(runBox(cloth(), strip, s.run, boxesOf(strip).find(b => b.piece === s.via) || box,
    box.piece >= 0 && shownBack(box.piece)), w, h);
}

/** part draws one version between two places. */
function part(/** @type {Cloth} */ of, /** @type {number} */ from, /** @type {number} */ to) {
  const looks = looksOf(of), d = dpr();
  pen.save();
  pen.setTransform(1, 0, 0, 1, 0, 0);
  laid.pieces.forEach((place, i) => {
    if (of.pieces[i]) piece(of, looks, i, sight.box(place), from * d, to * d);
  });
  if (laid.strips.some(s => sight.pinned(s))) headband(from * d, to * d);
  for (const s of laid.strips) strip(of, looks, sight.strip(s), from * d, to * d);
  pen.restore();
}

/** headband is the ground on which stripes of the warp lie over pieces below them. */
function headband(/** @type {number} */ from, /** @type {number} */ to) {
  const high = HEADBAND * dpr();
  pen.fillStyle = getComputedStyle($("cloth")).backgroundColor;
  pen.fillRect(from, 0, to - from, high);
  pen.fillStyle = "rgb(128 128 128)";
  pen.fillRect(from, high - dpr(), to - from, dpr());
}

/** clipped is a box on the canvas, cut to what is seen of it. */
function clipped(/** @type {Box} */ b, /** @type {number} */ from, /** @type {number} */ to) {
  const d = dpr(), left = Math.round(b.x * d), top = Math.round(b.y * d);
  const right = Math.round((b.x + b.w) * d), foot = Math.round((b.y + b.h) * d);
  const x = Math.max(left, Math.round(from)), y = Math.max(top, 0);
  const w = Math.min(right, Math.round(to)) - x, h = Math.min(foot, canvas.height) - y;
  return w > 0 && h > 0 ? { x, y, w, h, left, top, right, foot } : null;
}

/** @type {Map<string, ImageData>} */
const images = new Map();

/** image is one to paint on, used again for the same size. */
function image(/** @type {number} */ w, /** @type {number} */ h) {
  const key = w + "x" + h;
  let found = images.get(key);
  if (!found) {
    if (images.size > 24) images.clear();
    images.set(key, found = new ImageData(w, h));
  }
  return found;
}

/** piece draws one with its corner turned. */
function piece(/** @type {Cloth} */ of, /** @type {Looks} */ looks, /** @type {number} */ i,
  /** @type {Box} */ box, /** @type {number} */ from, /** @type {number} */ to) {
  const c = clipped(box, from, to), back = shownBack(i);
  if (!c) return;
  const s = (c.right - c.left) / widthMM(of);
  if (farOff()) {
    pen.save();
    pen.beginPath();
    pen.rect(c.x, c.y, c.w, c.h);
    pen.clip();
    pen.drawImage(fromAfar(of, looks, i, back, box), c.left, c.top, c.right - c.left,
      c.foot - c.top);
    pen.restore();
  } else {
    const to = image(c.w, c.h), tall = (c.foot - c.top) / heightMM(of.pieces[i]);
    paint(to, of, looks, i, { back, left: (c.x - c.left) / s, top: (c.y - c.top) / tall,
      scale: s, tall });
    pen.putImageData(to, c.x, c.y);
  }
  corner(of, looks, i, back, c, s, from, to);
}

/** farOff tells whether cloth is seen mixed, and not as it is or thread by thread. */
const farOff = () => state.metres >= state.lists.singly_m;

/** @type {Map<string, {of: any, piece: any, picture: HTMLCanvasElement}>} */
const afar = new Map();

/** coarse is how many pixels are as one while the distance is being changed. */
export const effort = { coarse: 1 };

/** fromAfar is a picture of a piece from a distance, kept until something is another. */
function fromAfar(/** @type {Cloth} */ of, /** @type {Looks} */ looks,
  /** @type {number} */ i, /** @type {boolean} */ back, /** @type {Box} */ box) {
  const mm = Math.max(finestMM(state.metres) / 2.2, widthMM(of) / (box.w * dpr()));
  const across = Math.max(8, Math.min(420, Math.round(widthMM(of) / mm / effort.coarse)));
  const down = Math.max(8, Math.round(across * heightMM(of.pieces[i]) / widthMM(of)));
  const key = [i, back, state.beside && of === state.beside.cloth].join();
  const asked = [of.tables, of.warp.runs, of.pieces[i], state.eyes, state.metres, across];
  const had = afar.get(key);
  if (had && had.of.every((/** @type {any} */ v, /** @type {number} */ k) => v === asked[k])) {
    return had.picture;
  }
  const picture = document.createElement("canvas");
  picture.width = across;
  picture.height = down;
  /** @type {CanvasRenderingContext2D} */ (picture.getContext("2d"))
    .putImageData(seen(of, looks, i, back, state.metres, across, down), 0, 0);
  afar.set(key, { of: asked, piece: of.pieces[i], picture });
  return picture;
}

const scrap = document.createElement("canvas");

/** corner folds the upper right corner over, so that the other side is seen. */
function corner(/** @type {Cloth} */ of, /** @type {Looks} */ looks, /** @type {number} */ i,
  /** @type {boolean} */ back, /** @type {{left: number, top: number, right: number,
  foot: number}} */ c, /** @type {number} */ s, /** @type {number} */ from,
  /** @type {number} */ to) {
  const d = dpr(), size = Math.round(Math.min((c.right - c.left) * 0.2, 90 * d));
  const x = c.right - size, y = c.top;
  if (x >= to || c.right <= from || y > canvas.height || y + size < 0) return;
  scrap.width = scrap.height = size;
  const own = /** @type {CanvasRenderingContext2D} */ (scrap.getContext("2d"));
  const flap = new ImageData(size, size);
  paint(flap, of, looks, i, { back: !back, over: back, left: (x - c.left) / s, top: 0,
    scale: s });
  own.putImageData(flap, 0, 0);
  pen.save();
  pen.beginPath();
  pen.rect(from, 0, to - from, canvas.height);
  pen.clip();
  pen.beginPath();
  pen.moveTo(x, y);
  pen.lineTo(x + size, y);
  pen.lineTo(x + size, y + size);
  pen.closePath();
  pen.globalCompositeOperation = "destination-out";
  pen.fill();
  pen.globalCompositeOperation = "source-over";
  pen.beginPath();
  pen.moveTo(x, y);
  pen.lineTo(x, y + size);
  pen.lineTo(x + size, y + size);
  pen.closePath();
  pen.clip();
  pen.setTransform(0, 1, 1, 0, x, y); // mirrored on the fold
  pen.drawImage(scrap, 0, 0);
  pen.setTransform(1, 0, 0, 1, 0, 0);
  pen.restore();
  pen.strokeStyle = "rgb(128 128 128 / .9)";
  pen.lineWidth = d;
  pen.beginPath();
  pen.moveTo(x, y);
  pen.lineTo(x + size, y + size);
  pen.stroke();
}

/** strip draws the stripes of the warp. */
function strip(/** @type {Cloth} */ of, /** @type {Looks} */ looks, /** @type {Box} */ box,
  /** @type {number} */ from, /** @type {number} */ to) {
  const c = clipped(box, from, to);
  if (!c) return;
  const s = (c.right - c.left) / widthMM(of);
  for (const { run, from: left, to: right } of stripes(of)) {
    const x = Math.max(c.x, Math.round(c.left + left * s));
    const w = Math.min(c.x + c.w, Math.round(c.left + right * s)) - x;
    if (w <= 0) continue;
    const [block, , colour] = of.warp.runs[run];
    pen.fillStyle = css(looks.ink(colour));
    pen.fillRect(x, c.y, w, c.h);
    const step = Object.keys(of.tables.threading).indexOf(block), d = dpr();
    pen.fillStyle = "rgb(128 128 128)"; // blocks, each on a line of its own
    pen.fillRect(x, c.foot - (2 + 3 * step) * d, w, 2 * d);
  }
}

/** outline is drawn light and dark, so that it is seen on any cloth. */
function outline(/** @type {Box} */ b) {
  for (const [style, wide] of [["#fff", 4], [accent, 2]]) {
    pen.strokeStyle = /** @type {string} */ (style);
    pen.lineWidth = /** @type {number} */ (wide);
    pen.strokeRect(b.x, b.y, b.w, b.h);
  }
}

/** runBox is where a run lies in a box of its strip. @param {Cloth} of
 *  @param {number} strip @param {number} run @param {Box} box @param {boolean} back
 *  @returns {Box} */
export function runBox(of, strip, run, box, back) {
  if (strip === WARP) {
    const { from, to } = stripes(of)[run], k = box.w / widthMM(of);
    const left = back ? widthMM(of) - to : from;
    return { x: box.x + left * k, y: box.y, w: (to - from) * k, h: box.h };
  }
  const piece = of.pieces[strip], band = bands(piece).find(b => b.run === run);
  const k = box.h / heightMM(piece), { from, to } = band || { from: 0, to: 0 };
  return { x: box.x, y: box.y + box.h - to * k, w: box.w, h: (to - from) * k };
}

/** boxesOf are the boxes of a strip: a piece's own, or for the warp the strips over the
 *  pieces and then the pieces; none for a piece that has not been drawn yet.
 *  @param {number} strip @returns {(Box & {piece: number})[]} */
export function boxesOf(strip) {
  if (strip < WARP || strip >= laid.pieces.length) return [];
  if (strip >= 0) return [{ ...sight.box(laid.pieces[strip]), piece: strip }];
  return [...laid.strips.map(s => ({ ...sight.strip(s), piece: -1 })),
    ...laid.pieces.map((p, piece) => ({ ...sight.box(p), piece }))];
}

/** chosen marks what is chosen, and its edges where handles were asked for. */
function chosen(/** @type {Cloth} */ of) {
  const s = state.selected;
  if (state.preview && state.offersOf >= 0) boxesOf(state.offersOf).forEach(outline);
  if (!s || s.strip < WARP || state.preview || state.beside) return;
  for (const box of boxesOf(s.strip)) {
    const back = box.piece >= 0 && shownBack(box.piece);
    if (s.run === null) {
      if (s.strip >= 0 || box.piece < 0) outline(box);
      continue;
    }
    const b = runBox(of, s.strip, s.run, box, back);
    if (s.strip >= 0 || box.piece < 0 || box.piece === s.via) outline(b);
    else ticks(b);
  }
  if (state.edges && s.run !== null && state.hand < 0) for (const h of handles()) handle(h);
}

/** ticks mark a stripe at the foot of a piece, so that the piece stays as it is. */
function ticks(/** @type {Box} */ b) {
  pen.fillStyle = accent;
  pen.fillRect(b.x, b.y + b.h + 1, b.w, 3);
}

/** HANDLE is how large a handle is, in pixels. */
export const HANDLE = 44;

/** handlesApart is how far two handles go to the sides, so that neither lies on the other:
 *  their edges are so many pixels from each other. @param {number} wide */
const handlesApart = wide => wide < HANDLE + 2 ? Math.sqrt((HANDLE + 2) ** 2 - wide ** 2) / 2 : 0;

/** handles are where the edges beside the chosen run can be taken hold of. */
export function handles() {
  const s = state.selected, of = cloth();
  if (!s || s.run === null || s.strip < WARP) return [];
  const runs = s.strip === WARP ? of.warp.runs : of.pieces[s.strip].runs;
  const boxes = boxesOf(s.strip), box = s.strip >= 0 ? boxes[0]
    : boxes.find(b => b.piece === s.via) || boxes[0];
  if (!box) return [];
  const back = box.piece >= 0 && shownBack(box.piece), b = runBox(of, s.strip, s.run, box, back);
  const apart = handlesApart(s.strip === WARP ? b.w : b.h), room = 30 + apart;
  const mid = { x: Math.min(Math.max(b.x + b.w / 2, room), canvas.clientWidth - room),
    y: Math.min(Math.max(b.y + b.h / 2, room), canvas.clientHeight - room) };
  const far = s.strip === WARP ? back ? [b.x, b.x + b.w] : [b.x + b.w, b.x]
    : [b.y, b.y + b.h];
  /** @type {{run: number, x: number, y: number}[]} */
  const all = [];
  [s.run, s.run - 1].forEach((run, k) => {
    if (run < 0 || run >= runs.length - 1) return;
    const off = apart * (k ? -1 : 1);
    all.push(s.strip === WARP ? { run, x: far[k], y: mid.y + off }
      : { run, x: mid.x + off, y: far[k] });
  });
  return all;
}

function handle(/** @type {{x: number, y: number}} */ h) {
  pen.beginPath();
  pen.arc(h.x, h.y, HANDLE / 2, 0, 2 * Math.PI);
  pen.fillStyle = "rgb(255 255 255 / .75)";
  pen.fill();
  pen.lineWidth = 2;
  pen.strokeStyle = accent;
  pen.stroke();
  pen.beginPath();
  pen.arc(h.x, h.y, 4, 0, 2 * Math.PI);
  pen.fillStyle = pen.strokeStyle;
  pen.fill();
}

/** thumb draws a whole set, small. @param {HTMLCanvasElement} on @param {Cloth} of
 *  @param {number} only a piece alone; -1 for all */
export function thumb(on, of, only = -1) {
  const d = dpr(), w = 132, h = 84, shown = only < 0 ? of : { ...of, pieces: [of.pieces[only]] };
  on.width = w * d;
  on.height = h * d;
  on.style.width = w + "px";
  on.style.height = h + "px";
  const ink = /** @type {CanvasRenderingContext2D} */ (on.getContext("2d"));
  const looks = looksOf(of), wide = widthMM(of), n = shown.pieces.length;
  const tall = Math.max(...shown.pieces.map(heightMM));
  let best = { scale: 0, columns: 1 };
  for (let columns = 1; columns <= n; columns++) {
    const s = Math.min((w - 3 * (columns - 1)) / columns / wide,
      (h - 3 * (Math.ceil(n / columns) - 1)) / Math.ceil(n / columns) / tall);
    if (s > best.scale) best = { scale: s, columns };
  }
  const s = best.scale * d, pw = Math.max(1, Math.round(wide * s));
  const left = (w * d - best.columns * (pw + 3 * d) + 3 * d) / 2;
  shown.pieces.forEach((p, i) => {
    const ph = Math.max(1, Math.round(heightMM(p) * s)), to = new ImageData(pw, ph);
    paint(to, shown, looks, i, { back: false, left: 0, top: 0, scale: s });
    ink.putImageData(to, Math.round(left + i % best.columns * (pw + 3 * d)),
      Math.round(Math.floor(i / best.columns) * (tall * s + 3 * d)));
  });
}
