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

/** idle tells whether nothing is under way. */
export const idle = () => !busy && !waiting.length;

/**
 * send queues a message. A body may be a function of the view at its turn, null for
 * nothing to do.
 * @param {string} verb @param {any} body @param {How} [how] @returns {Promise<Answer>}
 */
export function send(verb, body, how = {}) {
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
      if (answer.view) take(answer);
      if (answer.ok) follow(body.op);
      report(answer, entry.control);
      changed();
    } catch (e) { measured.errors.push(String(e instanceof Error && e.stack || e)); }
    measured.times.push(performance.now() - entry.from);
    entry.done(answer);
  }
  busy = false;
  measured.settled = true;
}

/** take shows the view of an answer. @param {Answer} answer */
export function take(answer) {
  const { view, kept, left, again } = answer;
  Object.assign(state, { view, kept, left, again: again || state.again,
    noFile: Boolean(answer.no_file) });
  measured.edition = view.edition;
  const s = state.selected;
  if (!s) return;
  if (s.strip >= view.pieces.length) s.strip = view.pieces.length - 1;
  const runs = s.strip === -2 ? [] : s.strip < 0 ? view.warp.runs : view.pieces[s.strip].runs;
  if (s.run !== null) s.run = Math.min(s.run, runs.length - 1);
}

/** follow goes with a piece that an edit gave another place. @param {any} op */
function follow(op) {
  const { view, selected } = state;
  if (!op || op.strip < 0 || view.at < 0 || view.at === op.strip) return;
  if (selected && selected.strip === op.strip) selected.strip = view.at;
  for (const { body } of waiting) {
    if (body && body.op && body.op.strip === op.strip) body.op.strip = view.at;
  }
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
