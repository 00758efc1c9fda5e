// @ts-check
// Hands on the cloth. Moving over it and pinching only look; a click chooses; an edge is
// moved by a handle that was asked for, the nearest being meant.

import { HANDLE, at, boxesOf, canvas, enlarge, handles, runBox, shift } from "./cloth.js";
import { divide, edgeTo, newGesture, recolour } from "./edits.js";
import { stripeMM } from "./geometry.js";
import { say } from "./messages.js";
import { $, hold, put } from "./parts.js";
import { WARP, changed, cloth, runsOf, shownBack, state } from "./state.js";
import { endLook } from "./tray.js";
import { giveUp } from "./work.js";

/** @type {Map<number, {x: number, y: number}>} */
const down = new Map(); // fingers and buttons

/** @type {{giveUp: () => void} | null} */
let holding = null;

const SLIP = 6; // pixels that a click may move

/** choose makes something the chosen one; stays tells that it is the same as before, in
 *  another place. @param {import("./state.js").Selection | null} s @param {boolean} [stays] */
export function choose(s, stays) {
  if (onlyLooked()) return;
  const was = state.selected;
  state.selected = s;
  state.colour = -1;
  if (!s) state.hand = -1;
  if (!stays) state.choosing++;
  if (!s || !was || s.strip !== was.strip || s.run === null) state.edges = false;
  changed();
}

/** onlyLooked tells whether two versions are side by side, and says what that means. */
export function onlyLooked() {
  if (state.beside) {
    say("two versions side by side are only looked at: take the divider away first");
  }
  return !!state.beside;
}

/** click chooses the band of a piece at a place, and clicked again the stripe of the warp
 *  there; in the strip over the pieces the stripe. */
function click(/** @type {PointerEvent} */ e) {
  if (state.preview) return endLook();
  const found = at(e.clientX, e.clientY), s = state.selected;
  if (state.hand >= 0) return found || nearCloth(e) ? lay(found, state.hand) : putBack();
  if (!found) return choose(null);
  const stripe = { strip: WARP, run: found.stripe, via: found.piece };
  if (found.band === null) return choose({ ...stripe, over: true });
  if (found.band < 0) return choose({ strip: found.piece, run: null, via: found.piece });
  const band = { strip: found.piece, run: found.band, via: found.piece };
  const again = s && s.strip === band.strip && s.run === band.run;
  return choose(again ? stripe : band);
}

const MISS = 24; // pixels beside the cloth that a hand misses it by

/** nearCloth tells whether a place is hardly beside a piece. */
function nearCloth(/** @type {PointerEvent} */ e) {
  const { left, top } = canvas.getBoundingClientRect(), x = e.clientX - left;
  const y = e.clientY - top;
  return state.view.pieces.some((/** @type {any} */ _, /** @type {number} */ i) =>
    boxesOf(i).some(b => x > b.x - MISS && x < b.x + b.w + MISS && y > b.y - MISS &&
      y < b.y + b.h + MISS));
}

/** putBack lays the yarn in the hand on the empty table. */
function putBack() {
  const { name } = state.view.colours[state.hand];
  choose(null);
  say(name + " put down");
}

/** lay gives a yarn to what is meant at a place; then it is out of the hand.
 *  @param {Found} found @param {number} colour */
export function lay(found, colour) {
  const m = meant(found);
  mark(null);
  if (!found) return say("no cloth there: the yarn is still in your hand");
  if (!m) {
    return say("hems and plain bands take no pattern yarn" + (state.hand < 0 ? ""
      : ": it is still in your hand"));
  }
  choose({ strip: m.strip, run: m.run, via: found.piece, over: found.band === null });
  recolour(m.strip, m.run, colour);
}

/** near is the handle at a place. */
function near(/** @type {PointerEvent} */ e) {
  if (!state.edges || state.beside || state.hand >= 0) return null;
  const box = canvas.getBoundingClientRect();
  let best = null, least = HANDLE / 2 + 4;
  for (const h of handles()) {
    const far = Math.hypot(e.clientX - box.left - h.x, e.clientY - box.top - h.y);
    if (far < least) [best, least] = [h, far];
  }
  return best;
}

/** moveEdge draws an edge about; Escape puts it back. */
function moveEdge(/** @type {PointerEvent} */ e, /** @type {{run: number}} */ h) {
  const s = /** @type {import("./state.js").Selection} */ (state.selected), of = s.strip;
  const run = h.run, gesture = newGesture(), start = runsOf(state.view, of)[run][1];
  const box = boxesOf(of).find(b => of >= 0 || b.piece === s.via) || boxesOf(of)[0];
  const own = runBox(cloth(), of, run, box, box.piece >= 0 && shownBack(box.piece));
  const unit = (of === WARP ? own.w : own.h) / start;
  const way = of === WARP && box.piece >= 0 && shownBack(box.piece) ? -1 : 1;
  const from = of === WARP ? e.clientX : e.clientY;
  let units = start;
  holding = hold(e, {
    move: m => {
      const by = of === WARP ? way * (m.clientX - from) : from - m.clientY;
      units = start + Math.round(by / unit);
      edgeTo(of, run, units, { gesture, from: performance.now() });
      changed();
      tell(m, of, run);
    },
    end: givenUp => {
      if (givenUp) giveUp(gesture);
      holding = null;
      $("pointer").hidden = true;
      changed();
    },
  });
}

