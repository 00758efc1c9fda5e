// @ts-check
// What is said: information, which leaves by itself, and what is wrong, which stays. It
// stands over everything: while a dialog is open, in the dialog.

import { $, put } from "./parts.js";

const LASTS = 12_000; // milliseconds that information stays, unless something newer is said

/** say tells what was done. @param {string} text */
export const say = text => put($("said"), text);

let leaving = 0;

/** leaveLater takes what is said away after a while; lines that are being read stay. */
function leaveLater() {
  clearTimeout(leaving);
  if (!$("said").textContent) return;
  leaving = setTimeout(() => {
    say("");
    if (!$("wrote").querySelector("details").open) $("wrote").hidden = true;
  }, LASTS);
}

/** stand puts messages where they are seen and reached. */
function stand() {
  const open = [...document.querySelectorAll("dialog[open]")].pop() || $("foot");
  if ($("messages").parentElement !== open) open.append($("messages"));
}

export function wireMessages() {
  new MutationObserver(leaveLater).observe($("said"), { childList: true });
  const dialogs = new MutationObserver(stand);
  for (const d of document.querySelectorAll("dialog")) {
    dialogs.observe(d, { attributes: true, attributeFilter: ["open"] });
  }
  for (const id of ["wrong", "wrote"]) {
    $(id + "-close").addEventListener("click", () => { $(id).hidden = true; });
  }
}
