// @ts-check
// The tags under the pieces: name, how plainly its pattern shows, which side is lighter.
// A piece is taken hold of by its tag and put into another place.

import { boxesOf, canvas } from "./cloth.js";
import { move } from "./edits.js";
import { carry, choose } from "./gestures.js";
import { $, fill, make, put } from "./parts.js";
import { state } from "./state.js";

const BESIDE = 22; // pixels of the room between two pieces that a tag may take
const LETTER = 6.8; // pixels that a letter takes, rather more than less

/** sideWords are which side is lighter, and how plainly where there is room for that.
 *  @param {string} words @param {number} wide */
const sideWords = (words, wide) =>
  (words.length + 2) * LETTER > wide ? words.split(",")[0] : words;

export function showTags() {
  const shown = state.preview || state.against ? [] : state.view.pieces;
  fill($("tags"), shown, newTag, (e, p, i) => {
    const box = boxesOf(i)[0], wide = Math.min(Math.max(64, box.w) + BESIDE, 280);
    put(e.name, i + 1 + "  " + p.name);
    put(e.state, p.kept ? p.held ? "held" : "kept" : p.chosen ? "chosen" : "");
    put(e.says, (p.weak ? "▲ " : "") + (p.grade || ""));
    put(e.side, sideWords(p.lighter || "", wide));
    e.title = (p.shows || []).join("; ");
    e.className = "tag" + (p.weak ? " weak" : "") +
      (state.selected && state.selected.strip === i ? " chosen" : "");
    Object.assign(e.style, { width: wide + "px",
      transform: "translate(" + Math.round(box.x) + "px, " +
        Math.round(box.y + box.h + 5) + "px)" });
    e.hidden = box.x > canvas.clientWidth || box.x + wide < 0 || box.y + box.h < 0 ||
      box.y + box.h > canvas.clientHeight;
  });
}

function newTag(/** @type {number} */ i) {
  const e = make("div");
  e.name = make("b");
  e.state = make("span", { className: "state" });
  e.says = make("span", { className: "line" });
  e.side = make("span", { className: "line side" });
  e.append(make("span", { className: "line" }, e.name, " ", e.state), e.says, e.side);
  e.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => {
    if (event.button > 0) return;
    const ghost = make("div", { className: "ghost" }, state.view.pieces[i].name);
    carry(event, ghost, found => found && found.piece !== i ? found.box : null,
      found => {
        if (found && found.piece !== i) {
          move(i, found.piece).then(() => choose({ strip: found.piece, run: null,
            via: found.piece }));
        }
      }, () => choose({ strip: i, run: null, via: i }));
  });
  return e;
}