/** tell says beside the pointer what the two runs are now. */
function tell(/** @type {PointerEvent} */ e, /** @type {number} */ of,
  /** @type {number} */ run) {
  const box = canvas.getBoundingClientRect(), words = edgeWords(of, run);
  put($("pointer"), words);
  $("pointer").hidden = false;
  const most = box.width - $("pointer").offsetWidth - 4;
  $("pointer").style.left = Math.max(4, Math.min(e.clientX - box.left + 20, most)) + "px";
  $("pointer").style.top = Math.max(4, e.clientY - box.top - 56) + "px";
}

/** inchWords are millimetres as a ruler of inches shows them: eighths, below half an inch
 *  sixteenths. @param {number} mm */
function inchWords(mm) {
  let parts = mm < 12.7 ? 16 : 8, n = Math.round(parts * mm / 25.4);
  const whole = Math.floor(n / parts);
  for (n -= whole * parts; n && n % 2 === 0; n /= 2) parts /= 2;
  const words = whole || !n ? [whole] : [];
  return (n ? [...words, n + "/" + parts] : words).join(" ") + " in";
}

/** edgeWords are the units and the finished size of a run and the next, and the shares of
 *  the blocks. @param {number} of @param {number} run */
export function edgeWords(of, run) {
  const c = cloth(), runs = runsOf(c, of), inches = unitsOf() === "in";
  const wide = of === WARP ? stripeMM(c) : c.pieces[of].runs.map(r => r[1] * c.pieces[of].unit_mm);
  const long = (/** @type {number} */ v) => inches ? inchWords(v) : (v / 10).toFixed(1) + " cm";
  const two = [runs[run], runs[run + 1]].filter(Boolean)
    .map((r, i) => (r[0] || "plain") + " " + r[1] + " (" + long(wide[run + i]) + ")").join(" | ");
  return two + "\n" + shareWords(runs);
}

const unitsOf = () => (state.view.settings.find((/** @type {any} */ s) => s.key === "units") ||
  {}).value;

/** shareWords tells how much of a strip each block has. @param {any[]} runs */
export function shareWords(runs) {
  const of = /** @type {Object<string, number>} */ ({});
  let all = 0;
  for (const [block, units] of runs) {
    if (!block) continue;
    of[block] = (of[block] || 0) + units;
    all += units;
  }
  return Object.keys(of).sort().map(b => b + " " + Math.round(100 * of[b] / all) + " %")
    .join(", ");
}

/** look moves what is seen, or with two fingers enlarges it. */
function look(/** @type {PointerEvent} */ e) {
  const at = down.get(e.pointerId);
  if (!at || holding) return;
  const others = [...down].filter(([id]) => id !== e.pointerId).map(([, p]) => p);
  if (others.length) {
    const [o] = others, before = Math.hypot(at.x - o.x, at.y - o.y);
    const after = Math.hypot(e.clientX - o.x, e.clientY - o.y);
    enlarge(after / Math.max(before, 1), (e.clientX + o.x) / 2, (e.clientY + o.y) / 2);
    shift((e.clientX - at.x) / 2, (e.clientY - at.y) / 2);
  } else shift(e.clientX - at.x, e.clientY - at.y);
  down.set(e.pointerId, { x: e.clientX, y: e.clientY });
}

let moved = false, double = { at: 0, x: 0, y: 0 };

function press(/** @type {PointerEvent} */ e) {
  if (e.button > 0) return;
  if (!down.size) moved = false;
  else moved = true; // a second finger never clicks
  canvas.parentElement?.focus({ preventScroll: true });
  const h = !down.size && near(e);
  down.set(e.pointerId, { x: e.clientX, y: e.clientY });
  if (h) {
    moved = true;
    moveEdge(e, h);
  }
  canvas.setPointerCapture(e.pointerId);
  start = { x: e.clientX, y: e.clientY };
}

let start = { x: 0, y: 0 };

function slide(/** @type {PointerEvent} */ e) {
  if (!down.has(e.pointerId)) {
    canvas.style.cursor = near(e) ? state.selected?.strip === WARP ? "ew-resize"
      : "ns-resize" : "";
    if (state.hand >= 0 && !down.size) mark(boxAt(at(e.clientX, e.clientY)));
    return;
  }
  if (!moved && Math.hypot(e.clientX - start.x, e.clientY - start.y) < SLIP) return;
  moved = true;
  look(e);
}

