// @ts-check
// The tray: a row of small sets to look at. Others, earlier steps, ways out, and what was
// pinned; each is shown in the cloth before it is taken, and two can be held together.

import { canvas, redraw, thumb } from "./cloth.js";
import { say } from "./messages.js";
import { $, button, fill, hold, make, onChange, onNumber, options, plain, put,
  roving } from "./parts.js";
import { WEFT, changed, nameOf, state, whole } from "./state.js";
import { send } from "./work.js";

/**
 * @typedef {{id: number, back?: number, pin?: number, what: string, costs?: string[],
 *   cloth: import("./threads.js").Cloth}} Item
 */

/** @type {{title: string, said: string, items: Item[], edition: number, strip: number,
 *   again: (() => void) | null, steps: boolean, took?: string} | null} */
let open = null;

/** @type {Item | null} */
let held = null; // tapped, and looked at until it is taken or something else is done

const OTHERS = 6;

/** said is what she says that the others of a piece or the warp are to be. */
const said = () => ({ kind: $("say-kind").value, bands: Number($("say-bands").value) || 0,
  manner: $("say-manner").value, loose: $("say-loose").checked });

/** only are the colours that another set may have, by their names; none for any. */
const only = () => [...$("say-set").querySelectorAll("input:checked")].map(e => e.value);

/** askOthers looks for others of a strip, or of the whole set. @param {number} strip
 *  @param {boolean} unlike */
export function askOthers(strip, unlike) {
  if (strip === WEFT) state.selected = null;
  const of = strip === WEFT ? "the whole set" : nameOf(strip);
  look("Others " + (unlike ? "unlike " : "like ") + of, "others",
    { strip, unlike, count: OTHERS, ...(strip === WEFT ? { colours: only() } : said()) }, strip,
    () => askOthers(strip, unlike));
}

/** showWays looks for ways out of a trouble. @param {string} code @param {string} about */
export const showWays = (code, about) => look("Ways out" + (about ? " for " + about : ""), "ways",
  { code, about }, WEFT, null);

/** showSteps draws the steps so far. */
export const showSteps = () => look("Every step so far, the latest first", "steps", {}, WEFT, null);

/** @param {string} title @param {string} verb @param {object} body @param {number} strip
 *  @param {(() => void) | null} again */
async function look(title, verb, body, strip, again) {
  state.offersOf = verb === "steps" ? -9 : strip;
  open = { title, said: "looking …", items: [], edition: state.view.edition, strip, again,
    steps: verb === "steps" };
  if (open.steps) stepsAsked = state.view.edition;
  state.hand = state.colour = -1; // a yarn's card would hide what is looked at
  changed();
  const mine = open, answer = await send(verb, body);
  if (open !== mine) return;
  endLook();
  open.items = itemsOf(answer);
  open.edition = stepsAt = state.view.edition;
  open.said = open.items.length ? stays(open) : (answer.said || "nothing was found");
  changed();
  if (document.activeElement === document.body) $("tray-title").focus({ preventScroll: true });
}

const itemsOf = (/** @type {import("./program.js").Answer} */ answer) =>
  (answer.offers || []).map((/** @type {any} */ o) => ({ ...o, cloth: whole(o.sketch) }));

// the editions that the steps are of, and were asked for last
let stepsAt = -1, stepsAsked = -1;

/** followSteps draws the steps anew when there was one, or one was undone. */
async function followSteps() {
  const mine = open, { edition } = state.view;
  if (!mine || stepsAt === edition || stepsAsked === edition) return;
  stepsAsked = edition;
  const answer = await send("steps", {}, { gesture: "steps" });
  if (open !== mine || !answer.ok) return;
  endLook();
  mine.items = itemsOf(answer);
  stepsAt = state.view.edition;
  changed();
}

/** stays says of other sets which pieces they have as they are. @param {any} of */
const stays = of => of.again && of.strip === WEFT &&
  state.view.pieces.some((/** @type {any} */ p) => p.kept)
  ? "kept pieces stay" : "";

/** showPins shows what was pinned. */
export function showPins() {
  open = { title: "Pinned", said: "", items: [], edition: -1, strip: WEFT, again: null,
    steps: false };
  state.offersOf = -9;
  changed();
}

export function closeTray() {
  open = null;
  state.offersOf = -9;
  endLook();
  changed();
}

