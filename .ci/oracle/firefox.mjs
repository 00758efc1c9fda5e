// The page in Firefox: node firefox.mjs PLAN.JSON ADDRESS..., each a page that shows the
// built-in brief, whose plan PLAN.JSON is. It shows the plan's colours, is worked with by
// mouse, finger and keyboard, gives its file and asks nothing of the network. Firefox is
// spoken to in WebDriver BiDi (W3C).
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import WebSocket from "ws";

const [planFile, ...addresses] = process.argv.slice(2);
const plan = JSON.parse(readFileSync(planFile, "utf8"));
const profile = mkdtempSync(join(tmpdir(), "stripesong-firefox-"));
const given = join(profile, "given");

const preferences = {
  "browser.download.folderList": 2, "browser.download.dir": given,
  "browser.download.useDownloadDir": true, "browser.download.always_ask_before_handling_new_types": false,
  "browser.download.panel.shown": false, "intl.accept_languages": "en-US",
  "layout.css.devPixelsPerPx": "1.0", "gfx.color_management.mode": 0,
  "app.update.enabled": false, "datareporting.policy.dataSubmissionEnabled": false,
  "browser.shell.checkDefaultBrowser": false, "remote.log.level": "Warn",
};
writeFileSync(join(profile, "user.js"), Object.entries(preferences)
  .map(([key, value]) => `user_pref(${JSON.stringify(key)}, ${JSON.stringify(value)});\n`).join(""));

const firefox = spawn("firefox-esr",
  ["--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0"],
  { stdio: "ignore", detached: true });
const gone = new Promise((_, failed) => {
  firefox.on("error", failed);
  firefox.on("exit", code => failed(new Error(`Firefox ended by itself: ${code}`)));
});

/* one message, one answer */

let socket, number = 0;
const waiting = new Map(), requests = [], complaints = [];

async function connect() {
  const file = join(profile, "WebDriverBiDiServer.json");
  while (!existsSync(file) || !readFileSync(file, "utf8").includes("ws_port")) await sleep(50);
  const { ws_host: host, ws_port: port } = JSON.parse(readFileSync(file, "utf8"));
  socket = new WebSocket(`ws://${host}:${port}/session`);
  await new Promise((done, failed) => { socket.onopen = done; socket.onerror = failed; });
  socket.onmessage = m => hear(JSON.parse(m.data));
  await call("session.new", { capabilities: {} });
  await call("session.subscribe", { events: ["log.entryAdded", "network.beforeRequestSent"] });
  // a window of its own: the first one has no focus, so that no field in it is ever left
  return (await call("browsingContext.create", { type: "window" })).context;
}

function hear(message) {
  if (message.id) return waiting.get(message.id)(message);
  const { method, params } = message;
  if (method === "log.entryAdded" && ["error", "warn"].includes(params.level)) complaints.push(params.text);
  if (method === "network.beforeRequestSent") requests.push(params.request.url);
}

async function call(method, params) {
  const id = ++number;
  const answer = new Promise(done => waiting.set(id, done));
  socket.send(JSON.stringify({ id, method, params }));
  const { type, result, error, message } = await Promise.race([answer, gone]);
  if (type === "error") throw new Error(`${method}: ${error}: ${message}`);
  return result;
}

/* what a test does with the page */

let context;

async function evaluate(script) {
  const { result, exceptionDetails: wrong } = await call("script.evaluate", {
    expression: `(async () => JSON.stringify(await (${script})))()`, target: { context },
    awaitPromise: true,
  });
  if (wrong) throw new Error(`${wrong.text}\n${script}`);
  return result.value === undefined ? undefined : JSON.parse(result.value);
}

const STOOD_STILL = 3; // what this ends with where Firefox itself gave no answer any more

/** settle waits until the page has shown all that was asked for. Now and then a Firefox's
 *  process for files from a disk waits for a lock of its own for ever, as it begins. */
async function settle() {
  const there = () => Promise.race([sleep(2000, "silent"),
    evaluate("Boolean(window.stripesong && stripesong.settled)")]);
  for (let silent = 0, answer; (answer = await there()) !== true;) {
    silent = answer === "silent" ? silent + 1 : 0;
    if (silent > 20) throw Object.assign(new Error("Firefox stood still"), { code: STOOD_STILL });
    await sleep(5);
  }
  await evaluate("(async () => { await new Promise(requestAnimationFrame); return true; })()");
}

