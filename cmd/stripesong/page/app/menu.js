// @ts-check
// The menu of the bar: it stands at its button, arrows go round in it, Escape leads back.

import { $, walk } from "./parts.js";

const items = () => [...$("menu").querySelectorAll("button:enabled, a")].filter(e =>
  e.checkVisibility());

/** stand puts the menu below its button, wholly within the window. */
function stand() {
  const at = $("more").getBoundingClientRect(), menu = $("menu"), margin = 8;
  const left = Math.min(at.left, innerWidth - menu.offsetWidth - margin);
  menu.style.left = Math.max(margin, left) + "px";
  menu.style.top = at.bottom + 4 + "px";
  menu.style.maxHeight = innerHeight - at.bottom - 4 - margin + "px";
}

export function wireMenu() {
  $("menu").addEventListener("toggle", (/** @type {any} */ event) => {
    if (event.newState !== "open") return;
    stand();
    items()[0].focus({ preventScroll: true });
  });
  $("menu").addEventListener("keydown",
    (/** @type {KeyboardEvent} */ event) => walk(event, items()));
  addEventListener("resize", () => { if ($("menu").matches(":popover-open")) stand(); });
}
