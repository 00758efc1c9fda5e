// @ts-check
// The card beside what is chosen: its controls, and what can be said of it.

import { boxesOf, canvas, runBox, sight } from "./cloth.js";
import { divide, edgeOf, move, newGesture, nudge, op, swap } from "./edits.js";
import { choose, edgeWords, shareWords } from "./gestures.js";
import { $, accepted, button, fill, make, onChange, onNumber, options, plain, press, put, roving,
  value } from "./parts.js";
import { WARP, WEFT, changed, cloth, label, nameOf, runsOf, shownBack, state } from "./state.js";
import { askOthers } from "./tray.js";

const box = $("card");
const stripOf = () => state.selected ? state.selected.strip : WARP;
const runOf = () => state.selected && state.selected.run !== null ? state.selected.run : 0;

/** viewOf is what the program says of a strip. @param {number} strip */
const viewOf = strip => strip === WARP ? state.view.warp : strip === WEFT ? state.view.weft
  : state.view.pieces[strip];

/** @type {any} */
let parts = null;
let shown = "", shownOf = "";

export function showCard() {
  const s = state.selected, kind = !s ? "" : s.run !== null ? "run" : "strip";
  box.hidden = !s || !!state.preview || !!state.beside || state.colour >= 0 || state.hand >= 0;
  if (!s) return;
  if (kind !== shown) {
    box.replaceChildren();
    parts = kind === "run" ? newRunCard() : newStripCard();
    shown = kind;
  }
  const of = s.strip + " " + s.run;
  if (of !== shownOf) for (const c of box.querySelectorAll("[data-refused]")) accepted(c);
  shownOf = of;
  if (kind === "run") showRun(s.strip, runOf());
  else showStrip(s.strip);
  for (const settle of parts.settle) settle();
}

/** head is the title of a card, with what puts it away. */
function head(/** @type {any} */ p) {
  p.title = make("h2");
  p.words = make("p", { className: "quiet" });
  return [make("div", { className: "head" }, p.title, button("×", () => choose(null),
    { className: "close", ariaLabel: "Put this card away" })), p.words];
}

const field = (/** @type {string} */ text, /** @type {any} */ control) =>
  make("label", {}, text + " ", control);

/** tools are buttons that are one stop of the Tab key. */
function tools(/** @type {any} */ p, /** @type {string} */ name, /** @type {any[]} */ all) {
  const group = make("div", { className: "group", role: "toolbar", "aria-label": name }, ...all);
  p.settle.push(roving(group));
  return group;
}

/* a stripe or a band */

function newRunCard() {
  const p = { settle: [] }, /** @type {any} */ q = p;
  q.block = make("select", { id: "run-block" });
  q.units = make("input", { id: "run-units", type: "number", min: 1, required: true,
    inputMode: "numeric" });
  q.colour = make("select", { id: "run-colour" });
  onChange(q.block, c => op({ do: "reblock", run: runOf(), value: c.value }, { control: c }));
  onChange(q.colour, c => op({ do: "recolour", run: runOf(),
    colour: state.view.colours[c.value].name }, { control: c }));
  onNumber(q.units, (n, how) => op({ do: "units", run: runOf(), to: Number(n) }, how),
    newGesture);
  q.edges = button("Move edges", askEdges, { id: "edges" });
  q.split = button("Divide", () => divide(stripOf(), runOf()), { id: "split" });
  q.swap = button("Swap with next", swap, { id: "swap" });
  q.out = button("Take out", () => op({ do: "drop", run: runOf() }), { id: "out" });
  q.narrower = edgeButton("One narrower", -1, "narrower");
  q.wider = edgeButton("One wider", 1, "wider");
  q.edgeSays = make("output", { className: "quiet" });
  q.edgeBox = make("div", { className: "edge-box", role: "group", "aria-label": "Its edge" },
    q.narrower, q.wider, q.edgeSays);
  q.edgeBox.addEventListener("keydown", edgeKey);
  q.strip = button("", () => choose({ strip: stripOf(), run: null,
    via: state.selected ? state.selected.via : 0 }), { id: "whole" });
  box.append(...head(q), make("div", { className: "fields three" }, field("Block", q.block),
    field("Units", q.units), field("Colour", q.colour)),
  tools(q, "This stripe or band", [q.edges, q.split, q.swap, q.out]), q.edgeBox,
  make("div", { className: "group" }, q.strip));
  return p;
}

/** edgeButton moves the edge by a unit. A press that becomes a scroll is none.
 *  @param {string} text @param {number} by @param {string} id */
