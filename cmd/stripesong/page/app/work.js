// @ts-check
// Work is sent one piece after the other, in order. Of what is one gesture only the
// latest waits; what it will look like is shown meanwhile.

import { call, news } from "./program.js";
import { changed, guess, state } from "./state.js";

/** @typedef {import("./program.js").Answer} Answer */
/**
 * @typedef {{gesture?: string, control?: HTMLElement | null,
 *   guess?: (cloth: any) => any, from?: number}} How
 * @typedef {{verb: string, body: any, gesture: string, control: HTMLElement | null,
 *   from: number, shown: () => void, done: (a: Answer) => void,
 *   answered: Promise<Answer>}} Entry
 */

export const measured = { settled: true, edition: 0, times: /** @type {number[]} */ ([]),
  errors: /** @type {string[]} */ ([]), sizes: /** @type {number[]} */ ([]) };

/** @type {Entry[]} */
const waiting = [];
let busy = false;

/** what is done with every answer. @type {(a: Answer, control: HTMLElement | null) => void} */
let report = () => {};

/** @param {typeof report} f */
export const reportTo = f => { report = f; };

// what changes the cloth
const EDITS = new Set(["do", "undo", "redo", "go", "take"]);

/** idle tells whether nothing is under way. */
export const idle = () => !busy && !waiting.length;

/**
 * send queues a message. A body may be a function of the view at its turn, null for
 * nothing to do.
 * @param {string} verb @param {any} body @param {How} [how] @returns {Promise<Answer>}
 */
export function send(verb, body, how = {}) {
  if (EDITS.has(verb) && state.hand >= 0) { // who does something else has put it down
    state.hand = -1;
    changed();
  }
  measured.settled = false;
  const last = waiting[waiting.length - 1], gesture = how.gesture || "";
  if (gesture && last && last.gesture === gesture) {
    last.body = body;
    if (how.guess) {
      last.shown();
      last.shown = guess(how.guess);
    }
    return last.answered;
  }
  /** @type {Entry} */
  const entry = { verb, body, gesture, control: how.control || null,
    from: how.from || performance.now(), shown: how.guess ? guess(how.guess) : () => {},
    done: () => {}, answered: Promise.resolve({ ok: false }) };
  entry.answered = new Promise(done => { entry.done = done; });
  waiting.push(entry);
  if (!busy) work();
  return entry.answered;
}

/** giveUp takes a gesture back as if it had never been. @param {string} gesture */
export function giveUp(gesture) {
  for (const entry of waiting.filter(e => e.gesture === gesture)) {
    waiting.splice(waiting.indexOf(entry), 1);
    entry.shown();
    entry.done({ ok: false });
  }
  return send("give-up", { op: { gesture } });
}

async function work() {
  busy = true;
  while (waiting.length) {
    const entry = /** @type {Entry} */ (waiting.shift());
    const body = typeof entry.body === "function" ? entry.body(state.view) : entry.body;
    if (body === null) {
      entry.shown();
      entry.done({ ok: true });
      continue;
    }
    const late = setTimeout(watchWork, SOON);
    const answer = await call(entry.verb, { edition: state.view.edition, ...body });
    clearTimeout(late);
    atWork(answer.busy);
    entry.shown();
    try {
      if (answer.view) take(answer, answer.ok ? body.op : null);
      report(answer, entry.control);
      changed();
    } catch (e) { measured.errors.push(String(e instanceof Error && e.stack || e)); }
    measured.times.push(performance.now() - entry.from);
    entry.done(answer);
  }
  busy = false;
  measured.settled = true;
}

/** take shows the view of an answer, to an operation or to something else.
 *  @param {Answer} answer @param {any} [op] */
