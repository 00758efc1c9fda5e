// @ts-check
// What the page has only as one file: a brief is opened from a disk, by a button or by
// letting it fall on the page; and what the server would send as a file is given as a
// download.

import { chosen, dropped, give } from "./files.js";

/** @typedef {import("./files.js").Opened} Opened */

const $ = (/** @type {string} */ id) => /** @type {HTMLElement} */ (document.getElementById(id));

/** say tells what was done where the page tells it. @param {string} text */
const say = text => { $("said").textContent = text; };

/** refuse tells what is wrong where the page tells it.
 *  @param {{what: string, hint: string}} why */
function refuse({ what, hint }) {
  $("wrong-what").textContent = what;
  $("wrong-hint").textContent = hint;
  $("wrong").hidden = false;
}

/** @typedef {{stopped: boolean, more: number, problems: {line: number, what: string}[]}} Wrong
 *  why a brief was not opened */

/** refusal is all that is wrong with a brief, each with its line. @param {string} name
 *  @param {Wrong} wrong */
export function refusal(name, wrong) {
  if (wrong.stopped) return { what: name + " was not opened: stopped", hint: STAYS };
  const lines = wrong.problems.map(p => (p.line ? "line " + p.line + ": " : "") + p.what);
  if (wrong.more) lines.push("and " + wrong.more + " more");
  return { what: name + " can't be opened:" + (lines.length > 1 ? "\n" : " ") +
    lines.join("\n"), hint: STAYS };
}

const STAYS = "What was open stays open.";

/**
 * wire adds the button and waits for files.
 * @param {(file: Opened) => Promise<Wrong | null>} openBrief
 * @param {(path: string) => Promise<Response>} carry
 * @param {() => boolean} unsaved tells whether what is open is not saved
 */
export function wire(openBrief, carry, unsaved) {
  const open = async (/** @type {Promise<Opened | null>} */ coming) => {
    try {
      const file = await coming;
      if (!file) return;
      const before = unsaved();
      $("wrong").hidden = true;
      say("opening " + file.name + " …");
      const wrong = await openBrief(file);
      say("");
      if (wrong) return refuse(refusal(file.name, wrong));
      await /** @type {any} */ (window).stripesong.reopen();
      say(file.name + " is open" + (before ? "; what was not saved before is kept in this " +
        "browser and offered above" : ""));
    } catch (e) {
      say("");
      refuse({ what: String(/** @type {Error} */ (e).message || e), hint: "Choose a brief: a " +
        "file that ends in .toml." });
    }
  };
  const button = document.createElement("button");
  Object.assign(button, { id: "open-brief", type: "button", textContent: "Open …" });
  button.addEventListener("click", () => open(chosen()));
  $("save").before(button);
  $("publish").hidden = true; // there is no folder beside it: all of it comes as a zip
  addEventListener("drop", e => {
    if (!isBrief(e) || !e.dataTransfer) return;
    e.preventDefault();
    e.stopImmediatePropagation(); // the page takes what falls on it for a photo
    open(dropped(e.dataTransfer));
  });
  addEventListener("click", e => {
    const link = /** @type {Element} */ (e.target).closest("a[href^='file?name=']");
    if (!link) return;
    e.preventDefault();
    product(/** @type {string} */ (link.getAttribute("href")), carry,
      link.getAttribute("download") || "");
  }, { capture: true });
}

/** isBrief tells what falls on the page from a photo. @param {DragEvent} e */
const isBrief = e => Boolean(e.dataTransfer && [...e.dataTransfer.items].some(i =>
  i.kind === "file" && !i.type.startsWith("image/")));

/** product gives a file of the plan. @param {string} path
 *  @param {(path: string) => Promise<Response>} carry @param {string} called */
async function product(path, carry, called) {
  const name = called || new URLSearchParams(path.split("?")[1]).get("name") || "plan";
  say("drawing " + name + " …");
  const answer = await carry(path);
  if (!answer.ok) {
    return refuse({ what: await answer.text(), hint: "Try again, or save a smaller part." });
  }
  give(name, await answer.blob());
  say(name + " is among your downloads");
}