const edgeButton = (text, by, id) => button(text, () => moveEdge(by), { id });

function moveEdge(/** @type {number} */ by) {
  nudge(stripOf(), runOf(), by);
  changed();
}

function edgeKey(/** @type {KeyboardEvent} */ e) {
  const by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -5,
    PageUp: 5 }[e.key];
  if (!by) return;
  e.preventDefault();
  moveEdge(by);
}

/** askEdges shows the handles of the edges, or puts them away. */
export function askEdges() {
  state.edges = !state.edges;
  changed();
}

function showRun(/** @type {number} */ strip, /** @type {number} */ run) {
  const p = parts, runs = runsOf(cloth(), strip), r = runs[run], warp = strip === WARP;
  if (!r) return;
  put(p.title, label(r));
  put(p.words, (warp ? "Stripe " : "Band ") + (run + 1) + " of " + runs.length + " of " +
    nameOf(strip) + (warp ? ", from the left; " : ", first woven first; ") +
    viewOf(strip).size + " finished" + again(strip));
  const blocks = plain(Object.keys(state.view.tables.threading));
  options(p.block, warp ? blocks : [...blocks, ["plain", "plain"]]);
  value(p.block, r[0] || "plain");
  value(p.units, String(r[1]));
  options(p.colour, state.view.colours.map((/** @type {any} */ c, /** @type {number} */ i) =>
    [i, c.name]));
  value(p.colour, String(r[2]));
  p.colour.disabled = r[2] < 0;
  const next = runs[run + 1];
  p.edges.disabled = runs.length < 2;
  p.edges.setAttribute("aria-pressed", state.edges);
  const edge = edgeOf(runs, run), other = runs[edge === run ? run + 1 : edge];
  p.edgeBox.hidden = !state.edges || edge < 0;
  if (edge >= 0) {
    p.narrower.disabled = r[1] < 2;
    p.wider.disabled = other[1] < 2;
    put(p.edgeSays, edgeWords(strip, edge));
  }
  p.swap.disabled = !next;
  p.split.disabled = r[1] < 2;
  p.out.disabled = runs.length === 1;
  put(p.strip, warp ? "The whole warp" : "The whole piece");
}

/** again says what another tap at the same place is for, where there is something. */
function again(/** @type {number} */ strip) {
  const s = state.selected;
  if (!s || s.strip !== strip) return "";
  return strip === WARP ? `. On a piece, ${press()} again for the band there`
    : `. To choose the stripe of the warp here, ${press()} again`;
}

/* the warp, a piece, or what all pieces start from */

function newStripCard() {
  /** @type {any} */
  const p = { settle: [] };
  p.name = make("input", { id: "piece-name", autocomplete: "off" });
  onChange(p.name, c => op({ do: "piece.name", value: c.value }, { control: c }));
  p.nameBox = field("Name", p.name);
  p.shows = make("ul", { id: "strip-shows", className: "quiet" });
  p.showsBox = make("details", {}, make("summary", { className: "quiet" },
    "How plainly it shows"), p.shows);
  const one = (/** @type {string} */ id, /** @type {string} */ text, /** @type {() => any} */
    act = () => op({ do: id })) => p[id] = button(text, act, { id });
  one("keep", "Keep as it is");
  one("loose", "Free to change");
  one("turn", "End for end");
  one("mirror", "Mirror");
  one("copy", "Copy", () => op({ do: "piece.copy" }).then(goWith));
  one("earlier", "Weave earlier", () => move(stripOf(), stripOf() - 1).then(goWith));
  one("later", "Weave later", () => move(stripOf(), stripOf() + 1).then(goWith));
  one("over-one", "Turn it over", turnOne);
  one("drop", "Take out", () => op({ do: "piece.drop" }));
  one("open", "Let the program choose its bands", () => op({ do: "piece.open" }));
  one("like", "Others like this", () => askOthers(stripOf(), false));
  one("unlike", "Others unlike this", () => askOthers(stripOf(), true));
  one("another", "Another by chance");
  p.trying = tools(p, "Trying others", [p.like, p.unlike, p.another]);
  p.doing = tools(p, "This piece or warp as a whole", [p.keep, p.loose, p.turn, p.mirror,
    p.copy, p.earlier, p.later, p["over-one"], p.open, p.drop]);
  p.rhythm = make("div", { className: "chips", id: "rhythm" });
  p.order = make("select", { id: "order" });
  p.first = make("select", { id: "first" });
  onChange(p.order, c => op({ do: "order", value: c.value }, { control: c }));
  onChange(p.first, c => op({ do: "first", value: c.value }, { control: c }));
  p.middle = make("input", { id: "middle", autocomplete: "off", spellcheck: false });
  onChange(p.middle, c => op({ do: "middle", value: c.value }, { control: c }));
  p.middleBox = make("label", { className: "chip" },
    state.lists.middle.label.toLowerCase() + " ", p.middle);
  p.blocks = make("div", { className: "chips", id: "blocks" },
    ...state.lists.blocks.concat({ key: "mirror", label: "Blocks mirrored", yes: true,
      beside: "letters" }).map(newBlocksChip));
  p.orderBox = make("label", { className: "chip" }, "colours by ", p.order);
  p.firstBox = make("label", { className: "chip" }, "from block ", p.first);
  p.share = make("input", { id: "share", type: "number", min: 1, max: 99, required: true,
    inputMode: "numeric" });
  p.shareOf = make("span");
  onNumber(p.share, (n, how) => op({ do: "share", value: p.shareOf.textContent,
    to: Number(n) }, how), newGesture);
  p.shareBox = make("label", { className: "chip" }, p.shareOf, p.share, "%");
  p.more = make("div", { className: "chips" }, p.orderBox, p.firstBox,
    p.middleBox, p.shareBox);
  p.taken = make("div", { className: "checks" });
  p.settle.push(roving(p.taken));
  p.takenBox = make("fieldset", {}, p.takenSays = make("legend", {}), p.taken);
  p.partsBox = make("div", { className: "fields three", id: "parts" });
  box.append(...head(p), p.nameBox, p.trying, p.rhythm, p.more, p.blocks, p.takenBox,
    p.partsBox, p.doing, p.showsBox);
  return p;
}

