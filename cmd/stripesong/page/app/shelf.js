// @ts-check
// The shelf: every yarn, how far it goes, and its card. A yarn is taken into the hand by
// a click and given to a stripe by the next, or drawn on to it; from the hand it can be
// changed.

import { hex, newGesture, op } from "./edits.js";
import { boxAt, carry, lay, mark, onlyLooked } from "./gestures.js";
import { say } from "./messages.js";
import { $, button, fill, make, onChange, options, plain, press, put, roving, value,
  whileTyping } from "./parts.js";
import { changed, state } from "./state.js";
import { showWays } from "./tray.js";
import { openYarns } from "./dialogs.js";

const settle = roving($("colours"));

export function showShelf() {
  const { view } = state;
  fill($("colours"), view.colours, newYarn, (li, c, i) => {
    li.className = "yarn " + c.state;
    const e = li.parts, held = i === state.hand;
    put(e.name, c.name);
    put(e.says, c.state === "short" ? "" : c.says);
    e.dot.style.background = c.hex;
    e.bar.hidden = !c.stock || !c.in_use;
    e.fill.style.width = Math.min(100, 100 * c.used) + "%";
    e.pick.setAttribute("aria-pressed", held);
    e.pick.title = c.needs;
    e.ways.hidden = c.state !== "short";
    put(e.short, c.says);
    put(e.waysOf, ", ways out for " + c.name);
  });
  settle();
  hand();
  card();
}

/** hand says what is in the hand, and what would take it. */
function hand() {
  const c = state.view.colours[state.hand], s = state.selected;
  if ($("hand").hidden !== !c) mark(null);
  $("hand").hidden = !c;
  if (!c) return;
  $("hand-dot").style.background = c.hex;
  put($("hand-says"), c.name + " in your hand: " + press() + " a band, or a stripe above for all " +
    "pieces" + (s && s.run !== null ? "; what is outlined takes it first" : ""));
}

export function wireShelf() {
  $("hand-down").addEventListener("click", putDown);
  $("hand-change").addEventListener("click", changeIt);
}

/** changeIt puts the yarn down and shows its card. */
function changeIt() {
  state.colour = state.hand;
  state.hand = -1;
  changed();
  parts.title.focus({ preventScroll: true });
}

function newYarn(/** @type {number} */ i) {
  const p = { dot: make("span", { className: "dot" }), name: make("span", { className: "who" }),
    says: make("span", { className: "says" }), fill: make("i"), bar: make("span"),
    pick: make("button", { type: "button", className: "yarn-pick" }),
    short: make("span"), waysOf: make("span", { className: "unseen" }),
    ways: button("", () => showWays("yarn-short", state.view.colours[i].name),
      { className: "ways" }) };
  p.ways.append(p.short, p.waysOf);
  p.bar = make("span", { className: "bar-of" }, p.fill);
  p.pick.append(p.dot, p.name, p.says, p.bar);
  const pick = () => {
    if (onlyLooked()) return;
    state.hand = state.hand === i ? -1 : i;
    say("");
    state.colour = -1;
    changed();
  };
  p.pick.addEventListener("click", (/** @type {MouseEvent} */ e) => { if (!e.detail) pick(); });
  p.pick.addEventListener("pointerdown", (/** @type {PointerEvent} */ e) => {
    if (e.button > 0 || onlyLooked()) return;
    const c = state.view.colours[i];
    const ghost = make("div", { className: "ghost" }, c.name);
    ghost.style.borderColor = c.hex;
    carry(e, ghost, boxAt, found => { if (found) lay(found, i); }, pick);
  });
  const li = make("div", {}, p.pick, p.ways);
  li.parts = p;
  return li;
}

/** @type {any} */
let parts = null;

/** card is what can be said of one yarn. */
function card() {
  const c = state.view.colours[state.colour], box = $("yarn-card");
  box.hidden = !c;
  if (!c) {
    state.colour = -1;
    return;
  }
  if (!parts) parts = newCard(box);
  const e = parts;
  put(e.title, c.name);
  put(e.says, (c.needs ? c.needs + ", " + c.says : c.says) + ".");
  value(e.hex, c.hex);
  value(e.code, c.hex);
  value(e.name, c.name);
  value(e.stock, c.stock);
  options(e.yarn, plain(state.view.yarns.map((/** @type {any} */ y) => y.name)));
  value(e.yarn, c.yarn);
  e.drop.disabled = c.in_use || c.shelf;
}

function newCard(/** @type {any} */ box) {
  const p = { title: make("h2", { tabIndex: -1 }), says: make("p", { className: "quiet" }),
    hex: make("input", { type: "color" }), code: make("input", { spellcheck: false }),
    name: make("input"), stock: make("input", { placeholder: "as in 900 m or 250 g" }),
    yarn: make("select"), drop: button("Take off the shelf", () => op({ do: "colour.drop",
      colour: name() })) };
  const name = () => state.view.colours[state.colour].name;
  const set = (/** @type {any} */ control, /** @type {string} */ what) =>
    onChange(control, c => op({ do: what, colour: name(), value: c.value.trim() },
      { control: c }));
  whileTyping(p.hex, (c, gesture) => {
    hex(state.colour, c.value, { gesture, control: c });
    changed();
  }, newGesture);
  set(p.code, "colour.hex");
  set(p.name, "colour.name");
  set(p.stock, "colour.stock");
  set(p.yarn, "colour.yarn");
  const label = (/** @type {string} */ text, /** @type {any} */ control) =>
    make("label", {}, text + " ", control);
  box.append(make("div", { className: "head" }, p.title, button("×", putDown,
    { className: "close", ariaLabel: "Put this card away" })), p.says,
  make("div", { className: "fields" }, label("Colour", p.hex), label("Its code", p.code),
    label("Name", p.name), label("On the shelf", p.stock), label("Kind of yarn", p.yarn)),
  make("div", { className: "group" }, p.drop, button("Yarns and colours …", openYarns)));
  return p;
}

/** putDown leaves the hand empty. */
export function putDown() {
  state.hand = state.colour = -1;
  changed();
}
