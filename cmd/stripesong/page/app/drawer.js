// @ts-check
// The drawer: sizes, losses and the loom, figures, notes, and the set as a whole.

import { fileWords } from "./bar.js";
import { newGesture, op } from "./edits.js";
import { choose } from "./gestures.js";
import { say } from "./messages.js";
import { $, fill, make, onChange, onNumber, options, plain, put, value } from "./parts.js";
import { WEFT, changed, state } from "./state.js";
import { askOthers, closeTray, showWays, trayOpen } from "./tray.js";

let open = false;

// where there is no room for a card too, one of them is open at a time
const narrow = matchMedia("(max-width: 70rem)");

/** toggleDrawer draws it out or pushes it in. @param {boolean} [to] */
export function toggleDrawer(to = !open) {
  open = to;
  if (open && narrow.matches) {
    state.selected = null;
    closeTray();
  }
  if (open) say("");
  changed();
  if (open) $("drawer-title").focus();
}

/** showNotes draws it out so that the notes are seen. */
function showNotes() {
  toggleDrawer(true);
  $("notes-title").focus({ preventScroll: true });
  $("notes-title").scrollIntoView();
}

export function showDrawer() {
  const { view } = state, warnings = view.notes.filter((/** @type {any} */ n) => n.warning);
  if (narrow.matches && (state.selected || trayOpen())) open = false;
  $("drawer").hidden = !open;
  $("sizes").setAttribute("aria-expanded", open);
  $("warnings").hidden = !warnings.length;
  put($("warnings"), "▲ " + warnings.length + (warnings.length === 1 ? " warning" : " warnings"));
  if (!open) return;
  fill($("settings"), view.settings, newSetting, (label, s) => {
    const want = s.options ? "SELECT" : "INPUT";
    if (label.control.tagName !== want) {
      label.control.replaceWith(settingControl(label, s));
    }
    label.key = s.key;
    label.unit = s.unit;
    put(label.firstElementChild, s.label);
    if (s.options) options(label.control, plain(s.options));
    value(label.control, s.value);
    put(label.but, s.but || "");
    label.but.hidden = !s.but;
    if (s.but && !label.control.why) label.control.setAttribute("aria-describedby", label.but.id);
    else if (!label.control.why) label.control.removeAttribute("aria-describedby");
  });
  value($("seed"), String(view.seed));
  const facts = [...view.facts.map((/** @type {any} */ f) => [f.what, f.says]), ...fileWords()];
  fill($("facts"), facts.flat(), i => make(i % 2 ? "dd" : "dt"), put);
  fill($("notes"), view.notes, newNote, (li, n) => {
    li.className = n.warning ? "warning" : "";
    li.code = n.code;
    put(li.firstElementChild, n.text);
    li.lastElementChild.hidden = !n.warning;
  });
}

function newNote() {
  const li = make("li", {}, make("span"));
  li.append(make("button", { type: "button", onclick: () => showWays(li.code, "") }, "Ways out"));
  return li;
}

function newSetting(/** @type {number} */ i) {
  const label = make("label", {}, make("span"));
  label.but = make("small", { id: "but-" + i, className: "quiet", hidden: true,
    ariaHidden: "true" }); // it describes the control, and is no part of its name
  label.append(settingControl(label, state.view.settings[i]), label.but);
  return label;
}

function settingControl(/** @type {any} */ label, /** @type {any} */ s) {
  const c = s.options ? make("select")
    : make("input", { autocomplete: "off", placeholder: "not said" });
  onChange(c, () => op({ do: "setting", key: label.key, value: withUnit(c.value, label.unit) },
    { control: c }));
  return c;
}

/** withUnit is a length as the brief has it: a bare number is in the unit of the page, with
 *  a decimal comma or point. @param {string} typed @param {string | undefined} unit */
const withUnit = (typed, unit) => unit && /^\s*\d+([.,]\d+)?\s*$/.test(typed)
  ? typed.trim().replace(",", ".") + " " + unit : typed;

export function wireDrawer() {
  const click = (/** @type {string} */ id, /** @type {() => any} */ act) =>
    $(id).addEventListener("click", act);
  click("sizes", () => toggleDrawer());
  click("warnings", showNotes);
  click("drawer-close", () => toggleDrawer(false));
  click("all-pieces", () => {
    toggleDrawer(false);
    choose({ strip: WEFT, run: null, via: 0 });
  });
  click("set-like", () => askOthers(WEFT, false));
  click("set-unlike", () => askOthers(WEFT, true));
  click("another-set", () => op({ do: "seed" }));
  click("open-all", () => op({ do: "pieces.open" }));
  onNumber($("seed"), (n, how) => op({ do: "seed", to: Number(n) }, how), newGesture);
}
