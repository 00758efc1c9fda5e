// @ts-check
// The bar: what is worked on, steps, how it is looked at, saving, and the ways out of the
// page: packet, drawings, printing. Below it what is said.

import { redraw, effort, show, showAll } from "./cloth.js";
import { EYES } from "./colour.js";
import { openFiles, openYarns, question, wrote } from "./dialogs.js";
import { wireMenu } from "./menu.js";
import { say } from "./messages.js";
import { $, accepted, make, options, put, refused, roving } from "./parts.js";
import { product } from "./program.js";
import { changed, remember, state } from "./state.js";
import { endLook, pinThis, showPins, showSteps, askOthers } from "./tray.js";
import { WEFT } from "./state.js";
import { idle, job, onWork, send, stopWork } from "./work.js";

// groups of buttons are one stop of the Tab key each
const settle = ["stepping", "going"].map(id => roving($(id)));

export function showBar() {
  const { view, kept } = state;
  put($("title"), view.title);
  document.title = view.title + " · stripesong";
  $("packet-save").href = product("packet.html", true);
  $("packet-save").download = fileName(view.title) + "-packet.html";
  $("zip").href = product($("zip").download = view.title + ".zip", true);
  const short = view.file.replace(/.*[/\\]/, "");
  put($("file"), (view.saved ? "saved · " : "not saved yet · ") + short + (view.saved ? ""
    : kept.wrong ? ", and it can't be kept: " + kept.wrong : ""));
  $("file").title = fileWords().map(w => w.join(": ")).join("\n");
  for (const [id, what, word] of [["undo", view.undo, "Undo"], ["redo", view.redo, "Redo"]]) {
    $(id).disabled = !what;
    $(id).title = what ? word + ": " + what : "";
  }
  for (const id of ["steps", "steps-too"]) $(id).disabled = !(view.steps[0] + view.steps[1]);
  put($("together"), view.sides);
  $("together").hidden = !view.sides;
  $("eyes").value = String(state.eyes);
  $("from").value = String(placeOf(state.metres));
  put($("from-says"), metresWords(state.metres));
  $("from").setAttribute("aria-valuetext", metresWords(state.metres));
  $("over").setAttribute("aria-pressed", state.back);
  for (const id of ["others", "sizes", "save", "more"]) $(id).disabled = false; // it is open
  for (const f of settle) f();
  begun ||= Boolean(state.selected || view.undo || state.hand >= 0);
  $("begin").hidden = begun;
  $("singly").hidden = !(state.metres > 0 && state.metres < state.lists.singly_m);
  document.documentElement.dataset.ground = state.dark ? "dark" : "light";
  put($("dark"), state.dark ? "Light background" : "Dark background");
}

/** fileWords are where the brief is, and where what is not saved is kept.
 *  @returns {[string, string][]} */
export function fileWords() {
  const { view, kept } = state, where = kept.where ? "kept in " + kept.where
    : kept.wrong ? "can't be kept: " + kept.wrong : "not kept";
  return [["File", view.file], .../** @type {[string, string][]} */ (view.saved ? []
    : [["Unsaved work", where]])];
}

let begun = false; // something was done: she needs not be told how to begin

/** fileName is a title as part of a file's name. @param {string} title */
const fileName = title => title.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-")
  .replace(/^-|-$/g, "") || "towels";

/* from how far */

const LAST = 60, NEAR = 0.3, FAR = 10;

const metresAt = (/** @type {number} */ place) => place <= 0 ? 0
  : Number((NEAR * (FAR / NEAR) ** ((place - 1) / (LAST - 1))).toPrecision(2));

const placeOf = (/** @type {number} */ metres) => metres <= 0 ? 0
  : Math.round(1 + (LAST - 1) * Math.log(metres / NEAR) / Math.log(FAR / NEAR));

const metresWords = (/** @type {number} */ m) => !m ? "as it is" : m + " m, " +
  (m < 0.7 ? "the hand" : m < 3.2 ? "the table" : "the room");

/** lookFrom looks from a distance in metres, 0 for as it is. @param {number} metres */
export function lookFrom(metres) {
  state.metres = metres;
  remember();
  showBar();
  redraw();
}

/** turnOver turns all pieces. */
export function turnOver() {
  state.back = !state.back;
  state.turned.clear();
  remember();
  changed();
  say("the " + (state.back ? "back" : "face") + " of the cloth");
}

/* what came of work */

/** report says what came of work, or what is wrong with it: where that is what stands in a
 *  field, at the field.
 *  @param {import("./program.js").Answer} answer @param {any} control */