export function take(answer, op) {
  const { view, kept, left, again } = answer, was = state.view;
  Object.assign(state, { view, kept, left, again: again || state.again,
    noFile: Boolean(answer.no_file) });
  measured.edition = view.edition;
  if (was && was.edition !== view.edition) {
    state.beside = state.against = null; // they were held against what was there
    follow(was, view, op);
  }
  const s = state.selected;
  if (!s) return;
  if (s.strip >= view.pieces.length) s.strip = view.pieces.length - 1;
  const runs = s.strip === -2 ? [] : s.strip < 0 ? view.warp.runs : view.pieces[s.strip].runs;
  if (s.run !== null) s.run = Math.min(s.run, runs.length - 1);
}

/** follow goes with pieces that have another place now: the one that an operation was
 *  about is told by the program, the others are known by their names.
 *  @param {any} was @param {any} view @param {any} op */
function follow(was, view, op) {
  const told = op && op.strip >= 0 && view.at >= 0 && view.at !== op.strip ? op.strip : -1;
  const to = (/** @type {number} */ i) => i < 0 ? i : i === told ? view.at : placeNow(was, view, i);
  const s = state.selected;
  if (s) state.selected = { ...s, strip: to(s.strip), via: to(s.via) };
  state.turned = new Set([...state.turned].map(to));
  if (told < 0) return;
  for (const { body } of waiting) {
    if (body && body.op && body.op.strip === told) body.op.strip = view.at;
  }
}

/** placeNow is where a piece is now, by its name; its old place where that does not tell.
 *  @param {any} was @param {any} view @param {number} piece */
function placeNow(was, view, piece) {
  const { name } = was.pieces[piece] || { name: "" };
  const named = (/** @type {any} */ v) => v.pieces.filter((/** @type {any} */ p) =>
    p.name === name).length;
  if (named(was) !== 1 || named(view) !== 1) return piece;
  return view.pieces.findIndex((/** @type {any} */ p) => p.name === name);
}

/* long work is said, and can be stopped */

const SOON = 600, AGAIN = 500; // milliseconds until it is said, and between two looks
let watching = 0, told = 0;
export const job = { job: 0, since: 0, what: "" };

/** watchWork looks at what is being worked on, and again until it is done. */
export async function watchWork() {
  const before = told, answer = await call("status");
  if (told !== before) return; // something newer has been said meanwhile
  atWork(answer.busy);
}

/** @param {{job: number, what: string} | undefined} now */
export function atWork(now) {
  clearTimeout(watching);
  told++;
  if (!now) Object.assign(job, { job: 0, what: "" });
  else {
    if (now.job !== job.job) job.since = performance.now();
    Object.assign(job, now);
    watching = setTimeout(watchWork, AGAIN);
  }
  for (const f of workers) f();
}

/** @type {(() => void)[]} */
const workers = [];

/** onWork calls when work begins, goes on or ends. @param {() => void} f */
export const onWork = f => { workers.push(f); };

export function stopWork() {
  for (const entry of waiting.splice(0)) {
    entry.shown();
    entry.done({ ok: false });
  }
  call("stop", { job: job.job });
}

/* other windows */

/** differs tells whether there is another edition than the one shown, or whether one of them
 *  is saved. @param {{edition?: number, saved?: boolean}} now */
const differs = now => now.edition !== state.view.edition ||
  Boolean(now.saved) !== state.view.saved;

/** followOthers shows what another window does, as soon as it is done. */
export async function followOthers() {
  for (;;) {
    const answer = await news(state.view);
    if (answer.gone) {
      report(answer, null);
      await new Promise(done => setTimeout(done, 5000));
      continue;
    }
    if (answer.edition && differs(answer) && idle()) {
      const now = await call("view");
      if (now.view && idle() && differs(now.view)) {
        const same = now.view.edition === state.view.edition;
        take(now);
        report({ ok: true, said: same ? "another window has saved this" : "another window has " +
          "changed this; it is shown here now" }, null);
        changed();
      }
    }
    await new Promise(done => setTimeout(done, 60)); // however often it is answered
  }
}
