// @ts-check
// Stands in for the program on the weaver's machine: the page's requests go to a worker,
// which runs the program itself. Comes before the page's own modules.

import { give, read, write } from "./files.js";
import { Keeper, arrive, left } from "./kept.js";
import { refusal, wire } from "./opening.js";

const textOf = (/** @type {string} */ id) => document.getElementById(id)?.textContent || "";

const worker = new Worker(URL.createObjectURL(new Blob([textOf("worker")],
  { type: "text/javascript" })));

/**
 * @typedef {import("./opening.js").Wrong} Wrong
 * @typedef {{name: string, text: string, handle: any, fromFile: boolean, keeper: Keeper,
 *   left: import("./kept.js").Left[]}} Brief a brief that was opened
 */

/** @type {Brief} */
let open;
/** @type {Brief[]} all that were, by the numbers that the program has of them */
const briefs = [];
const waiting = new Map();
let sent = 0;

/** send asks the worker. @param {object} what @returns {Promise<any>} */
const send = what => new Promise(done => {
  waiting.set(++sent, done);
  worker.postMessage({ id: sent, ...what });
});

const DOWNLOADED = ", among your downloads";

/** What the program asks of the browser; see storage.go. @type {Record<string, Function>} */
const host = {
  read: (/** @type {number} */ id) => briefs[id].handle ? read(briefs[id].handle)
    : briefs[id].text,
  save: async (/** @type {number} */ id, /** @type {string} */ text) => {
    const at = briefs[id];
    if (at.handle) await write(at.handle, text);
    else give(at.name, text);
    at.text = at.keeper.saved = text;
    return at.handle ? at.name : at.name + DOWNLOADED;
  },
  become: (/** @type {number} */ id, /** @type {string} */ name, /** @type {string} */ text) => {
    const at = briefs[id];
    give(name, text);
    Object.assign(at, { name, text, fromFile: true });
    Object.assign(at.keeper, { name, fromFile: true, saved: text });
    return name + DOWNLOADED;
  },
  give: (/** @type {string} */ name, /** @type {BlobPart} */ body) => {
    give(name, body);
    return name + DOWNLOADED;
  },
  keep: (/** @type {number} */ id, /** @type {string | null} */ text,
    /** @type {string} */ base) => briefs[id].keeper.keep(text, base),
  forget: (/** @type {number} */ id, /** @type {number} */ left) => {
    const one = briefs[id].left.find(l => l.id === left);
    if (one) localStorage.removeItem(one.place);
  },
};

worker.onmessage = async ({ data }) => {
  if (data.ready) return begin(data.brief);
  if (data.ended) return ended(data.ended);
  if (data.opening) return opening = data.opening;
  if (data.host) {
    try {
      const value = await host[data.what](...data.args);
      return worker.postMessage({ hosted: data.host, value });
    } catch (e) {
      return worker.postMessage({ hosted: data.host, wrong: String(e && /** @type {Error} */
        (e).message || e) });
    }
  }
  const done = waiting.get(data.id);
  waiting.delete(data.id);
  done(data);
};

let gone = "";

/** ended has all that waits fail, now and later. @param {string} why */
function ended(why) {
  gone = why;
  for (const done of waiting.values()) done({ wrong: why });
}

let started = () => {};
const ready = new Promise(done => { started = () => done(null); });

/** begin opens the brief that this file was written with, or the built-in one. */
async function begin(/** @type {string} */ builtIn) {
  arrive();
  const own = JSON.parse(textOf("brief") || "null");
  await openBrief(own ? { ...own, handle: null } : { name: "the built-in brief", text: builtIn,
    handle: null }, Boolean(own));
  started();
}

/** opening is what is told of a brief that is being opened; "" for none. */
let opening = "";

/** openBrief makes a brief the one at work; it gives what is wrong with it, or null.
 *  @param {import("./files.js").Opened} file @param {string | null} [saved] what was saved
 *  of it last, null for nothing @returns {Promise<Wrong | null>} */