/** idOf names what acts: a mouse stays one, whatever is said of it later. */
const idOf = ({ type, parameters: { pointerType } = {} }) => `${type}-${pointerType}`;

async function act(...sources) {
  await call("input.performActions", { context,
    actions: sources.map(source => ({ id: idOf(source), ...source })) });
  await settle();
}

const pointer = (kind, ...at) => act({ type: "pointer", parameters: { pointerType: kind }, actions: [
  { type: "pointerMove", x: at[0][0], y: at[0][1] }, { type: "pointerDown", button: 0 },
  ...at.slice(1).flatMap(([x, y]) =>
    [{ type: "pointerMove", x, y, duration: 50 }, { type: "pause", duration: 50 }]),
  { type: "pointerUp", button: 0 }] });

const keys = (...pressed) => act({ type: "key", actions: pressed.flatMap(value =>
  [{ type: "keyDown", value }, { type: "keyUp", value }]) });

const chord = (held, value) => act({ type: "key", actions: [
  { type: "keyDown", value: held }, { type: "keyDown", value }, { type: "keyUp", value },
  { type: "keyUp", value: held }] });

const middle = selector => evaluate(`(e => { e.scrollIntoView({ block: "nearest" });
  const r = e.getBoundingClientRect();
  return [Math.round(r.x + r.width / 2), Math.round(r.y + r.height / 2)]; })(document.querySelector(${JSON.stringify(selector)}))`);

const click = async selector => pointer("mouse", await middle(selector));

/** crossing is the middle of a patch, on the screen. */
const crossing = (piece, band, stripe) => evaluate(`(() => {
  const S = stripesong, o = document.getElementById("canvas").getBoundingClientRect();
  S.draw();
  const c = S.cloth(), box = S.boxesOf(${piece})[0];
  const up = S.runBox(c, ${piece}, ${band}, box, false), across = S.runBox(c, -1, ${stripe}, box, false);
  return [o.left + across.x + across.w / 2, o.top + up.y + up.h / 2].map(Math.round); })()`);

/** inBlock is the first stripe where a band's pattern shows most, or least. */
const inBlock = (piece, band, shows) => plan.warp.runs.findIndex(stripe =>
  (stripe.block === plan.pieces[piece].runs[band].block) === shows);

const runs = strip => evaluate(strip < 0 ? "stripesong.cloth().warp.runs"
  : `stripesong.cloth().pieces[${strip}].runs`);

const chosen = () => evaluate("(s => s && [s.strip, s.run])(stripesong.state.selected)");

const CONTROL = "\uE009", TAB = "\uE004";

/* what is held */

/** showsThePlan: the middle of every patch is of the plan's colour, to two steps of 255. */
async function showsThePlan() {
  const on = (block, run) => !run.pattern ? "plain" : run.block === block ? "on" : "off";
  const places = plan.pieces.flatMap((piece, i) => piece.runs.flatMap((run, band) =>
    plan.warp.runs.map((stripe, k) => {
      const mix = plan.mixes.find(m => m.warp === stripe.colour && m.ground === run.ground &&
        (m.pattern || "") === (run.pattern || "") && m.state === on(stripe.block, run));
      return { piece: i, band, stripe: k, want: mix && mix.hex };
    })));
  assert(places.length > 200 && places.every(p => p.want), "every patch has a mixture");
  const wrong = await evaluate(`(places => {
    const S = stripesong, canvas = document.getElementById("canvas"), wrong = [];
    S.draw();
    const copy = document.createElement("canvas"), pen = copy.getContext("2d");
    copy.width = canvas.width; copy.height = canvas.height;
    pen.drawImage(canvas, 0, 0);
    let looked = 0;
    for (const p of places) {
      const c = S.cloth(), box = S.boxesOf(p.piece)[0];
      const across = S.runBox(c, -1, p.stripe, box, false), up = S.runBox(c, p.piece, p.band, box, false);
      const x = across.x + across.w / 2, y = up.y + up.h / 2;
      if (across.w < 3 || up.h < 3 || (x > box.x + box.w * .78 && y < box.y + box.w * .22)) continue;
      looked++;
      const got = pen.getImageData(Math.floor(x), Math.floor(y), 1, 1).data;
      const want = [1, 3, 5].map(i => parseInt(p.want.slice(i, i + 2), 16));
      if (want.some((v, i) => Math.abs(v - got[i]) > 2)) wrong.push(JSON.stringify(p) + ": " + [...got]);
    }
    if (looked < 150) wrong.push("only " + looked + " places are seen");
    return wrong;
  })(${JSON.stringify(places)})`);
  assert.deepEqual(wrong, [], "the canvas shows the plan's colours");
}

