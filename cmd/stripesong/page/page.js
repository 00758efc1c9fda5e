"use strict";
// The page shows a view that the program worked out and sends back what the
// weaver does. It decides nothing: every number, name and word comes in the
// view, and a change is an operation by name. All text goes in as text.

const $ = id => document.getElementById(id);
const WARP = -1, WEFT = -2;
const look = { sides: "face", eyes: 0, from: "", laid: "spread", zoom: 1, strip: WARP, run: 0, lens: false, over: false, end: 0, pick: 0 };
let view = null, kept = { where: "", wrong: "" }, left = [], again = "";
let pictures = { now: null, aside: null }; // from a distance
let threads = null;
const stripesong = window.stripesong = { times: [], errors: [], settled: true, edition: 0 };

/* small helpers */

function make(tag, attributes = {}, ...kids) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) e.addEventListener(name.slice(2), value);
    else if (name in e && name !== "list") e[name] = value;
    else e.setAttribute(name, value);
  }
  e.append(...kids);
  return e;
}

function put(e, text) { if (e.textContent !== text) e.textContent = text; }

// fill makes a list's children as many as there are things and lets show bring
// each up to date; elements stay, so that the focus does.
function fill(list, things, create, show) {
  while (list.children.length > things.length) list.lastElementChild.remove();
  things.forEach((thing, i) => {
    if (i >= list.children.length) list.append(create(i));
    show(list.children[i], thing, i);
  });
}

// value sets a control, but not while it is being typed in.
function value(control, to) {
  if (control === document.activeElement && control.dataset.typing) return;
  if (control.value !== to) control.value = to;
  control.removeAttribute("aria-invalid");
  control.removeAttribute("aria-describedby");
}

function options(select, words) {
  const same = select.options.length === words.length && words.every((w, i) => select.options[i].value === String(w[0]) && select.options[i].text === w[1]);
  if (same) return;
  const kept = select.value;
  select.replaceChildren(...words.map(w => new Option(w[1], w[0])));
  select.value = kept;
}

