// @ts-check
// The tags under the pieces: name, how plainly its pattern shows, which side is lighter.
// A piece is taken hold of by its tag and put into another place.

import { boxesOf, canvas } from "./cloth.js";
import { move } from "./edits.js";
import { carry, choose, fingersDown, onlyLooked } from "./gestures.js";
import { HEADBAND, gapOf } from "./layout.js";
import { say } from "./messages.js";
import { $, fill, make, put } from "./parts.js";
import { cloth, state } from "./state.js";
import { endLook } from "./tray.js";

const BELOW = 5; // pixels between a piece and its name
const LETTER = 6.8; // pixels that a letter takes, rather more than less

/** fitting is the first of some words that there is room for, or the last of them.
 *  @param {number} wide @param {string[]} ways */
const fitting = (wide, ...ways) =>
  ways.find(w => (w.length + 2) * LETTER <= wide) || ways[ways.length - 1];

/** gradeWords are how plainly a piece shows: all, without the distance, or as the
 *  summary has it. @param {string} words @param {number} wide */
const gradeWords = (words, wide) => {
  const grade = words.replace(/ at .*/, "");
  return fitting(wide, words, grade, grade.replace(" to ", "–"), "");
};

export function showTags() {
  const of = /** @type {any} */ (cloth()), looked = of !== state.view && of.shows;
  const shown = looked ? of.pieces.map((/** @type {any} */ p, /** @type {number} */ i) =>
    ({ name: p.name, ...of.shows[i] })) : state.view.pieces;
  fill($("tags"), shown, newTag, (e, p, i) => {
    const box = boxesOf(i)[0], room = canvas.clientWidth, side = p.lighter || "";
    const wide = Math.min(Math.max(40, Math.min(box.w + gapOf(room) - 4, 280,
      room - Math.max(0, box.x) - 2)), 280);
    put(e.name, i + 1 + "  " + p.name);
    put(e.state, p.kept ? "kept" : p.chosen ? "chosen" : "");
    e.state.title = p.kept ? "Kept: woven as it is now. Its rhythm is not asked, and a new " +
      "choice of the set leaves it." : p.chosen ? "Chosen by the program: another set has " +
      "another." : "";
    put(e.says, (p.weak ? "▲ " : "") + gradeWords(p.grade || "", wide - (p.weak ? 16 : 0)));
    put(e.side, fitting(wide - 16, side, side.split(";")[0], side.split(" ")[0]));
    e.title = (p.shows || []).join("; ");
    e.className = "tag" + (p.weak ? " weak" : "") + (side ? "" : " short") +
      ((looked ? state.offersOf : state.selected && state.selected.strip) === i ? " chosen" : "");
    Object.assign(e.style, { width: wide + "px",
      transform: "translate(" + Math.round(box.x) + "px, " +
        Math.round(box.y + box.h + BELOW) + "px)" });
    e.hidden = box.x > canvas.clientWidth || box.x + wide < 0 || box.y + box.h + BELOW < HEADBAND ||
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
    if (event.button > 0 || fingersDown() || onlyLooked()) return;
    if (state.preview) return endLook();
    const ghost = make("div", { className: "ghost" }, state.view.pieces[i].name);
    carry(event, ghost, found => found && found.piece !== i ? found.box : null,
      found => {
        if (found && found.piece !== i) {
          move(i, found.piece).then(() => choose({ strip: found.piece, run: null,
            via: found.piece }));
        }
      }, () => state.hand < 0 ? choose({ strip: i, run: null, via: i })
        : say("a yarn goes on a band or a stripe: it is still in your hand"));
  });
  return e;
}
