// @ts-check
// The packet, seen and printed in the page. Its own script and style do not run here, as
// the page's policy wants it: the style is put in as a sheet of the frame, and what is
// ticked and typed is kept by the page, in the places where the packet by itself keeps it.

import { $ } from "./parts.js";
import { product } from "./program.js";
import { state } from "./state.js";

const frame = () => /** @type {HTMLIFrameElement} */ ($("packet-frame"));

/** see shows the packet as it would be written now. */
async function see() {
  $("menu").hidePopover();
  $("viewer-title").textContent = "The packet for the loom: " + state.view.title;
  $("viewer").showModal();
  const answer = await fetch(product("packet.html"));
  const text = await answer.text();
  if (!answer.ok) return $("viewer-title").textContent = text;
  const style = /<style>([^]*?)<\/style>/.exec(text);
  await new Promise(done => {
    frame().onload = () => done(null);
    frame().srcdoc = text.replace(/<style>[^]*?<\/style>|<script>[^]*?<\/script>/g, "")
      .replace(/<meta http-equiv[^>]*>/, "").replace(/ style="/g, ' data-style="');
  });
  const its = /** @type {any} */ (frame().contentWindow), page = its.document;
  const sheet = new its.CSSStyleSheet();
  sheet.replaceSync(style ? style[1] : "");
  page.adoptedStyleSheets = [sheet];
  for (const e of page.querySelectorAll("[data-style]")) e.style.cssText = e.dataset.style;
  page.addEventListener("click", (/** @type {any} */ e) => { // its addresses are the page's
    const to = e.target.closest("a[href^='#']");
    if (!to) return;
    e.preventDefault();
    page.getElementById(to.getAttribute("href").slice(1))?.scrollIntoView();
  });
  page.addEventListener("keydown", (/** @type {KeyboardEvent} */ e) => {
    if (e.key === "Escape") $("viewer").close();
  });
  keep(page);
  frame().dataset.edition = String(state.view.edition);
}

/** keep keeps ticks and what is typed, as the packet's own script does. @param {any} page */
function keep(page) {
  /** @type {Object<string, number>} */
  const counts = {};
  const keys = new Map();
  for (const box of page.querySelectorAll("[data-keep] input")) {
    const part = box.closest("[data-keep]").dataset.keep, tick = box.type === "checkbox";
    counts[part] = (counts[part] || 0) + 1;
    const key = "stripesong:" + page.body.dataset.set + ":" + part + ":" + counts[part];
    const kept = stored(() => localStorage.getItem(key));
    keys.set(box, key);
    if (kept && tick) box.checked = true;
    else if (kept) box.value = kept;
    box.addEventListener("change", () => {
      const value = tick ? box.checked ? "1" : "" : box.value;
      stored(() => value ? localStorage.setItem(key, value) : localStorage.removeItem(key));
    });
  }
  const clear = page.getElementById("clear");
  clear.hidden = false;
  clear.addEventListener("click", () => {
    if (!confirm("Clear every tick and everything typed in this packet?")) return;
    for (const [box, key] of keys) {
      stored(() => localStorage.removeItem(key));
      if (box.type === "checkbox") box.checked = false;
      else box.value = "";
    }
  });
}

/** stored asks the browser's store, which may be full or forbidden. @param {() => any} act */
function stored(act) {
  try { return act(); } catch (e) { return null; }
}

export function wirePacket() {
  $("packet").addEventListener("click", see);
  $("packet-print").addEventListener("click", () => frame().contentWindow?.print());
  $("viewer-close").addEventListener("click", () => $("viewer").close());
}