/** trayOpen tells whether there is one. */
export const trayOpen = () => !!open;

const settle = roving($("tray-row")), settleOnly = roving($("say-set"));

export function showTray() {
  const { view } = state;
  $("tray").hidden = !open;
  divider();
  if (!open) return;
  if (open.steps) followSteps();
  else if (open.edition >= 0 && open.edition !== view.edition) { // of another version
    open.said = open.took ? "taken: " + open.took + "; the others are as they were offered"
      : "offered before your latest change" + (open.again ? ": ask again for new ones" : "");
    open.edition = view.edition;
    endLook();
  }
  put($("tray-title"), open.title);
  if (!state.preview) put($("tray-said"), open.said);
  $("tray-again").hidden = !open.again || !open.items.length;
  $("say").hidden = !open.again || open.strip === WEFT;
  $("say-set").hidden = !open.again || open.strip !== WEFT;
  fill($("say-set"), view.colours, newOnly, (l, c) => {
    l.tick.value = c.name;
    l.dot.style.background = c.hex;
    put(l.name, c.name);
  });
  settleOnly();
  options($("say-kind"), [["", "any"], ...plain(state.lists.kinds.map(
    (/** @type {any} */ k) => k.kind))]);
  const pins = view.pins.map((/** @type {any} */ p) => ({ id: 0, pin: p.id, what: p.what,
    cloth: whole(p.sketch) }));
  if (open.title === "Pinned" && !pins.length) put($("tray-said"), "nothing is pinned yet");
  const shown = open.again || open.title === "Pinned" ? pins : [];
  fill($("tray-row"), [...open.items, ...shown], newItem, showItem);
  settle();
  showTake();
}

/** newOnly is a chip that asks for one colour, and with it for no others. */
function newOnly() {
  const tick = make("input", { type: "checkbox", onchange: () => open && open.again &&
    open.again() });
  const dot = make("span", { className: "dot" }), name = make("span");
  return Object.assign(make("label", { className: "chip" }, tick, dot, name), { tick, dot, name });
}

function newItem() {
  const p = { canvas: make("canvas", { role: "img" }), what: make("span"), small: make("small"),
    take: make("button", { type: "button", className: "take" }) };
  const li = make("li"), item = () => li.item;
  p.take.append(p.canvas, p.what, p.small);
  let finger = false; // it was a finger that touched it last
  const byMouse = (/** @type {() => void} */ act) => (/** @type {PointerEvent} */ e) => {
    if (e.pointerType !== "touch") act();
  };
  p.take.addEventListener("pointerdown", (/** @type {PointerEvent} */ e) => {
    finger = e.pointerType === "touch";
  });
  p.take.addEventListener("click", (/** @type {MouseEvent} */ e) => {
    if (finger && e.detail && held !== item()) holdLook(item());
    else take(item());
  });
  p.take.addEventListener("focus", () => { if (!held) peek(item()); });
  p.take.addEventListener("blur", lookOn);
  p.take.addEventListener("pointerenter", byMouse(() => peek(item())));
  p.take.addEventListener("pointerleave", byMouse(lookOn));
  const pin = button("Pin", () => item().pin ? send("pin", { pinned: item().pin })
    : pinIt(item()));
  const beside = button("Beside", () => holdBeside(item()));
  li.parts = { ...p, pin, beside };
  li.append(p.take, make("span", { className: "group" }, pin, beside));
  return li;
}

/** pinIt keeps one in the tray. */
async function pinIt(/** @type {Item} */ item) {
  const answer = await send("pin", { offer: item.id, what: item.what });
  if (answer.ok) say("pinned: it stands last in this row, and under More, pinned versions");
}

function showItem(/** @type {any} */ li, /** @type {Item} */ item) {
  const p = li.parts, back = item.back !== undefined && !item.id && !item.pin;
  const only = open && open.strip >= 0 && !item.pin ? open.strip : -1;
  if (li.item !== item || li.eyes !== state.eyes) thumb(p.canvas, item.cloth, only);
  li.item = item;
  li.eyes = state.eyes;
  const what = called(item);
  put(p.what, (item.pin ? "pinned: " : "") + what);
  put(p.small, back ? item.back === 0 ? "now" : /** @type {number} */ (item.back) > 0
    ? item.back + " back" : "undone" : (item.costs || []).join("; "));
  p.canvas.setAttribute("aria-label", what);
  p.pin.hidden = back;
  put(p.pin, item.pin ? "Unpin" : "Pin");
  p.pin.setAttribute("aria-label", (item.pin ? "Unpin: " : "Pin: ") + what);
  p.beside.setAttribute("aria-label", "Hold beside: " + what);
}

