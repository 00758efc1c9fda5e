// @ts-check
// The menu of the bar: it stands at its button, arrows go round in it, Escape leads back.

import { $ } from "./parts.js";

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

/** walk goes round in the menu by arrows, Home and End. @param {KeyboardEvent} event */
function walk(event) {
  const all = items(), at = all.indexOf(document.activeElement), last = all.length - 1;
  const by = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
  const to = event.key === "Home" ? 0 : event.key === "End" ? last
    : by ? (at + by + all.length) % all.length : -1;
  if (to < 0 || event.altKey || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  event.stopPropagation();
  all[to].focus();
}

export function wireMenu() {
  $("menu").addEventListener("toggle", (/** @type {any} */ event) => {
    if (event.newState !== "open") return;
    stand();
    items()[0].focus({ preventScroll: true });
  });
  $("menu").addEventListener("keydown", walk);
  addEventListener("resize", () => { if ($("menu").matches(":popover-open")) stand(); });
}