/** goWith chooses the piece where it is now. */
function goWith(/** @type {any} */ answer) {
  const { at } = state.view;
  if (answer.ok && at >= 0) choose({ strip: at, run: null, via: at }, true);
}

function turnOne() {
  const s = stripOf();
  if (!state.turned.delete(s)) state.turned.add(s);
  changed();
}

function showStrip(/** @type {number} */ strip) {
  const p = parts, s = viewOf(strip), piece = strip >= 0, weft = strip === WEFT;
  put(p.title, piece ? strip + 1 + "  " + s.name : weft ? "What all pieces start from"
    : "The warp");
  put(p.words, weft ? "A change here holds for every piece that does not say otherwise. " +
    s.words
    : s.size + " finished, " + (piece ? "drawn with its hems unfolded, " + s.words + "; " +
      shareWords(s.runs) : s.words)); // the warp's words have its shares
  p.nameBox.hidden = p.showsBox.hidden = !piece;
  if (piece) value(p.name, s.name);
  fill(p.shows, s.shows || [], () => make("li"), put);
  p.trying.hidden = p.doing.hidden = weft;
  for (const id of ["copy", "earlier", "later", "over-one", "drop", "open"]) p[id].hidden = !piece;
  p.keep.hidden = s.kept;
  p.loose.hidden = !s.kept;
  p.another.hidden = !s.chance;
  p.open.hidden = !piece || s.open;
  p.earlier.disabled = strip === 0;
  p.later.disabled = strip === state.view.pieces.length - 1;
  p.drop.disabled = state.view.pieces.length === 1;
  showRule(strip, s);
}

/** showRule has a chip for everything that the rule says; what is kept or chosen follows
 *  none. */
