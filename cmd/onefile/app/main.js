// @ts-check
// Stands in for the program on the weaver's machine: the page's requests go to a worker,
// which runs the program itself. Comes before the page's own modules.

import { give, read, write } from "./files.js";
import { Keeper, left } from "./kept.js";
import { wire } from "./opening.js";

const textOf = (/** @type {string} */ id) => document.getElementById(id)?.textContent || "";

const worker = new Worker(URL.createObjectURL(new Blob([textOf("worker")],
  { type: "text/javascript" })));

/** @type {{name: string, text: string, handle: any, keeper: Keeper, left: any[]}} */
let open;
const waiting = new Map();
let sent = 0;

/** send asks the worker. @param {object} what @returns {Promise<any>} */
const send = what => new Promise(done => {
  waiting.set(++sent, done);
  worker.postMessage({ id: sent, ...what });
});

/** What the program asks of the browser; see storage.go. @type {Record<string, Function>} */
const host = {
  read: () => open.handle ? read(open.handle) : open.text,
  save: async (/** @type {string} */ text) => {
    if (open.handle) await write(open.handle, text);
    else give(open.name, text);
    open.text = text;
    return open.handle ? open.name : open.name + ", among your downloads";
  },
  give: (/** @type {string} */ name, /** @type {BlobPart} */ body) => {
    give(name, body);
    return name + ", among your downloads";
  },
  keep: (/** @type {string | null} */ text, /** @type {string} */ base) =>
    open.keeper.keep(text, base),
  forget: (/** @type {number} */ id) => {
    const one = open.left.find(l => l.id === id);
    if (one) localStorage.removeItem(one.place);
  },
};

worker.onmessage = async ({ data }) => {
  if (data.ready) return begin(data.brief);
  if (data.ended) return ended(data.ended);
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
  const own = JSON.parse(textOf("brief") || "null");
  await openBrief(own ? { ...own, handle: null } : { name: "the built-in brief", text: builtIn,
    handle: null }, Boolean(own));
  started();
}

/** openBrief makes a brief the one at work; it gives what is wrong with it, or null. */
async function openBrief(/** @type {import("./files.js").Opened} */ file, fromFile = true) {
  const before = open;
  open = { ...file, keeper: new Keeper(file.name), left: left(file.name) };
  const { wrong } = await send({ open: { name: file.name, text: file.text, fromFile,
    left: open.left } });
  if (wrong) open = before;
  return wrong;
}

/** carry answers what the page asks, as fetch does. @param {string} path
 *  @param {RequestInit} [how] */
async function carry(path, how = {}) {
  await ready;
  if (gone) throw new Error(gone);
  const [at, query = ""] = path.split("?");
  const { answer, wrong } = await send({ ask: { method: how.method || "GET", path: "/" + at,
    query, body: how.body || "" } });
  if (wrong) throw new Error(wrong);
  return new Response(answer.body, { status: answer.status,
    headers: { "Content-Type": answer.kind } });
}

Object.assign(globalThis, { carry });
wire(openBrief, carry);

/** bytesOf reads base64. @param {string} text */
function bytesOf(text) {
  if ("fromBase64" in Uint8Array) return /** @type {any} */ (Uint8Array).fromBase64(text);
  const binary = atob(text), bytes = new Uint8Array(binary.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = binary.charCodeAt(i);
  return bytes;
}

const packed = bytesOf(textOf("program"));
worker.postMessage({ program: packed.buffer }, [packed.buffer]);
