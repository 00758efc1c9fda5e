// @ts-check
// What the page has only as one file: a brief is opened from a disk, by a button or by
// letting it fall on the page; and what the server would send as a file is given as a
// download.

import { chosen, dropped, give } from "./files.js";

/** @typedef {import("./files.js").Opened} Opened */

const $ = (/** @type {string} */ id) => /** @type {HTMLElement} */ (document.getElementById(id));

/** say tells what was done where the page tells it. @param {string} text */
const say = text => { $("said").textContent = text; };

/** refuse tells what is wrong where the page tells it. @param {string} what
 *  @param {string} hint */
function refuse(what, hint) {
  $("wrong-what").textContent = what;
  $("wrong-hint").textContent = hint;
  $("wrong").hidden = false;
}

/**
 * wire adds the button and waits for files.
 * @param {(file: Opened) => Promise<string | null>} openBrief
 * @param {(path: string) => Promise<Response>} carry
 */
export function wire(openBrief, carry) {
  const open = async (/** @type {Promise<Opened | null>} */ coming) => {
    try {
      const file = await coming;
      if (!file) return;
      const wrong = await openBrief(file);
      if (wrong) return refuse(file.name + " can't be opened: " + wrong.split("\n")[0],
        "What was open stays open.");
      $("wrong").hidden = true;
      await /** @type {any} */ (window).stripesong.reopen();
      say(file.name + " is open; what was not saved before is kept in this browser");
    } catch (e) {
      refuse(String(/** @type {Error} */ (e).message || e), "Choose a brief: a file that ends " +
        "in .toml.");
    }
  };
  const button = document.createElement("button");
  Object.assign(button, { id: "open-brief", type: "button", textContent: "Open …" });
  button.addEventListener("click", () => open(chosen()));
  $("save").before(button);
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
    product(/** @type {string} */ (link.getAttribute("href")), carry);
  }, { capture: true });
}

/** isBrief tells what falls on the page from a photo. @param {DragEvent} e */
const isBrief = e => Boolean(e.dataTransfer && [...e.dataTransfer.items].some(i =>
  i.kind === "file" && !i.type.startsWith("image/")));

/** product gives a file of the plan. @param {string} path
 *  @param {(path: string) => Promise<Response>} carry */
async function product(path, carry) {
  const name = new URLSearchParams(path.split("?")[1]).get("name") || "plan";
  say("drawing " + name + " …");
  const answer = await carry(path);
  if (!answer.ok) return refuse(await answer.text(), "Try again, or save a smaller part.");
  give(name, await answer.blob());
  say(name + " is among your downloads");
}