export function report(answer, control) {
  const problems = answer.gone ? [goneBy(answer.gone)] : answer.problems || [];
  if (answer.gone && answer.gone === lastGone && !control) return;
  lastGone = answer.gone || "";
  const what = problems.map(p => p.what).join("; "), hint = problems[0] && problems[0].hint || "";
  const there = !answer.gone && control && control.checkVisibility();
  if (problems.length && control) {
    const told = what.includes(": write "); // as the hint would
    refused(control, control.dataset.holds || "",
      [what, told ? "" : hint].filter(Boolean).join(": "));
  } else if (control) accepted(control);
  $("wrong").hidden = !problems.length || there;
  if (!$("wrong").hidden) {
    put($("wrong-what"), what);
    put($("wrong-hint"), hint);
  }
  say(problems.length ? "" : answer.said || "");
  if (answer.asks) question(answer.asks);
  if (answer.said && answer.ok) wrote(answer.wrote);
}

let lastGone = "";

/** goneBy says how to go on where the program has ended; it kept all that it answered.
 *  @param {"ended" | "anew"} how */
function goneBy(how) {
  const { kept, again } = state, where = kept.where;
  if (how === "ended") {
    return { what: "the program does not answer", hint: "Is it still running? Start it again, " +
      "in the same folder, and open the address that it prints: " + (again || "stripesong page") +
      (where ? " (what is not saved is kept in " + where + ", up to your last change before the " +
      "program ended, and offered then)" : " (what you changed here since it ended is not kept)") };
  }
  return { what: "the program was started again, and this page belongs to its earlier run",
    hint: "Open the address that it printed when it was started last." + (where ? " What is not " +
      "saved is kept in " + where + ", up to your last change before the program ended, and " +
      "offered there." : " What you changed here since it ended is not kept.") };
}

function showWork() {
  $("busy").hidden = !job.job;
  if (!job.job) return;
  put($("busy-what"), job.what);
  put($("busy-for"), Math.round((performance.now() - job.since) / 1000) + " s");
}

/* printing prints the sheet of the set */

let printed = -1, later = 0;

/** prepareSheet has the sheet ready before she prints, when there is nothing else to do. */
export function prepareSheet() {
  clearTimeout(later);
  if (state.view.edition === printed) return;
  later = setTimeout(() => { if (idle()) fetchSheet(); else prepareSheet(); }, 1200);
}

async function fetchSheet() {
  printed = state.view.edition;
  const sheet = $("sheet") || make("img", { id: "sheet" });
  if (!sheet.isConnected) document.body.append(sheet);
  const before = sheet.src;
  sheet.alt = "The sheet of the set " + state.view.title;
  try {
    sheet.src = URL.createObjectURL(await (await fetch(product("plan.svg"))).blob());
    await sheet.decode();
    sheet.dataset.edition = String(printed);
  } catch (e) { printed = -1; }
  if (before) URL.revokeObjectURL(before);
}

async function print() {
  $("menu").hidePopover();
  if (state.view.edition !== printed) await fetchSheet();
  window.print();
}

/** save writes the file; where there is none yet it asks what to call it. */
export function save() {
  endLook();
  return state.noFile ? nameIt() : send("save", {});
}

function nameIt() {
  put($("naming-title"), state.noFile ? "Save as a file" : "Save a copy");
  $("naming-name").value = state.view.title;
  $("naming").showModal();
}

export function wireBar() {
  const click = (/** @type {string} */ id, /** @type {() => any} */ act) =>
    $(id).addEventListener("click", act);
  const item = (/** @type {string} */ id, /** @type {() => any} */ act) => click(id, () => {
    $("menu").hidePopover();
    act();
  });
  options($("eyes"), EYES.map((w, i) => /** @type {const} */ ([i, w])));
  click("undo", () => send("undo", {}));
  click("redo", () => send("redo", {}));
  click("steps", showSteps);
  click("others", () => askOthers(WEFT, true));
  click("over", turnOver);
  click("fit", showAll);
  click("save", save);
  click("busy-stop", stopWork);
  click("singly-show", () => {
    state.metres = 0;
    showThreads();
  });
  $("eyes").addEventListener("change", () => {
    state.eyes = Number($("eyes").value);
    remember();
    changed();
    say("eyes: " + EYES[state.eyes]);
  });
  $("from").addEventListener("input", () => {
    effort.coarse = 2;
    lookFrom(metresAt(Number($("from").value)));
  });
  $("from").addEventListener("change", () => {
    effort.coarse = 1;
    lookFrom(metresAt(Number($("from").value)));
    say("from: " + metresWords(state.metres));
  });
  item("save-as", nameIt);
  item("single", openFiles);
  item("publish", () => {
    say("drawing …");
    send("publish", {});
  });
  click("print", print);
  item("steps-too", showSteps);
  item("pin", pinThis);
  item("pins", showPins);
  item("keys", () => $("help").showModal());
  item("kinds", openYarns);
  item("photo-open", () => $("photo-file").click());
  item("dark", () => {
    state.dark = !state.dark;
    remember();
    changed();
  });
  for (const id of ["packet-save", "zip"]) click(id, () => $("menu").hidePopover());
  wireMenu();
  onWork(showWork);
}

/** showThreads brings the chosen piece, or the first, so near that its threads are seen. */
export function showThreads() {
  show(Math.max(0, state.selected ? state.selected.strip : 0));
  changed();
}