function showRule(/** @type {number} */ strip, /** @type {any} */ s) {
  const p = parts, free = !s.kept && !s.chosen, r = free && s.rhythm || {};
  const kind = state.lists.kinds.find((/** @type {any} */ k) => k.kind === r.kind);
  const names = state.lists.kinds.map((/** @type {any} */ k) => k.kind);
  const fields = [{ key: "kind", label: "rhythm" }, ...(kind ? [...kind.parameters,
    { key: "mirror", label: "Mirrored", yes: true }] : [])];
  const signature = fields.map(f => f.key).join();
  if (p.rhythm.dataset.of !== signature) {
    const was = document.activeElement instanceof HTMLElement &&
      document.activeElement.dataset.key;
    p.rhythm.dataset.of = signature;
    p.rhythm.replaceChildren(...fields.map(f => newChip(f)));
    const same = was && p.rhythm.querySelector("[data-key=" + was + "]");
    if (same) same.focus();
  }
  for (const f of fields) {
    const c = p.rhythm.querySelector("[data-key=" + f.key + "]");
    if (f.yes) c.checked = r.mirror === "true";
    else if (f.key === "kind") {
      const none = s.kept ? "kept as it is" : s.chosen ? "chosen" : "none";
      options(c, kind ? plain(names) : [["", none], ...plain(names)]);
      value(c, r.kind || "");
    } else value(c, r[f.key] || "");
  }
  options(p.order, plain(state.lists.orders));
  value(p.order, s.order || "");
  options(p.first, plain(Object.keys(state.view.tables.threading)));
  value(p.first, s.first || "");
  value(p.middle, s.middle || "");
  const own = state.view.colours[(s.colours || [0])[0]] || { name: "" };
  p.middle.placeholder = strip === WARP ? "60% A " + own.name : state.lists.middle.start;
  showBlocks(s.blocks || {}, free);
  p.orderBox.hidden = p.middleBox.hidden = !free;
  p.firstBox.hidden = !free || !s.first;
  showShare(strip, s);
  showColours(s, free);
  p.partsBox.hidden = strip === WARP;
  if (strip !== WARP) fill(p.partsBox, ["ground", "hem", "separator"], newPart, (l, key) => {
    const select = l.control;
    options(select, state.view.colours.map((/** @type {any} */ c, /** @type {number} */ i) =>
      [i, c.name]));
    value(select, String(s[key]));
  });
}

/** showBlocks shows how blocks lie: the letters and the shares always, the rest where it says
 *  something. */
function showBlocks(/** @type {any} */ typed, /** @type {boolean} */ free) {
  parts.blocks.hidden = !free;
  for (const l of parts.blocks.children) {
    const c = l.control;
    l.hidden = c.dataset.beside !== "" && !typed[c.dataset.beside];
    if (c.type === "checkbox") c.checked = typed.mirror === "true";
    else value(c, typed[c.dataset.key] || "");
  }
}

function newBlocksChip(/** @type {any} */ f) {
  const c = newControl(f, { spellcheck: false, placeholder: f.start });
  c.dataset.beside = f.beside || "";
  onChange(c, control => op({ do: "blocks", blocks: typedIn(parts.blocks) }, { control }));
  return make("label", { className: "chip" }, f.label.toLowerCase() + " ", c);
}

/** newControl is where a key is ticked, chosen or typed. */
function newControl(/** @type {any} */ f, /** @type {object} */ typing) {
  const c = f.yes ? make("input", { type: "checkbox" }) : f.options || f.key === "kind"
    ? make("select") : make("input", { autocomplete: "off", ...typing });
  if (f.options) options(c, plain(f.options));
  c.dataset.key = f.key;
  return c;
}

/** typedIn is what stands in controls, by their keys. */
function typedIn(/** @type {Element} */ box) {
  /** @type {Object<string, string>} */
  const typed = {};
  for (const other of /** @type {NodeListOf<any>} */ (box.querySelectorAll("[data-key]"))) {
    typed[other.dataset.key] = other.type === "checkbox" ? String(other.checked) : other.value;
  }
  return typed;
}

function showShare(/** @type {number} */ strip, /** @type {any} */ s) {
  const p = parts, letters = [...new Set((s.runs || []).map((/** @type {any} */ r) => r[0]))]
    .filter(Boolean).sort();
  p.shareBox.hidden = strip === WEFT || letters.length < 2;
  if (p.shareBox.hidden) return;
  const last = /** @type {string} */ (letters[letters.length - 1]);
  const sum = (/** @type {any[]} */ all) => all.reduce((n, r) => n + r[1], 0);
  put(p.shareOf, last);
  value(p.share, String(Math.round(100 * sum(s.runs.filter((/** @type {any} */ r) =>
    r[0] === last)) / sum(s.runs.filter((/** @type {any} */ r) => r[0])))));
}

function showColours(/** @type {any} */ s, /** @type {boolean} */ free) {
  const used = new Set((s.runs || []).map((/** @type {any} */ r) => r[2]));
  parts.takenBox.disabled = !free;
  put(parts.takenSays, "Colours in it" + (free ? "" : s.kept ? ": kept as it is, so give a " +
    "stripe or band another yarn, or set it free to change" : ": chosen by the program; give a " +
    "band another yarn"));
  fill(parts.taken, state.view.colours, newCheck, (l, c, i) => {
    l.firstElementChild.checked = free ? (s.colours || []).includes(i) : used.has(i);
    l.children[1].style.background = c.hex;
    put(l.lastElementChild, c.name);
  });
}