function lift(/** @type {PointerEvent} */ e) {
  if (!down.delete(e.pointerId) || moved || e.type === "pointercancel") return;
  const now = performance.now(), twice = e.pointerType !== "touch" && now - double.at < 400 &&
    Math.hypot(e.clientX - double.x, e.clientY - double.y) < SLIP;
  double = { at: twice ? 0 : now, x: e.clientX, y: e.clientY };
  const s = state.selected;
  if (twice && s && s.run !== null && !state.beside) divide(s.strip, s.run);
  else click(e);
}

/** tapOnce has a tap of a finger be one thing: the click that follows it would fall on what
 *  the tap brought out under it. @param {HTMLElement} e */
const tapOnce = e => e.addEventListener("touchend",
  event => { if (event.cancelable) event.preventDefault(); }, { passive: false });

/** wireCloth listens to hands on the cloth. */
export function wireCloth() {
  tapOnce(canvas);
  tapOnce($("tags"));
  canvas.addEventListener("pointerdown", press);
  canvas.addEventListener("pointermove", slide);
  canvas.addEventListener("pointerup", lift);
  canvas.addEventListener("pointercancel", lift);
  canvas.addEventListener("pointerleave", () => { if (state.hand >= 0) mark(null); });
  wireTags();
  canvas.addEventListener("wheel", e => {
    e.preventDefault();
    const line = e.deltaMode === 1 ? 16 : 1;
    if (e.shiftKey) return shift(-(e.deltaY + e.deltaX) * line, 0);
    if (Math.abs(e.deltaX) > Math.abs(e.deltaY)) return shift(-e.deltaX * line, 0);
    enlarge(Math.exp(-e.deltaY * line * (e.ctrlKey ? 0.01 : 0.0015)), e.clientX, e.clientY);
  }, { passive: false });
}

/** fingersDown is how many fingers are on the cloth. */
export const fingersDown = () => down.size;

/** wireTags lets a finger on the name of a piece zoom the cloth together with another. */
function wireTags() {
  const tags = $("tags"), up = (/** @type {PointerEvent} */ e) => { down.delete(e.pointerId); };
  tags.addEventListener("pointerdown", (/** @type {PointerEvent} */ e) => {
    if (e.pointerType !== "touch") return;
    if (down.size) moved = true;
    down.set(e.pointerId, { x: e.clientX, y: e.clientY });
  });
  tags.addEventListener("pointermove", (/** @type {PointerEvent} */ e) => {
    if (!down.has(e.pointerId)) return;
    if (down.size > 1) look(e);
    else down.set(e.pointerId, { x: e.clientX, y: e.clientY });
  });
  tags.addEventListener("pointerup", up);
  tags.addEventListener("pointercancel", up);
}

/** carry draws something over the cloth: a yarn on to a stripe, or a piece to another
 *  place. Over is told where it is and gives the box that is meant, drop does it.
 *  @param {PointerEvent} event @param {HTMLElement} ghost
 *  @param {(found: Found) => {x: number, y: number, w: number, h: number} | null} over
 *  @param {(found: Found) => void} drop @param {() => void} still
 *  @typedef {ReturnType<typeof at>} Found */
export function carry(event, ghost, over, drop, still) {
  const x = event.clientX, y = event.clientY;
  let begun = false;
  hold(event, {
    move: e => {
      if (!begun && Math.hypot(e.clientX - x, e.clientY - y) < SLIP) return;
      if (!begun) document.body.append(ghost);
      begun = true;
      ghost.style.left = e.clientX + 8 + "px";
      ghost.style.top = e.clientY + 8 + "px";
      mark(over(at(e.clientX, e.clientY)));
      event = e;
    },
    end: givenUp => {
      ghost.remove();
      mark(null);
      if (givenUp) return;
      if (!begun) still();
      else drop(at(event.clientX, event.clientY));
    },
  });
}

/** mark shows what is meant; null for nothing.
 *  @param {{x: number, y: number, w: number, h: number} | null} b */
export function mark(b) {
  const e = $("meant");
  e.hidden = !b;
  if (!b) return;
  Object.assign(e.style, { left: b.x + "px", top: b.y + "px", width: b.w + "px",
    height: b.h + "px" });
}

/** taking is what a yarn would go on at a place: what is chosen already, the stripe in the
 *  strip over the pieces, or the band of a piece; null for none.
 *  @param {NonNullable<Found>} found */
function taking(found) {
  const { piece, stripe, band } = found, s = state.selected;
  const chosen = !!s && s.strip === WARP && s.run === stripe;
  if (chosen || band === null) return { strip: WARP, run: stripe };
  return band < 0 ? null : { strip: piece, run: band };
}

/** meant is the run at a place that a yarn would colour, and its box.
 *  @param {Found} found */
export function meant(found) {
  const to = found && taking(found);
  if (!found || !to || !runsOf(cloth(), to.strip)[to.run][0]) return null;
  const back = found.band !== null && shownBack(found.piece);
  return { ...to, box: runBox(cloth(), to.strip, to.run, found.box, back) };
}

/** boxAt is the box of what is meant. @param {Found} found */
export const boxAt = found => { const m = meant(found); return m && m.box; };