async function openBrief(file, fromFile = true, saved = null) {
  const keeper = new Keeper(file.name, fromFile), number = briefs.length;
  const now = { ...file, fromFile, keeper, left: await left(file, keeper) };
  keeper.saved = saved;
  briefs.push(now);
  opening = "opening " + file.name;
  const late = setTimeout(() => /** @type {any} */ (window).stripesong.watchWork(), LATE);
  const { wrong } = await send({ open: { number, name: file.name, text: file.text, fromFile,
    left: now.left } });
  clearTimeout(late);
  opening = "";
  if (!wrong) open = now;
  return wrong;
}

const LATE = 600; // milliseconds until it is said that a brief is being opened
const OPENING = -1; // the number of that piece of work; the program's own begin with 1

/** carry answers what the page asks, as fetch does. @param {string} path
 *  @param {RequestInit} [how] */
async function carry(path, how = {}) {
  await ready;
  if (gone) throw new Error(gone);
  const [at, query = ""] = path.split("?"), body = String(how.body || "");
  if (at === "status" && opening) return said({ busy: { job: OPENING, what: opening } });
  if (at === "stop" && JSON.parse(body).job === OPENING) {
    worker.postMessage({ stopOpening: true });
    return said({ said: "stopping" });
  }
  return at === "left" ? decide(body) : ask(how.method || "GET", at, query, body);
}

/** @param {string} method @param {string} at @param {string} query @param {string} body */
async function ask(method, at, query, body) {
  const { answer, wrong } = await send({ ask: { method, path: "/" + at, query, body } });
  if (wrong) throw new Error(wrong);
  return new Response(answer.body, { status: answer.status,
    headers: { "Content-Type": answer.kind } });
}

const said = (/** @type {object} */ what, status = 200) => Response.json(what, { status });

/** decide takes up what was left, or throws it away; what belongs to another brief than the
 *  one at work is taken up when that is open. @param {string} body */
async function decide(body) {
  const q = JSON.parse(body), one = open.left.find(l => l.id === q.left);
  if (!one || !q.take || !one.saved && one.name === open.name) {
    return ask("POST", "left", "", body);
  }
  const { name, fromFile = true } = one;
  const wrong = await openBrief({ name, text: one.base, handle: null }, fromFile,
    one.saved ? one.text : null);
  if (wrong) return said({ problems: [refusal(name, wrong)] }, 422);
  await /** @type {any} */ (window).stripesong.reopen();
  const now = open.left.find(l => l.place === one.place);
  if (now) return ask("POST", "left", "", JSON.stringify({ take: true, left: now.id }));
  open.keeper.keep(null, "");
  localStorage.removeItem(one.place);
  const view = await (await ask("GET", "view", "", "")).json();
  return said({ ...view, said: name + " is open, as it was saved last" });
}

Object.assign(globalThis, { carry });
wire(openBrief, carry, () => Boolean(open && open.keeper.unsaved));

/** bytesOf reads Ascii85 with v in the place of <: five digits to the base 85, from "!" on
 *  and the first the highest, are four bytes, z is four zeros; a last group of fewer is
 *  filled up with "u", the highest, and gives a byte less than it has digits.
 *  @param {string} text */
function bytesOf(text) {
  const [v, z] = [118, 122], missing = (5 - text.replaceAll("z", "!!!!!").length % 5) % 5;
  const digits = text + "u".repeat(missing), bytes = new Uint8Array(digits.length * 4);
  let n = 0;
  for (let i = 0; i < digits.length; n += 4) {
    if (digits.charCodeAt(i) === z) {
      i++;
      continue;
    }
    let group = 0;
    for (const end = i + 5; i < end; i++) {
      const c = digits.charCodeAt(i);
      group = group * 85 + (c === v ? 60 : c) - 33;
    }
    bytes[n] = group >>> 24;
    bytes[n + 1] = group >>> 16;
    bytes[n + 2] = group >>> 8;
    bytes[n + 3] = group;
  }
  return bytes.slice(0, n - missing);
}

const packed = bytesOf(textOf("program"));
worker.postMessage({ program: packed.buffer }, [packed.buffer]);