/** newChip is a chip of a rule: its name, and a control that is part of it. */
function newChip(/** @type {any} */ f) {
  const c = newControl(f, { type: f.most ? "number" : "text" });
  if (f.most) Object.assign(c, { min: 1, max: f.most, inputMode: "numeric" });
  const act = (/** @type {import("./edits.js").How} */ how) => {
    const rhythm = typedIn(parts.rhythm);
    if (rhythm.kind) op({ do: "rhythm", rhythm }, how);
  };
  if (f.most) onNumber(c, (n, how) => act(how), newGesture);
  else onChange(c, control => act({ control }));
  return make("label", { className: "chip" }, f.label.toLowerCase() + " ", c);
}

function newCheck(/** @type {number} */ i) {
  const tick = make("input", { type: "checkbox", onchange: () =>
    op({ do: tick.checked ? "in" : "out", colour: state.view.colours[i].name },
      { control: tick }) });
  return make("label", {}, tick, make("span", { className: "dot" }), make("span"));
}

function newPart(/** @type {number} */ i) {
  const key = ["ground", "hem", "separator"][i], select = make("select");
  onChange(select, () => op({ do: "part", key, colour: state.view.colours[select.value].name },
    { control: select }));
  return field(["Ground", "Hems", "Separator"][i], select);
}

/* where it stands */

/** covered is how much of some boxes lies under another, in square pixels.
 *  @typedef {import("./layout.js").Box} Box
 *  @param {Box[]} boxes @param {Box} by */
const covered = (boxes, by) => boxes.reduce((sum, b) =>
  sum + Math.max(0, Math.min(b.x + b.w, by.x + by.w) - Math.max(b.x, by.x)) *
    Math.max(0, Math.min(b.y + b.h, by.y + by.h) - Math.max(b.y, by.y)), 0);

const NEARER = 30; // square pixels of cloth that a pixel farther away is worth

/** emptiest is the place for a card where it hides least of the cloth, the nearer of two;
 *  what is chosen is never hidden where that can be. @param {Box} at @param {Box[]} all
 *  @param {number} w @param {number} h @param {{width: number, height: number}} room */
function emptiest(at, all, w, h, room) {
  const across = [at.x + at.w + 16, at.x - w - 16, 8, room.width - w - 8];
  const middle = at.y + at.h / 2 - h / 2, down = [middle, 8, room.height - h - 8];
  let best = { x: 8, y: 8 }, least = Infinity;
  for (const x of across.filter(x => x >= 4 && x + w <= room.width - 4)) {
    for (const want of down) {
      const y = Math.min(Math.max(8, want), Math.max(8, room.height - h - 8));
      const card = { x, y, w, h }, far = Math.max(0, x - at.x - at.w, at.x - x - w) +
        Math.abs(y - middle) / 4;
      const cost = covered(all, card) + 1000 * covered([at], card) + NEARER * far;
      if (cost < least) [best, least] = [card, cost];
    }
  }
  return best;
}

let placedFor = "";
const EDGE_BOX = 110; // pixels that what moves an edge takes

/** placeCard puts the card beside what is chosen, where there is more room. There it stays
 *  as long as the same is chosen. */
export function placeCard() {
  const s = state.selected, room = canvas.getBoundingClientRect();
  if (!s || box.hidden || getComputedStyle(box).position !== "absolute") {
    box.style.left = box.style.top = box.style.maxHeight = placedFor = "";
    return;
  }
  const boxes = boxesOf(s.strip), all = boxes.find(b => b.piece === s.via) || boxes[0] ||
    { x: room.width - 20, y: 20, w: 0, h: 0, piece: -1 };
  const at = s.run === null || s.strip === WARP ? all
    : runBox(cloth(), s.strip, s.run, all, shownBack(s.strip));
  const now = [state.choosing, sight.zoom, sight.x, sight.y, room.width, room.height].join();
  if (now === placedFor) return; // its buttons stay under the hand
  placedFor = now;
  box.style.maxHeight = room.height - 16 + "px";
  const grows = parts.edgeBox && parts.edgeBox.hidden ? EDGE_BOX : 0;
  const w = box.offsetWidth, h = Math.min(box.offsetHeight + grows, room.height - 16);
  const pieces = state.view.pieces.flatMap((/** @type {any} */ _, /** @type {number} */ i) =>
    boxesOf(i)).concat(boxesOf(WARP).filter(b => b.piece < 0));
  const { x, y } = emptiest(s.strip === WARP ? all : { ...at, x: all.x, w: all.w }, pieces,
    w, h, room);
  box.style.left = Math.round(x) + "px";
  box.style.top = Math.round(y) + "px";
  box.style.maxHeight = Math.round(room.height - y - 8) + "px";
}