/** called is what one is called. @param {Item} item */
const called = item => item.what || (item.back !== undefined ? "as it was opened" : "this one");

/** holdLook goes on looking at one that was tapped. */
function holdLook(/** @type {Item} */ item) {
  if (state.beside) partBeside();
  peek(held = item);
  showTake();
}

/** lookOn looks at what was tapped, or at none. */
const lookOn = () => peek(held);

/** endLook shows what is worked on again. */
export function endLook() {
  held = null;
  lookOn();
  showTake();
}

function showTake() {
  $("tray-take").hidden = !held;
  for (const li of $("tray-row").children) li.classList.toggle("held", li.item === held);
}

/** take makes it the one that is worked on. */
async function take(/** @type {Item} */ item) {
  const from = open;
  endLook();
  partBeside();
  if (from) from.took = called(item);
  await makeIt(item);
  if (from) from.took = "";
}

async function makeIt(/** @type {Item} */ item) {
  if (item.pin) await send("pin", { pinned: item.pin, take: true });
  else if (item.id) await send("take", { offer: item.id });
  else if (item.back) {
    const seen = stepsAt;
    await send("go", () => seen === state.view.edition ? { back: item.back } : null);
  }
}

/** peek shows one in the cloth, as long as it is pointed at. */
function peek(/** @type {Item | null} */ item) {
  const to = item ? item.cloth : null;
  if (state.preview === to) return;
  state.preview = to;
  document.body.classList.toggle("peeking", !!to);
  if (open) put($("tray-said"), item ? "looked at, not taken: " + called(item) : open.said);
  redraw();
}

/* two held against each other */

/** @type {Item | null} */
let right = null;

/** holdBeside holds one against what is worked on; a second one against the first. */
function holdBeside(/** @type {Item} */ item) {
  const against = state.beside && right && right !== item ? right : null;
  endLook();
  partBeside();
  if (against) state.against = { what: called(against), cloth: against.cloth };
  right = item;
  state.beside = { what: called(item), cloth: item.cloth };
  state.hand = state.colour = -1;
  changed();
}

/** holdPresent pins the present version. */
export const pinThis = () => send("pin", { what: state.view.undo || "as it was opened" });

export function partBeside() {
  state.beside = null;
  state.against = null;
  right = null;
  changed();
}

function divider() {
  const bar = $("divider"), { beside } = state;
  bar.hidden = $("beside").hidden = !beside;
  if (!beside) return;
  const part = Math.round(100 * state.divider);
  bar.style.left = part + "%";
  bar.setAttribute("aria-valuenow", part);
  put($("beside-what"), "left: " + (state.against ? state.against.what : "yours, as it is now") +
    "; right: " + beside.what + ". Only to look at.");
}

export function wireTray() {
  const bar = $("divider");
  const to = (/** @type {number} */ part) => {
    state.divider = Math.min(1, Math.max(0, part));
    divider();
    redraw();
  };
  bar.addEventListener("keydown", (/** @type {KeyboardEvent} */ e) => {
    const by = { ArrowLeft: -0.02, ArrowRight: 0.02, Home: -1, End: 1 }[e.key];
    if (!by) return;
    e.preventDefault();
    to(state.divider + by);
  });
  bar.addEventListener("pointerdown", (/** @type {PointerEvent} */ e) => {
    e.preventDefault();
    bar.focus();
    const was = state.divider, box = canvas.getBoundingClientRect();
    hold(e, { move: m => to((m.clientX - box.left) / box.width),
      end: givenUp => { if (givenUp) to(was); } });
  });
  const again = () => open && open.again && open.again();
  for (const id of ["say-kind", "say-manner", "say-loose"]) onChange($(id), again);
  onNumber($("say-bands"), again, () => "");
  $("beside-part").addEventListener("click", partBeside);
  $("tray-close").addEventListener("click", closeTray);
  $("tray-take").addEventListener("click", () => { if (held) take(held); });
  $("tray-again").addEventListener("click", () => open && open.again && open.again());
}

