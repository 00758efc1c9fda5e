// @ts-check
// The keyboard. The cloth is one stop: arrows go from piece to piece, Enter goes into one,
// arrows then go from band to band; with Shift they move the edge.

import { boxesOf, canvas, enlarge, showAll, shift } from "./cloth.js";
import { askEdges } from "./card.js";
import { divide, nudge, op, recolour, swap } from "./edits.js";
import { choose } from "./gestures.js";
import { $, fill, make, put } from "./parts.js";
import { WARP, changed, cloth, label, nameOf, runsOf, state } from "./state.js";
import { closeTray, partBeside, trayOpen } from "./tray.js";
import { putDown } from "./shelf.js";
import { save, turnOver } from "./bar.js";
import { send } from "./work.js";

/** showList tells who can't see what there is to choose from, and what is chosen. */
export function showList() {
  const s = state.selected, list = $("stage"), into = s && s.run !== null && s.strip >= WARP;
  const said = into ? runsOf(cloth(), s.strip).map(label)
    : [nameOf(WARP), ...state.view.pieces.map((/** @type {any} */ p, /** @type {number} */ i) =>
      [nameOf(i), p.grade, p.lighter].filter(Boolean).join(", "))];
  const now = into ? s.run : s && s.strip >= WARP ? s.strip + 1 : -1;
  list.setAttribute("aria-label", into
    ? (s.strip === WARP ? "Stripes of " : "Bands of ") + nameOf(s.strip)
    : "The cloth: the warp and the pieces, first woven first");
  fill($("choices"), said, i => make("div", { role: "option", id: "choice-" + i }),
    (e, text, i) => {
      put(e, text);
      e.setAttribute("aria-selected", i === now);
    });
  if (now === null || now < 0) list.removeAttribute("aria-activedescendant");
  else list.setAttribute("aria-activedescendant", "choice-" + now);
}

/** onCloth is a key while the cloth has the focus. */
function onCloth(/** @type {KeyboardEvent} */ e) {
  const s = state.selected;
  if (state.beside) return;
  const way = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, 1],
    ArrowDown: [0, -1] }[e.key];
  const five = { PageUp: 5, PageDown: -5 }[e.key];
  if (s && s.run !== null && s.strip >= WARP) {
    const runs = runsOf(cloth(), s.strip);
    const by = way ? s.strip === WARP ? way[0] || -way[1] : way[1] || way[0] : 0;
    if (by && !e.shiftKey) {
      choose({ ...s, run: Math.min(Math.max(0, s.run + by), runs.length - 1) });
    } else if (by || five) nudge(s.strip, s.run, five || by);
    else if (e.key === "d") divide(s.strip, s.run);
    else if (e.key === "s") swap();
    else if (e.key === "e") askEdges();
    else if (e.key === "Enter" && state.hand >= 0) recolour(s.strip, s.run, state.hand);
    else if (e.key === "Delete") op({ do: "drop", run: s.run });
    else if (e.key === "Escape") choose({ ...s, run: null });
    else return;
  } else if (way) {
    const at = s && s.strip >= WARP ? s.strip : way[0] + way[1] > 0 ? -2 : 1;
    const to = Math.min(Math.max(WARP, at + (way[0] || -way[1])), state.view.pieces.length - 1);
    choose({ strip: to, run: null, via: Math.max(0, to) });
  } else if ((e.key === "Enter" || e.key === " ") && s && s.strip >= WARP) {
    choose({ ...s, run: 0, via: Math.max(0, s.via) });
  } else if (e.key === "Escape" && s) choose(null);
  else return;
  e.preventDefault();
  e.stopPropagation();
  bringIntoSight();
}

function bringIntoSight() {
  const s = state.selected;
  if (!s || s.strip < 0) return;
  const b = boxesOf(s.strip)[0], w = canvas.clientWidth, h = canvas.clientHeight;
  if (!b) return;
  const dx = b.x > w - 40 ? w - 40 - b.x - b.w / 2 : b.x + b.w < 40 ? 40 - b.x : 0;
  const dy = b.y > h - 40 ? h - 40 - b.y - b.h / 2 : b.y + b.h < 40 ? 40 - b.y : 0;
  if (dx || dy) shift(dx, dy);
}

const TYPING = "input:not([type=checkbox], [type=radio], [type=range], [type=color]), textarea";

function anywhere(/** @type {KeyboardEvent} */ e) {
  const on = /** @type {HTMLElement} */ (e.target), typing = on.matches(TYPING);
  const key = e.key.toLowerCase();
  if ((e.ctrlKey || e.metaKey) && !e.altKey) {
    if (key === "s") save();
    else if (typing && on.dataset.typing) return;
    else if (key === "z" && !e.shiftKey) send("undo", {});
    else if (key === "y" || key === "z") send("redo", {});
    else return;
    e.preventDefault();
  } else if (!typing && !e.altKey && on.tagName !== "SELECT" &&
    !document.querySelector("dialog[open]")) {
    const box = canvas.getBoundingClientRect(), x = box.left + box.width / 2;
    const y = box.top + box.height / 2;
    if (key === "f") turnOver();
    else if (key === "+" || key === "=") enlarge(1.25, x, y);
    else if (key === "-") enlarge(0.8, x, y);
    else if (key === "0") showAll();
    else if (key === "escape") escape();
  }
}

/** escape puts away what was last brought out. */
function escape() {
  if (state.colour >= 0) putDown();
  else if (state.beside) partBeside();
  else if (trayOpen()) closeTray();
  else if (state.selected) choose(null);
}

/** handFirst puts the yarn in the hand down before Escape does anything else. */
function handFirst(/** @type {KeyboardEvent} */ e) {
  const on = /** @type {HTMLElement} */ (e.target);
  if (e.key !== "Escape" || state.hand < 0 ||
    document.querySelector("dialog[open], :popover-open")) return;
  if (on.dataset.typing || on.dataset.refused !== undefined) { // its card stays
    state.hand = -1;
    return changed();
  }
  e.preventDefault();
  e.stopPropagation();
  putDown();
}

export function wireKeys() {
  document.addEventListener("keydown", handFirst, true);
  $("stage").addEventListener("keydown", onCloth);
  document.addEventListener("keydown", anywhere);
}