// unbroken breaks a line nowhere but before a bracket.
const unbroken = text => text.replace(/ (?!\()/g, "\u00a0");

const plain = words => words.map(w => [w, w]);

/* talking to the program: one request at a time, in order */

const waiting = [];
let busy = false;

// send queues a request. A body may be a function of the view at its turn; of
// requests that are one gesture only the latest waits.
function send(path, body, { gesture = "", control = null, from = performance.now() } = {}) {
  stripesong.settled = false;
  const last = waiting[waiting.length - 1];
  if (gesture && last && last.gesture === gesture) { last.body = body; return last.answered; }
  const entry = { path, body, gesture, control, from };
  entry.answered = new Promise(done => { entry.done = done; });
  waiting.push(entry);
  if (!busy) work();
  return entry.answered;
}

async function work() {
  busy = true;
  while (waiting.length) {
    const entry = waiting.shift();
    const body = typeof entry.body === "function" ? entry.body(view) : entry.body;
    if (body === null) { entry.done(null); continue; }
    const late = setTimeout(watch, SOON), held = edgeInUse();
    const answer = await ask(entry.path, Object.assign({ edition: view.edition }, body));
    clearTimeout(late);
    atWork(answer.busy);
    try {
      if (answer.view) { take(answer); follow(body.op, answer.ok); await show(); refocus(held); }
      report(answer, entry.control);
    } catch (e) { stripesong.errors.push(String(e && e.stack || e)); } // and on with the next
    stripesong.times.push(performance.now() - entry.from);
    entry.done(answer);
  }
  busy = false;
  stripesong.settled = true;
}

/* long work: it is said, and it can be stopped */

const SOON = 600, AGAIN = 500; // milliseconds until it is said, and between two looks
let watching = 0, told = 0, job = { job: 0, since: 0 };

// watch looks what the program works on, as long as it does, whoever asked for it.
async function watch() {
  const before = told, answer = await ask("status");
  if (told !== before) return; // something newer has been said meanwhile
  if (!answer.busy && !busy && job.job) refresh();
  atWork(answer.busy);
}

function atWork(now) {
  clearTimeout(watching);
  told++;
  $("busy").hidden = !now;
  if (!now) { job = { job: 0, since: 0 }; return; }
  if (now.job !== job.job) job = { job: now.job, since: performance.now() };
  put($("busy-what"), now.what);
  put($("busy-for"), Math.round((performance.now() - job.since) / 1000) + " s");
  watching = setTimeout(watch, AGAIN);
}

function stopWork() {
  for (const entry of waiting.splice(0)) entry.done({ ok: false });
  ask("stop", { job: job.job });
}

// refresh takes the view as it is now, which another window may have changed.
async function refresh() {
  const answer = await ask("view");
  if (answer.view && !busy) { take(answer); await show(); }
}

async function ask(path, body) {
  try {
    const r = await fetch(path, body === undefined ? {} : { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });
    if ((r.headers.get("Content-Type") || "").startsWith("application/json")) return Object.assign(await r.json(), { ok: r.ok });
    const why = (await r.text()).trim();
    if (why === "there is no such page") return { ok: false, said: "", problems: [{ what: "the program was started anew, and this page is of its earlier run", hint: openAnew() }] };
    return { ok: false, said: "", problems: [{ what: "the program did not take that", hint: why }] };
  } catch (e) {
    return { ok: false, said: "", problems: [{ what: "the program does not answer", hint: startAgain() }] };
  }
}

// startAgain and openAnew say how to go on where the program has ended, and what is left:
// it kept every change that it answered.
function startAgain() {
  const how = "Is it still running? Start it again, in the same folder, and open the address that it prints: " + (again || "stripesong page");
  return kept.where ? how + " (what is not saved is kept in " + kept.where + ", up to your last change before the program ended, and offered then)" : how + " (what you changed here since it ended is not kept)";
}

function openAnew() {
  const how = "Open the address that it printed when it was started last.";
  return kept.where ? how + " What is not saved is kept in " + kept.where + ", up to your last change before the program ended, and offered there." : how + " What you changed here since it ended is not kept.";
}

function report(answer, control) {
  const wrong = answer.problems && answer.problems.length;
  $("wrong").hidden = !wrong;
  if (wrong) {
    put($("wrong-what"), answer.problems.map(p => p.what).join("; "));
    put($("wrong-hint"), answer.problems[0].hint || "");
    if (control) { control.setAttribute("aria-invalid", "true"); control.setAttribute("aria-describedby", "wrong-what wrong-hint"); }
    put($("said"), "");
  } else if (answer.said) put($("said"), answer.said);
  if (answer.asks) question(answer.asks);
}

// questions are what is said where saving would take the place of a file that is not
// what the brief shown here goes on from.
const questions = {
  changed: { title: "The file has changed", why: f => "Something else wrote to " + f + " since it was read here.", over: "Save over it" },
  older: { title: "The file holds changes that this version does not", why: f => "This version goes back to an earlier " + f + ", from before it was changed.", over: "Save over it" },
  gone: { title: "The file is gone", why: f => f + " is no longer there: it was deleted, moved or given another name.", over: "Save it anew" },
};

function question(asks) {
  const q = questions[asks.why], gone = asks.why === "gone", lost = asks.lost.length > 0;
  put($("changed-title"), q.title);
  put($("changed-why"), q.why(view.file) + " Nothing has been saved." + (gone ? " Saving writes the file anew, as the brief is here." : ""));
  put($("changed-lost"), gone ? "" : lost ? "Saving over it would lose these lines of the file" + (asks.more ? ", and " + asks.more + " more:" : ":") :
    "Every line of the file is in this version too. Saving over it would put back what was taken out of the file or moved in it.");
  fill($("changed-lines"), asks.lost, () => make("li"), put);
  $("changed-lost").hidden = gone; $("changed-lines").hidden = gone || !lost;
  put($("changed-over"), q.over);
  $("changed-read").hidden = gone;
  $("changed").showModal();
}

const op = (fields, how = {}) => send("do", { op: Object.assign({ strip: look.strip }, fields, how.gesture ? { gesture: how.gesture } : {}) }, how);

let gestures = 0;
const newGesture = () => "g" + (++gestures) + "-" + Math.floor(performance.now());

// whileTyping gives the changes made to one control in a row one gesture.
function whileTyping(control, act) {
  let gesture = "";
  control.addEventListener("focus", () => { gesture = newGesture(); control.dataset.typing = ""; });
  control.addEventListener("blur", () => { delete control.dataset.typing; });
  control.addEventListener("input", () => { control.dataset.typing = "1"; act(control, gesture || (gesture = newGesture())); });
  control.addEventListener("change", () => { gesture = newGesture(); delete control.dataset.typing; });
}

// onChange acts when a control is left or Enter is pressed.
function onChange(control, act) {
  control.addEventListener("input", () => { control.dataset.typing = "1"; });
  control.addEventListener("change", () => { delete control.dataset.typing; act(control); });
  control.addEventListener("blur", () => { delete control.dataset.typing; });
}

/* showing */

const current = () => look.strip === WARP ? view.warp : view.pieces[look.strip];

function take(answer) { ({ view, kept, left, again } = answer); }

// follow goes with a piece that an edit gave another place.
function follow(op, ok) {
  if (!ok || !op || op.strip < 0 || view.at < 0 || view.at === op.strip) return;
  if (look.strip === op.strip) look.strip = view.at;
  for (const entry of waiting) if (entry.body.op && entry.body.op.strip === op.strip) entry.body.op.strip = view.at;
}

// edgeInUse is the edge that has the focus, to give it back where it moved to.
const edgeInUse = () => { const e = document.activeElement; return e && e.classList.contains("edge") ? e : null; };

function refocus(edge) {
  if (!edge || edge.isConnected || look.strip < 0) return;
  const all = $("pieces").children[look.strip].sides.children[0].edges.children;
  if (all[edge.run]) all[edge.run].focus();
}

async function show() {
  if (look.strip >= view.pieces.length) look.strip = view.pieces.length - 1;
  const strip = current();
  if (strip) look.run = Math.min(look.run, strip.runs.length - 1);
  showBar(); showShelf(); showDesk(); showRule(); showRuns(); showSet();
  await draw();
  stripesong.edition = view.edition;
}

function showBar() {
  put($("title"), view.title);
  document.title = view.title + " · stripesong";
  put($("file"), view.file + (view.saved ? " · saved" : " · not saved yet" +
    (kept.where ? ", kept in " + kept.where : kept.wrong ? ", and it can't be kept: " + kept.wrong : "")));
  $("left").hidden = !left.length;
  fill($("left"), left, newLeft, (li, l) => {
    if (li.id !== "left-" + l.id) { li.id = "left-" + l.id; li.sure = false; }
    put(li.says, l.says);
    put(li.drop, li.sure ? "Yes, throw it away" : "Throw it away");
  });
  for (const [id, what, word] of [["undo", view.undo, "Undo"], ["redo", view.redo, "Redo"]]) {
    $(id).disabled = !what;
    $(id).title = what ? word + ": " + what : "";
  }
  put($("put"), view.aside ? "Put this beside instead" : "Put beside");
  $("back").hidden = $("clear").hidden = !view.aside;
}

// newLeft offers what an earlier page left unsaved. It is thrown away at the
// second press.
function newLeft() {
  const li = make("li", { className: "told" }), id = () => Number(li.id.slice("left-".length));
  li.says = make("span");
  li.drop = make("button", { type: "button", onclick: () => {
    if (li.sure) return send("left", { left: id(), take: false });
    li.sure = true; put(li.drop, "Yes, throw it away");
  } });
  li.append(li.says, make("button", { type: "button", className: "main", onclick: () => send("left", { left: id(), take: true }) }, "Take it up"), li.drop);
  return li;
}

function showShelf() {
  fill($("colours"), view.colours, newColour, (li, c) => {
    const e = li.parts;
    li.className = "colour " + c.state;
    li.name = c.name;
    value(e.hex, c.hex); e.hex.setAttribute("aria-label", "Colour of " + c.name);
    put(e.who, c.name); put(e.says, c.says); put(e.needs, unbroken(c.needs));
    e.bar.hidden = !c.stock || !c.in_use;
    e.fill.style.width = Math.min(100, 100 * c.used) + "%";
    e.bar.setAttribute("aria-label", c.name + ": " + c.says);
    put(e.more, c.stock ? c.yarn + ", " + c.stock + " on the shelf" : c.yarn);
    e.more.setAttribute("aria-label", "Change " + c.name + ": " + e.more.textContent);
    value(e.name, c.name); value(e.code, c.hex); value(e.stock, c.stock);
    options(e.yarn, plain(view.yarns)); value(e.yarn, c.yarn);
    e.drop.disabled = c.in_use || c.shelf;
    for (const [control, what] of [[e.name, "Name"], [e.code, "Hex"], [e.stock, "On the shelf"], [e.yarn, "Yarn"], [e.drop, "Take off the shelf"]]) control.setAttribute("aria-label", what + ": " + c.name);
  });
  options($("add-yarn"), plain(view.yarns));
}

function newColour() {
  const li = make("li");
  const p = li.parts = {
    hex: make("input", { type: "color" }), who: make("span", { className: "who" }), says: make("span", { className: "says" }), needs: make("span", { className: "needs" }),
    fill: make("i"), more: make("summary"), name: make("input", { autocomplete: "off" }), code: make("input", { autocomplete: "off", spellcheck: false }),
    stock: make("input", { autocomplete: "off", placeholder: "as in 900 m or 250 g" }), yarn: make("select"), drop: make("button", { type: "button" }, "Take off the shelf"),
  };
  p.bar = make("div", { className: "bar-of", role: "img" }, p.fill);
  whileTyping(p.hex, (c, gesture) => op({ do: "colour.hex", colour: li.name, value: c.value }, { gesture, control: c }));
  onChange(p.name, c => op({ do: "colour.name", colour: li.name, value: c.value }, { control: c }));
  onChange(p.code, c => op({ do: "colour.hex", colour: li.name, value: c.value.trim() }, { control: c }));
  onChange(p.stock, c => op({ do: "colour.stock", colour: li.name, value: c.value }, { control: c }));
  onChange(p.yarn, c => op({ do: "colour.yarn", colour: li.name, value: c.value }, { control: c }));
  p.drop.addEventListener("click", () => op({ do: "colour.drop", colour: li.name }));
  li.append(p.hex, make("div", {}, p.who), p.says, p.bar, p.needs, make("details", {}, p.more, make("div", { className: "fields" },
    make("label", {}, "Name ", p.name), make("label", {}, "Hex ", p.code), make("label", {}, "On the shelf ", p.stock), make("label", {}, "Yarn ", p.yarn), p.drop)));
  return li;
}

// swap changes the chosen run with the next and stays with it, unless another was
// chosen before the answer came.
async function swap() {
  const strip = look.strip, run = look.run, answer = await op({ do: "swap", run });
  const same = (look.strip === strip || look.strip === view.at) && look.run === run;
  if (answer.ok && same && run + 1 < current().runs.length) { look.run++; showRuns(); edges(); }
}

const stripName = (i, p) => (i + 1) + "  " + p.name;

function showDesk() {
  options($("strip"), [[WARP, "the warp"], [WEFT, "all pieces without their own"]].concat(view.pieces.map((p, i) => [i, stripName(i, p)])));
  $("strip").value = look.strip;
  const piece = look.strip >= 0, strip = current();
  $("strip-name").hidden = $("piece-tools").hidden = !piece;
  $("parts").hidden = look.strip === WARP;
  $("keep").parentElement.hidden = $("runs-box").hidden = !strip;
  put($("strip-words"), strip ? strip.size + " finished, " + (piece ? "drawn with its hems unfolded, " : "") + strip.words : "A change here holds for every piece that does not say otherwise.");
  fill($("strip-shows"), strip && strip.shows || [], () => make("li"), (li, s) => put(li, s));
  if (!strip) return;
  $("keep").disabled = strip.kept;
  $("loose").disabled = !strip.kept;
  if (!piece) return;
  value($("piece-name"), strip.name);
  $("earlier").disabled = look.strip === 0;
  $("later").disabled = look.strip === view.pieces.length - 1;
  $("drop").disabled = view.pieces.length === 1;
}

// ruleStrip is whose rule is shown: for all pieces that of the first that has
// none of its own, which is what they share.
const ruleOf = () => look.strip === WEFT ? view.weft : current();

function showRule() {
  const strip = ruleOf(), r = strip.rhythm || {};
  const kind = view.kinds.find(k => k.kind === r.kind);
  const fields = [{ key: "kind", label: "Kind", options: view.kinds.map(k => k.kind) }].concat(kind ? kind.parameters : [], [{ key: "mirror", label: "Mirrored", yes: true }]);
  const form = $("rhythm"), signature = fields.map(f => f.key).join();
  if (form.dataset.of !== signature) {
    form.dataset.of = signature;
    const focused = document.activeElement && document.activeElement.dataset.key;
    form.replaceChildren(...fields.map(newParameter));
    if (focused && form.contains(form.querySelector("[data-key=" + focused + "]"))) form.querySelector("[data-key=" + focused + "]").focus();
  }
  for (const f of fields) {
    const c = form.querySelector("[data-key=" + f.key + "]");
    if (f.yes) c.checked = r.mirror === "true";
    else value(c, r[f.key] || "");
  }
  options($("order"), plain(view.orders)); value($("order"), strip.order);
  options($("first"), plain(view.blocks)); value($("first"), strip.first);
  $("first-label").hidden = !strip.first;
  value($("middle"), strip.middle);
  $("middle").placeholder = look.strip === WARP ? "60% A " + (view.colours[(strip.colours || [0])[0]] || { name: "" }).name : "60% plain";
  $("order").disabled = $("first").disabled = $("middle").disabled = $("another").disabled = strip.kept;
  fill($("taken-list"), view.colours, newCheck, (label, c, i) => {
    const box = label.firstElementChild;
    box.checked = (strip.kept ? strip.used : strip.colours || []).includes(i);
    box.disabled = strip.kept;
    label.children[1].style.background = c.hex;
    put(label.lastElementChild, c.name);
  });
  if (look.strip !== WARP) fill($("parts-list"), ["ground", "hem", "separator"], newPart, (label, key) => {
    const select = label.lastElementChild;
    options(select, view.colours.map((c, i) => [i, c.name])); value(select, String(strip[key]));
  });
}

function newParameter(f) {
  const c = f.yes ? make("input", { type: "checkbox" }) : f.options ? make("select") : make("input", { autocomplete: "off", type: f.most ? "number" : "text" });
  if (f.options) options(c, plain(f.options));
  if (f.most) { c.min = 1; c.max = f.most; c.inputMode = "numeric"; }
  c.dataset.key = f.key;
  const act = (control, gesture) => {
    const rhythm = {};
    for (const other of $("rhythm").querySelectorAll("[data-key]")) rhythm[other.dataset.key] = other.type === "checkbox" ? String(other.checked) : other.value;
    op({ do: "rhythm", rhythm }, { gesture, control });
  };
  if (f.most) whileTyping(c, act); else onChange(c, control => act(control, ""));
  return make("label", {}, f.label + " ", c);
}

function newCheck(i) {
  const box = make("input", { type: "checkbox", onchange: () => op({ do: box.checked ? "in" : "out", colour: view.colours[i].name }, { control: box }) });
  return make("label", {}, box, make("span", { className: "dot" }), make("span"));
}

function newPart(i) {
  const key = ["ground", "hem", "separator"][i];
  const select = make("select");
  onChange(select, () => op({ do: "part", key, colour: view.colours[select.value].name }, { control: select }));
  return make("label", {}, ["Ground ", "Hems ", "Separator "][i], select);
}

function showRuns() {
  const strip = current();
  if (!strip) return;
  put($("runs-title"), look.strip === WARP ? "Stripes, left to right" : "Blocks, first woven first");
  fill($("runs"), strip.runs, newRun, (label, r, i) => {
    label.firstElementChild.checked = i === look.run;
    label.children[1].style.background = r.colour < 0 ? "none" : view.colours[r.colour].hex;
    put(label.lastElementChild, r.label);
  });
  const r = strip.runs[look.run];
  const blocks = plain(view.blocks);
  if (look.strip !== WARP) blocks.push(["plain", "plain"]);
  options($("run-block"), blocks); value($("run-block"), r.block || "plain");
  value($("run-units"), String(r.units));
  options($("run-colour"), view.colours.map((c, i) => [i, c.name]));
  value($("run-colour"), String(r.colour)); $("run-colour").disabled = r.colour < 0;
  const last = look.run === strip.runs.length - 1;
  $("narrower").disabled = last || r.units < 2;
  $("wider").disabled = last || strip.runs[look.run + 1].units < 2;
  $("swap").disabled = last;
  $("split").disabled = r.units < 2;
  $("out").disabled = strip.runs.length === 1;
}

function newRun(i) {
  const radio = make("input", { type: "radio", name: "run", onchange: () => { look.run = i; showRuns(); edges(); } });
  return make("label", { className: "run" }, radio, make("span", { className: "dot" }), make("span"));
}

function showSet() {
  value($("seed"), String(view.seed));
  $("another-set").title = view.chance ? "" : "no piece hangs on chance now";
  fill($("settings"), view.settings, newSetting, (label, s) => {
    const want = s.options ? "SELECT" : "INPUT";
    if (label.lastElementChild.tagName !== want) label.lastElementChild.replaceWith(settingControl(label, s));
    label.key = s.key;
    put(label.firstElementChild, s.label);
    if (s.options) options(label.lastElementChild, plain(s.options));
    value(label.lastElementChild, s.value);
  });
  fill($("facts"), view.facts.flatMap(f => [["dt", f.what], ["dd", f.says]]), i => make(i % 2 ? "dd" : "dt"), (e, f) => put(e, f[1]));
  const warnings = view.notes.filter(n => n.warning).length;
  put($("notes-title"), "Notes: " + (warnings === 1 ? "1 warning" : warnings + " warnings"));
  fill($("notes"), view.notes, () => make("li"), (li, n) => { li.className = n.warning ? "warning" : ""; put(li, n.text); });
}

function newSetting(i) {
  const label = make("label", {}, make("span"));
  label.append(settingControl(label, view.settings[i]));
  return label;
}

function settingControl(label, s) {
  const c = s.options ? make("select") : make("input", { autocomplete: "off", placeholder: "not said" });
  onChange(c, () => op({ do: "setting", key: label.key, value: c.value }, { control: c }));
  return c;
}

/* drawing */

const dpr = () => Math.max(1, window.devicePixelRatio || 1);

function sized(canvas, w, h) {
  const W = Math.max(1, Math.round(w * dpr())), H = Math.max(1, Math.round(h * dpr()));
  if (canvas.width !== W) canvas.width = W;
  if (canvas.height !== H) canvas.height = H;
  canvas.style.width = w + "px"; canvas.style.height = h + "px";
  return canvas.getContext("2d");
}

// places are where things of given sizes begin and end, in whole pixels, so
// that neighbours meet exactly.
function places(sizes, total) {
  const sum = sizes.reduce((a, b) => a + b, 0);
  let at = 0;
  const ends = [0];
  for (const s of sizes) { at += s; ends.push(Math.round(at / sum * total)); }
  return ends;
}

// mixOf names what shows where a row crosses a warp run; in plain cloth it is the same
// over every block.
const mixOf = (warp, row, block) =>
  [warp, row.ground, row.colour, row.weave, Boolean(row.hem), row.block, row.block && block].join(" ");

const rowsOf = p => {
  const end = { block: "", colour: -1, ground: p.hem, hem: true, weave: 0, mm: endMM(p) };
  const body = p.runs.map(r => ({ block: r.block, colour: r.colour, ground: p.ground, weave: p.weave, mm: r.mm }));
  return end.mm > 0 ? [end, ...body, end] : body;
};

// endMM is the plain cloth at each end: the hem and what stays in sight beside it.
const endMM = p => p.hem_mm + p.show_mm;

const heightMM = p => p.length_mm + 2 * p.hem_mm;

function drawPiece(ctx, cloth, piece, back) {
  const W = ctx.canvas.width, H = ctx.canvas.height, eyes = look.eyes;
  const mixes = new Map(cloth.mixes.map(m =>
    [mixOf(m.warp, { ground: m.ground, colour: m.pattern, weave: m.weave, hem: m.hem, block: m.woven }, m.block), m]));
  let runs = cloth.warp.runs;
  if (back) runs = [...runs].reverse();
  const xs = places(runs.map(r => r.mm), W), rows = rowsOf(piece), ys = places(rows.map(r => r.mm), H);
  rows.forEach((row, j) => runs.forEach((run, i) => {
    const m = mixes.get(mixOf(run.colour, row, run.block));
    ctx.fillStyle = (back ? m.back : m.face)[eyes];
    ctx.fillRect(xs[i], H - ys[j + 1], xs[i + 1] - xs[i], ys[j + 1] - ys[j]);
  }));
}

// sheet takes a picture that is not as large as its place.
const sheet = document.createElement("canvas");

function drawSeen(ctx, picture) {
  const image = new ImageData(picture.rgba, picture.across, picture.down), { width, height } = ctx.canvas;
  if (picture.across === width && picture.down === height) return ctx.putImageData(image, 0, 0);
  sheet.width = picture.across; sheet.height = picture.down;
  sheet.getContext("2d").putImageData(image, 0, 0);
  ctx.imageSmoothingQuality = "high";
  ctx.drawImage(sheet, 0, 0, width, height);
}

const sidesShown = () => look.sides === "both" ? [false, true] : [look.sides === "back"];

// scale finds the one scale, in pixels a millimetre, at which all pieces are
// drawn: the largest at which they fit, times the size asked for; and in how
// many columns, as few as will do.
function scale() {
  const box = $("set"), sides = sidesShown().length * (view.aside ? 2 : 1), inner = 6 * (sides - 1);
  const width = box.clientWidth - 16, wide = view.width_mm * sides;
  if (look.laid === "woven") return { px: Math.max(.05, (width - inner - 150) / wide) * (look.zoom === 1 ? 1 : look.zoom), columns: 1 };
  const height = stacked() ? innerHeight * .8 : box.clientHeight - 16;
  const tall = Math.max(...view.pieces.map(heightMM), ...(view.aside ? view.aside.pieces.map(heightMM) : []));
  let best = { px: 0, columns: 1, said: SAID };
  const under = linesUnder();
  for (let n = 1; n <= view.pieces.length; n++) {
    const rows = Math.ceil(view.pieces.length / n), slot = (width - COLUMN_GAP * (n - 1)) / n;
    const said = Math.max(70, Math.min(slot, SAID)), lines = under(n, said).reduce((a, b) => a + b);
    const px = Math.min((slot - inner) / wide, ((height - ROW_GAP * (rows - 1) - lines * line()) / rows - CAPTION) / tall);
    if (px > best.px * 1.001) best = { px, columns: n, said };
  }
  best.px = Math.max(best.px, 70 / view.width_mm) * look.zoom;
  if (look.zoom > 1) best.columns = Math.max(1, Math.floor((width + COLUMN_GAP) / (Math.max(wide * best.px + inner, best.said) + COLUMN_GAP)));
  best.lines = under(best.columns, best.said);
  return best;
}

const COLUMN_GAP = 20, ROW_GAP = 12, CAPTION = 26;

const SAID = 210; // pixels that what is said under a piece may take, where it is narrower

// saidOf is what is said under a piece, each on lines of its own.
const saidOf = p => [p.grade, p.lighter].filter(Boolean);

// line is how high a line of it is: as style.css has it.
const line = () => small() * 1.25, small = () => parseFloat(getComputedStyle(document.documentElement).fontSize) * .75;

// linesUnder is how many lines that takes at most in each row of pieces, by how many
// are in a row and the width there is for it.
function linesUnder() {
  const pen = sheet.getContext("2d"), wide = new Map(), family = getComputedStyle(document.body).fontFamily;
  const width = (words, weak) => {
    const key = weak + words;
    if (!wide.has(key)) {
      pen.font = (weak ? "600 " : "") + small() + "px " + family;
      wide.set(key, pen.measureText(words).width);
    }
    return wide.get(key);
  };
  const lines = (text, weak, room) => text.split(" ").reduce((all, word) => {
    const longer = (all[0] ? all[0] + " " : "") + word;
    return width(longer, weak) > room ? [word, ...all] : [longer, ...all.slice(1)];
  }, [""]).length;
  const known = new Map(), under = (p, room) => {
    const said = (p.weak ? "▲ " : "") + saidOf(p).join("\n"), key = room + said;
    if (!known.has(key)) known.set(key, Math.min(4, said.split("\n").reduce((n, text) => n + lines(text, p.weak, room - 7), 0)));
    return known.get(key);
  };
  return (columns, room) => view.pieces.reduce((rows, p, i) => {
    const row = Math.floor(i / columns);
    rows[row] = Math.max(rows[row] || 0, under(p, room));
    return rows;
  }, []);
}

const stacked = () => getComputedStyle($("desk")).gridColumnStart !== getComputedStyle($("cloth")).gridColumnStart && matchMedia("(max-width: 60rem)").matches;

let px = 1; // pixels a millimetre

// singly tells whether it is looked at from so near that threads are seen singly: then
// no picture shows what is seen.
const singly = () => look.from && Number(look.from) < view.singly_m;

async function draw() {
  $("set").classList.toggle("woven", look.laid === "woven");
  $("singly").hidden = !singly();
  $("together").hidden = !view.sides;
  put($("together"), view.sides);
  const laid = scale();
  px = laid.px;
  const each = view.width_mm * px * sidesShown().length * (view.aside ? 2 : 1) + 6 * (sidesShown().length * (view.aside ? 2 : 1) - 1);
  const room = Math.max(each, laid.said || 0);
  $("pieces").style.maxWidth = look.laid === "woven" ? "" : Math.ceil(laid.columns * (room + COLUMN_GAP)) + "px";
  if (look.from && !singly()) await fetchSeen();
  else pictures = { now: null, aside: null };
  drawWarp();
  drawPieces(laid, room);
  edges();
  if (look.lens) await fetchThreads();
}

function drawWarp() {
  const frame = $("warp-frame"), w = look.laid === "woven" ? view.width_mm * px : frame.parentElement.clientWidth;
  const ctx = sized($("warp-canvas"), w, 46), xs = places(view.warp.runs.map(r => r.mm), ctx.canvas.width);
  frame.style.width = w + "px";
  view.warp.runs.forEach((r, i) => { ctx.fillStyle = view.inks[r.colour][look.eyes]; ctx.fillRect(xs[i], 0, xs[i + 1] - xs[i], ctx.canvas.height); });
  // blocks, as a quiet line below: A on one level, B on the next
  $("warp-canvas").setAttribute("aria-label", "The warp, left to right: " + view.warp.runs.map(r => r.label).join(", "));
  put($("warp-words"), view.warp.size + " finished · " + view.warp.words);
  $("warp-pick").setAttribute("aria-pressed", look.strip === WARP);
}

function drawPieces(laid, room) {
  const versions = view.aside ? [["now", view], ["beside", view.aside]] : [["now", view]];
  fill($("pieces"), view.pieces, newPiece, (e, p, i) => {
    e.className = "piece" + (i === look.strip ? " chosen" : "");
    put(e.pick, (i + 1) + " " + p.name);
    e.pick.setAttribute("aria-pressed", i === look.strip);
    put(e.words, p.held ? "held" : p.kept ? "kept" : p.chosen || p.origin === "chosen" ? "chosen" : "");
    put(e.says, saidOf(p).join("\n"));
    e.says.className = p.weak ? "says weak" : "says";
    e.says.title = (p.shows || []).join("; ");
    const shown = [];
    for (const [name, cloth] of versions) sidesShown().forEach((back, s) => {
      if (cloth.pieces[i]) shown.push({ name, cloth, back, s, piece: cloth.pieces[i] });
    });
    fill(e.sides, shown, newFrame, (frame, one) => {
      const ctx = sized(frame.canvas, one.cloth.width_mm * px, heightMM(one.piece) * px);
      const seen = pictures[one.name === "now" ? "now" : "aside"];
      const picture = seen && seen[i * sidesShown().length + one.s];
      if (picture) drawSeen(ctx, picture); else drawPiece(ctx, one.cloth, one.piece, one.back);
      frame.canvas.back = one.back;
      frame.canvas.setAttribute("aria-label", one.piece.name + ", " + (one.back ? "back" : "face") + (one.name === "now" ? "" : ", version beside") + ": " + one.piece.runs.map(r => r.label).join(", "));
    });
    put(e.note, view.aside ? "now | beside" : "");
    e.style.setProperty("--lines", laid.lines ? laid.lines[Math.floor(i / laid.columns)] : 4);
    e.style.width = look.laid === "woven" ? "" : room + "px";
  });
}

function newPiece(i) {
  const e = make("article");
  e.pick = make("button", { type: "button", className: "pick", onclick: () => choose(i) });
  e.words = make("span"); e.note = make("span"); e.says = make("p"); e.sides = make("div", { className: "sides" });
  e.sides.addEventListener("pointerdown", swipe);
  e.sides.addEventListener("click", () => { if (!swiped) choose(i); });
  e.sides.addEventListener("pointermove", at => overLens(at, i));
  e.append(e.sides, make("div", { className: "about" }, make("div", { className: "caption" }, e.pick, e.words, e.note), e.says));
  return e;
}

function newFrame() {
  const frame = make("div", { className: "frame" });
  frame.canvas = make("canvas", { role: "img" });
  frame.edges = make("div", { className: "edges" });
  frame.append(frame.canvas, frame.edges);
  return frame;
}

async function fetchSeen() {
  const across = Math.round(Math.min(512, view.width_mm * px * Math.min(dpr(), 2)));
  const one = async aside => {
    const r = await fetch("seen?m=" + look.from + "&eyes=" + look.eyes + "&sides=" + look.sides + "&across=" + across + "&aside=" + (aside ? 1 : 0));
    return r.ok ? unpack(await r.arrayBuffer()) : null;
  };
  const [now, aside] = await Promise.all([one(false), view.aside ? one(true) : null]);
  pictures = { now, aside };
}

function unpack(buffer) {
  const all = [], d = new DataView(buffer);
  for (let at = 0; at < buffer.byteLength;) {
    const across = d.getUint16(at, true), down = d.getUint16(at + 2, true), n = 4 * across * down;
    all.push({ across, down, rgba: new Uint8ClampedArray(buffer, at + 4, n) });
    at += 4 + n;
  }
  return all;
}

/* edges between stripes and blocks */

function edges() {
  strip($("warp-edges"), WARP, view.warp);
  [...$("pieces").children].forEach((e, i) => [...e.sides.children].forEach((frame, s) => {
    if (i === look.strip && s === 0) strip(frame.edges, i, view.pieces[i]);
    else frame.edges.replaceChildren();
  }));
}

function strip(box, of, s) {
  const upright = of === WARP, mine = look.strip === of, sum = s.runs.reduce((a, r) => a + r.mm, 0);
  const pad = upright ? 0 : endMM(s) / heightMM(s), room = 1 - 2 * pad;
  const now = mine ? Math.min(look.run, s.runs.length - 2) : 0;
  let at = 0;
  fill(box, s.runs.slice(0, -1), () => newEdge(of, upright), (e, r, i) => {
    at += r.mm;
    const next = s.runs[i + 1], part = pad + at / sum * room;
    e.run = i;
    if (upright) e.style.left = 100 * part + "%"; else e.style.bottom = "calc(" + 100 * part + "% - 5px)";
    e.tabIndex = i === now ? 0 : -1;
    e.classList.toggle("current", mine && i === look.run);
    e.setAttribute("aria-valuenow", r.units);
    e.setAttribute("aria-valuemax", r.units + next.units - 1);
    e.setAttribute("aria-label", "Edge between " + r.label + " and " + next.label);
    e.setAttribute("aria-valuetext", r.units + " units, then " + next.units);
  });
}

function newEdge(of, upright) {
  const e = make("div", { className: "edge " + (upright ? "down" : "across"), role: "slider", "aria-valuemin": 1, "aria-orientation": upright ? "horizontal" : "vertical" });
  let burst = "", pressed = 0;
  const here = () => upright ? WARP : Math.max(0, look.strip); // while it is dragged its piece may get another place
  const runs = v => upright ? v.warp.runs : v.pieces[here()].runs;
  const take = () => { if (look.strip !== of || look.run !== e.run) { look.strip = of; look.run = e.run; showDesk(); showRule(); showRuns(); mark(); } };
  const move = (to, gesture, from) => {
    const run = e.run;
    return send("do", v => {
      const r = runs(v)[run];
      if (!r || to(r.units) === r.units) return null;
      return { op: { do: "edge", strip: here(), run, to: to(r.units) - r.units, gesture } };
    }, { gesture, from });
  };
  e.addEventListener("focus", () => { if (look.strip === of) take(); });
  e.addEventListener("click", event => event.stopPropagation());
  e.addEventListener("keydown", event => {
    const by = { ArrowRight: upright && 1, ArrowLeft: upright && -1, ArrowUp: !upright && 1, ArrowDown: !upright && -1, PageUp: 5, PageDown: -5 }[event.key];
    const other = { ArrowDown: upright && 1, ArrowUp: upright && -1, ArrowRight: !upright && 1, ArrowLeft: !upright && -1 }[event.key];
    if (by) {
      take();
      const now = performance.now();
      if (now - pressed > 1500) burst = newGesture();
      pressed = now;
      const run = e.run; // not merged while waiting: every press counts
      send("do", { op: { do: "edge", strip: of, run, to: by, gesture: burst } }, {});
    } else if (other) {
      const all = e.parentElement.children, next = all[e.run + other];
      if (next) { next.tabIndex = 0; e.tabIndex = -1; next.focus(); }
    } else if (event.key === "s" && !event.ctrlKey && !event.metaKey) take(), op({ do: "swap", strip: of, run: e.run });
    else return;
    event.preventDefault(); event.stopPropagation();
  });
  e.addEventListener("pointerdown", event => {
    event.stopPropagation(); event.preventDefault();
    e.focus(); take();
    const all = runs(view), units = all.reduce((a, r) => a + r.units, 0), start = all[e.run].units, gesture = newGesture();
    const box = e.parentElement.getBoundingClientRect();
    const s = of === WARP ? view.warp : view.pieces[of];
    const unit = (upright ? box.width : box.height * (1 - 2 * endMM(s) / heightMM(s))) / units;
    const from = upright ? event.clientX : event.clientY;
    document.documentElement.setPointerCapture(event.pointerId); // not by the edge, which may go
    const moved = m => {
      const by = Math.round((upright ? m.clientX - from : from - m.clientY) / unit);
      move(() => start + by, gesture, performance.now());
    };
    const up = () => { removeEventListener("pointermove", moved); removeEventListener("pointerup", up); removeEventListener("pointercancel", up); };
    addEventListener("pointermove", moved); addEventListener("pointerup", up); addEventListener("pointercancel", up);
  });
  return e;
}

// mark shows which strip is at work without drawing the cloth anew.
function mark() {
  $("warp-pick").setAttribute("aria-pressed", look.strip === WARP);
  [...$("pieces").children].forEach((e, i) => { e.classList.toggle("chosen", i === look.strip); e.pick.setAttribute("aria-pressed", i === look.strip); });
  edges();
}

function choose(strip) {
  look.strip = strip; look.run = 0;
  showDesk(); showRule(); showRuns(); mark();
  remember();
  if (look.lens) fetchThreads();
}

/* the magnifier */

async function fetchThreads() {
  const piece = Math.max(0, look.strip);
  const r = await fetch("threads?piece=" + piece);
  if (!r.ok) return;
  threads = await r.json(); threads.piece = piece;
  $("lens-end").max = threads.shafts.length; $("lens-pick").max = threads.sheds.length;
  await drawLens();
}

const lensBack = () => look.sides === "both" ? look.over : look.sides === "back";

// drawLens says what is in the middle and shows it as soon as it is drawn; of what is
// asked for meanwhile only the latest is.
let lensWanted = "", lensShown = "", lensDrawing = null;

function drawLens() {
  if (!threads) return null;
  const back = lensBack(), ends = threads.shafts.length, picks = threads.sheds.length;
  if (!look.end) { look.end = Math.ceil(ends / 2); look.pick = Math.ceil(picks / 2); }
  look.end = Math.min(Math.max(1, look.end), ends); look.pick = Math.min(Math.max(1, look.pick), picks);
  $("lens-end").value = look.end; $("lens-pick").value = look.pick;
  lensSays(back, ends);
  lensWanted = "lens?piece=" + threads.piece + "&column=" + (look.end - 1) + "&pick=" + (look.pick - 1) + "&side=" + (back ? "back" : "face") + "&eyes=" + look.eyes + "&edition=" + view.edition;
  return lensDrawing = lensDrawing || showLens().finally(() => { lensDrawing = null; });
}

async function showLens() {
  while (lensShown !== lensWanted) {
    const image = new Image();
    image.src = lensShown = lensWanted;
    try { await image.decode(); } catch (e) { return; } // and the next is asked for again
    const ctx = sized($("lens"), 300, 300);
    ctx.drawImage(image, 0, 0, ctx.canvas.width, ctx.canvas.height);
  }
}

function lensSays(back, ends) {
  const column = look.end - 1, e = back ? ends - 1 - column : column, p = look.pick - 1;
  const weft = ((threads.sheds[p] >>> (threads.shafts[e] - 1) & 1) === 1) !== back;
  const colour = view.colours[weft ? threads.picks[p] : threads.ends[e]];
  const says = (view.pieces[threads.piece] || {}).name + ", " + (back ? "back" : "face") + ": end " + (e + 1) + " on shaft " + threads.shafts[e] + ", pick " + (p + 1) +
    (threads.pattern[p] ? " (pattern)" : " (ground)") + ": " + (weft ? "weft" : "warp") + " on top, " + (colour ? colour.name : "");
  put($("lens-says"), says);
  $("lens").setAttribute("aria-label", "The cloth thread by thread. " + says);
}

function overLens(event, piece) {
  if (!look.lens || event.target.tagName !== "CANVAS" || !threads || threads.piece !== piece) return;
  const box = event.target.getBoundingClientRect();
  look.end = 1 + Math.floor((event.clientX - box.left) / box.width * threads.shafts.length);
  look.pick = pickAt((box.bottom - event.clientY) / box.height);
  look.over = event.target.back;
  drawLens();
}

// pickAt is the pick at a part of a piece's height: picks lie closer in hems than
// between them.
function pickAt(part) {
  let up = part * threads.rows.reduce((mm, r) => mm + r.mm, 0), before = 0;
  for (const r of threads.rows) {
    if (up < r.mm) return before + 1 + Math.floor(up / r.mm * r.picks);
    up -= r.mm; before += r.picks;
  }
  return before;
}

function magnify(on) {
  look.lens = on;
  $("magnifier").hidden = !on;
  $("magnify").setAttribute("aria-expanded", on);
  return on ? fetchThreads() : null;
}

/* looking */

let swiped = false;

function swipe(event) {
  swiped = false;
  const { clientX: x, clientY: y } = event, target = event.currentTarget;
  const up = e => {
    target.removeEventListener("pointerup", up);
    if (Math.abs(e.clientX - x) > 45 && Math.abs(e.clientY - y) < 60) { swiped = true; turnOver(); setTimeout(() => { swiped = false; }, 50); }
  };
  target.addEventListener("pointerup", up, { once: true });
}

async function turnOver() {
  look.sides = look.sides === "face" ? "back" : look.sides === "back" ? "face" : "back";
  $("sides").value = look.sides;
  $("pieces").classList.remove("turning");
  await lookAgain();
  void $("pieces").offsetWidth;
  $("pieces").classList.add("turning");
  put($("said"), "the " + look.sides + " of the cloth");
}

async function lookAgain() {
  const from = performance.now();
  stripesong.settled = false;
  remember();
  if (view) await draw();
  stripesong.times.push(performance.now() - from);
  stripesong.settled = !busy;
}

// remember keeps how one looks through a reload; what one made is kept by the
// program itself.
function remember() {
  try { sessionStorage.setItem("look", JSON.stringify(look)); } catch (e) { /* then it is forgotten */ }
}

function recall() {
  try { Object.assign(look, JSON.parse(sessionStorage.getItem("look") || "{}")); } catch (e) { /* as new */ }
  for (const key of ["sides", "eyes", "from", "laid", "zoom"]) $(key).value = look[key];
}

/* what the controls do */

function wire() {
  const click = (id, act) => $(id).addEventListener("click", act);
  click("undo", () => send("undo", {})); click("redo", () => send("redo", {}));
  for (const key of ["sides", "eyes", "from", "laid", "zoom"]) $(key).addEventListener("change", () => {
    look[key] = key === "eyes" || key === "zoom" ? Number($(key).value) : $(key).value;
    lookAgain().then(() => { put($("said"), $(key).labels[0].firstChild.textContent.trim() + ": " + $(key).selectedOptions[0].text); if (key === "laid") $("set").scrollTop = look.laid === "woven" ? 1e6 : 0; });
  });
  click("over", turnOver);
  click("magnify", () => magnify(!look.lens)); click("singly-show", () => magnify(true));
  for (const key of ["end", "pick"]) $("lens-" + key).addEventListener("input", e => { look[key] = Number(e.target.value); drawLens(); });
  click("put", () => send("aside", { aside: "put" })); click("clear", () => send("aside", { aside: "clear" })); click("back", () => send("aside", { aside: "back" }));
  click("save", save); click("publish", () => { put($("said"), "drawing …"); send("publish", {}); });
  click("save-as", () => { $("naming-name").value = view.title; $("naming").showModal(); });
  click("naming-close", () => $("naming").close()); click("keys", () => $("help").showModal()); click("help-close", () => $("help").close());
  $("naming-form").addEventListener("submit", () => send("save-as", { title: $("naming-name").value }));
  const answer = (id, act) => click(id, () => { $("changed").close(); act(); });
  answer("changed-copy", () => send("save-as", { title: view.title })); answer("changed-over", () => send("save", { over: true }));
  answer("changed-read", () => send("reread", {})); answer("changed-close", () => {});
  click("busy-stop", stopWork);
  click("wrong-close", () => { $("wrong").hidden = true; });
  $("add").addEventListener("submit", e => { e.preventDefault(); op({ do: "colour.add", colour: $("add-name").value, value: $("add-hex").value, key: $("add-yarn").value }, { control: $("add-name") }).then(a => { if (a.ok) $("add-name").value = ""; }); });
  wireDesk(click);
  document.addEventListener("keydown", shortcut);
  let later = 0;
  addEventListener("resize", () => { cancelAnimationFrame(later); later = requestAnimationFrame(() => { if (view) draw(); }); });
}

const save = () => send("save", {});

function wireDesk(click) {
  $("strip").addEventListener("change", () => choose(Number($("strip").value)));
  click("warp-pick", () => choose(WARP));
  $("warp-canvas").addEventListener("click", () => choose(WARP));
  onChange($("piece-name"), c => op({ do: "piece.name", value: c.value }, { control: c }));
  for (const id of ["keep", "loose", "turn", "mirror", "another"]) click(id, () => op({ do: id }));
  click("copy", () => op({ do: "piece.copy" }).then(a => { if (a.ok) choose(view.at); }));
  const moved = by => op({ do: "piece.move", to: look.strip + by }).then(a => { if (a.ok) choose(view.at); });
  click("earlier", () => moved(-1)); click("later", () => moved(1));
  click("drop", () => op({ do: "piece.drop" })); click("open", () => op({ do: "piece.open" }));
  onChange($("order"), c => op({ do: "order", value: c.value }, { control: c }));
  onChange($("first"), c => op({ do: "first", value: c.value }, { control: c }));
  onChange($("middle"), c => op({ do: "middle", value: c.value }, { control: c }));
  onChange($("run-block"), c => op({ do: "reblock", run: look.run, value: c.value }, { control: c }));
  onChange($("run-colour"), c => op({ do: "recolour", run: look.run, colour: view.colours[c.value].name }, { control: c }));
  whileTyping($("run-units"), (c, gesture) => { if (c.value) op({ do: "units", run: look.run, to: Number(c.value) }, { gesture, control: c }); });
  click("narrower", () => op({ do: "edge", run: look.run, to: -1 })); click("wider", () => op({ do: "edge", run: look.run, to: 1 }));
  click("swap", swap);
  click("split", () => op({ do: "split", run: look.run })); click("out", () => op({ do: "drop", run: look.run }));
  click("another-set", () => op({ do: "seed" })); click("open-all", () => op({ do: "pieces.open" }));
  onChange($("seed"), c => op({ do: "seed", to: Number(c.value) }, { control: c }));
}

function shortcut(event) {
  const typing = event.target.matches("input:not([type=checkbox], [type=radio], [type=range], [type=color]), textarea");
  const key = event.key.toLowerCase();
  if ((event.ctrlKey || event.metaKey) && !event.altKey) {
    if (key === "s") save();
    else if (typing && event.target.dataset.typing) return;
    else if (key === "z" && !event.shiftKey) send("undo", {});
    else if (key === "y" || key === "z") send("redo", {});
    else return;
    event.preventDefault();
  } else if (!typing && !event.altKey && event.target.tagName !== "SELECT" && !document.querySelector("dialog[open]")) {
    if (key === "f") turnOver(); else if (key === "m") magnify(!look.lens);
  }
}

addEventListener("error", e => stripesong.errors.push(e.message));
addEventListener("unhandledrejection", e => stripesong.errors.push(String(e.reason)));

wire();
recall();
stripesong.settled = false;
ask("view").then(async answer => {
  if (!answer.view) return report(answer);
  take(answer);
  await show();
  atWork(answer.busy);
  if (look.lens) magnify(true);
  if (look.laid === "woven") $("set").scrollTop = 1e6;
  stripesong.settled = true;
});