async function byHand() {
  await pointer("mouse", await crossing(1, 2, inBlock(1, 2, true)));
  assert.deepEqual(await chosen(), [1, 2], "a click chooses a band");
  const before = await runs(1);
  await click("#run-units");
  await chord(CONTROL, "a");
  await keys(..."9", TAB);
  assert.equal((await runs(1))[2][1], 9, "units by keyboard");
  await click("#undo");
  assert.deepEqual(await runs(1), before, "undone");
  const under = inBlock(0, 3, false);
  await pointer("touch", await crossing(0, 3, under));
  assert.deepEqual(await chosen(), [0, 3], "a finger chooses the band, whatever shows there");
  await pointer("touch", await crossing(0, 3, under));
  assert.deepEqual(await chosen(), [-1, under], "and again the stripe of the warp");
  await pointer("touch", await crossing(0, 3, inBlock(0, 3, true)));
  assert.deepEqual(await chosen(), [0, 3]);
  await click("#edges");
  const [x, y] = await evaluate(`(() => {
    stripesong.draw();
    const o = document.getElementById("canvas").getBoundingClientRect(), h = stripesong.handles()[0];
    return [Math.round(o.left + h.x), Math.round(o.top + h.y)]; })()`);
  const bands = await runs(0);
  await pointer("mouse", [x, y], [x, y - 10], [x, y - 20]);
  assert((await runs(0))[3][1] > bands[3][1], "an edge is dragged up");
  await click("#undo");
  assert.deepEqual(await runs(0), bands);
}

/** seesThePacket: it opens in the page, with its style. */
async function seesThePacket() {
  await click("#more");
  await click("#packet");
  assert.equal(await evaluate(`(async () => {
    const frame = document.getElementById("packet-frame");
    while (!frame.dataset.edition) await new Promise(r => setTimeout(r, 5));
    return frame.contentDocument.body.innerText.includes(stripesong.state.view.title) &&
      getComputedStyle(frame.contentDocument.querySelector("nav ul")).listStyleType; })()`), "none");
  await click("#viewer-close");
}

/** givesItsFile: what is saved is a download, with what was changed. */
async function givesItsFile() {
  await pointer("mouse", await crossing(0, 1, inBlock(0, 1, true)));
  await click("#run-units");
  await chord(CONTROL, "a");
  await keys(..."31", TAB);
  await click("#save");
  await click("#naming-form button.main");
  const complete = () => existsSync(given) && readdirSync(given).find(name => name.endsWith(".toml"));
  while (!complete()) await sleep(20);
  const name = join(given, complete());
  while (!readFileSync(name, "utf8").includes("[[piece]]")) await sleep(20);
  assert.match(readFileSync(name, "utf8"), / 31 /, "the brief as it is now");
}

async function holds(address) {
  await call("browsingContext.setViewport", { context, viewport: { width: 1440, height: 900 } });
  await call("browsingContext.navigate", { context, url: address, wait: "complete" });
  await settle();
  await showsThePlan();
  await byHand();
  await seesThePacket();
  if (address.startsWith("file:")) await givesItsFile();
  const own = new URL(address).origin;
  const elsewhere = requests.filter(url => !/^(file|blob|data|about|resource|chrome):/.test(url) &&
    new URL(url).origin !== own);
  assert.deepEqual(elsewhere, [], "requests to others");
  assert.deepEqual(complaints, [], "on the console");
  assert.deepEqual(await evaluate("stripesong.errors"), []);
  requests.length = 0;
  console.log(`${new URL(address).protocol} the plan's colours, hands, packet: as it should be`);
}

async function main() {
  context = await connect();
  for (const address of addresses) await holds(address);
}

try {
  await Promise.race([main(), gone]);
} catch (e) {
  console.error(e);
  process.exitCode = e.code === STOOD_STILL ? STOOD_STILL : 1;
}
firefox.removeAllListeners("exit");
const ended = new Promise(done => firefox.on("exit", done));
if (firefox.pid && firefox.exitCode === null) {
  process.kill(-firefox.pid, "SIGKILL"); // and all that it started
  await ended;
}
rmSync(profile, { recursive: true, force: true, maxRetries: 20 });
process.exit();
