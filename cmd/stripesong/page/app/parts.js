// @ts-check
// Making and bringing up to date what a page is made of. All text goes in as text.

/** $ finds something by its name. @param {string} id @returns {any} */
export const $ = id => document.getElementById(id);

/** make is a new element. @param {string} tag @param {Object<string, any>} [attributes]
 *  @param {...(Node | string)} kids @returns {any} */
export function make(tag, attributes = {}, ...kids) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) e.addEventListener(name.slice(2), value);
    else if (name in e && name !== "list") /** @type {any} */ (e)[name] = value;
    else e.setAttribute(name, value);
  }
  e.append(...kids);
  return e;
}

/** button is one that does something. @param {string} text @param {() => any} act
 *  @param {Object<string, any>} [more] @returns {HTMLButtonElement} */
export const button = (text, act, more = {}) =>
  make("button", { type: "button", onclick: act, ...more }, text);

/** put writes a text, if it is another. @param {any} e @param {string} text */
export function put(e, text) {
  if (e.textContent !== text) e.textContent = text;
}

/** fill makes as many children as there are things and lets show bring each up to date;
 *  elements stay, so that the focus does. @template T @param {any} list
 *  @param {T[]} things @param {(i: number) => any} create
 *  @param {(e: any, thing: T, i: number) => void} show */
export function fill(list, things, create, show) {
  const own = [...list.children].filter(e => !e.matches(".why"));
  while (own.length > things.length) own.pop()?.remove();
  things.forEach((thing, i) => {
    if (i >= own.length) list.append(own[i] = create(i));
    show(own[i], thing, i);
  });
}

/** value sets a control, but not while it is being typed in, nor where what was typed was
 *  refused: that stays, marked. @param {any} control @param {string} to */
export function value(control, to) {
  control.dataset.holds = to;
  if (control === document.activeElement && control.dataset.typing) return;
  if (control.dataset.refused !== undefined) {
    if (control.dataset.refused === control.value && control.dataset.was === to) return;
    accepted(control);
  }
  if (control.value !== to) control.value = to;
}

let reasons = 0;

/** refused marks a control whose value was not taken, and says why beside it.
 *  @param {any} control @param {string} was what holds instead @param {string} why */
export function refused(control, was, why) {
  accepted(control);
  control.dataset.refused = control.value;
  control.dataset.was = was;
  control.setAttribute("aria-invalid", "true");
  control.why = make("span", { className: "why", role: "alert", id: "why-" + ++reasons }, why);
  control.setAttribute("aria-describedby", control.why.id);
  if (control.type !== "checkbox") control.after(control.why);
}

/** accepted takes the mark away. @param {any} control */
export function accepted(control) {
  delete control.dataset.refused;
  delete control.dataset.was;
  control.removeAttribute("aria-invalid");
  control.removeAttribute("aria-describedby");
  if (control.why) control.why.remove();
  control.why = null;
}

/** bringBack lets Escape take back what was typed and not taken. @param {any} control */
function bringBack(control) {
  control.addEventListener("keydown", (/** @type {KeyboardEvent} */ e) => {
    const { typing, refused } = control.dataset;
    if (e.key !== "Escape" || !typing && refused === undefined) return;
    e.preventDefault();
    e.stopPropagation();
    delete control.dataset.typing;
    accepted(control);
    control.value = control.dataset.holds || "";
  });
}

/** options are what a list can be set to. @param {any} select
 *  @param {(readonly [any, string])[]} words */
export function options(select, words) {
  const same = select.options.length === words.length && words.every((w, i) =>
    select.options[i].value === String(w[0]) && select.options[i].text === w[1]);
  if (same) return;
  const kept = select.value;
  select.replaceChildren(...words.map(w => new Option(w[1], w[0])));
  if (words.some(w => String(w[0]) === kept)) select.value = kept;
}

/** plain are options that are called what they are. @param {string[]} words
 *  @returns {(readonly [string, string])[]} */
export const plain = words => words.map(w => /** @type {const} */ ([w, w]));

/** press is what she does to a thing with what she points with. */
export const press = () => matchMedia("(pointer: coarse)").matches ? "tap" : "click";

/** whileTyping gives the changes made to one control in a row one gesture.
 *  @param {any} control @param {(control: any, gesture: string) => void} act
 *  @param {() => string} name */
export function whileTyping(control, act, name) {
  let gesture = "";
  control.addEventListener("focus", () => { gesture = name(); });
  control.addEventListener("blur", () => { delete control.dataset.typing; });
  control.addEventListener("input", () => {
    control.dataset.typing = "1";
    accepted(control);
    act(control, gesture || (gesture = name()));
  });
  control.addEventListener("change", () => {
    gesture = name();
    delete control.dataset.typing;
  });
}

/** onChange acts when a control is left or Enter is pressed. @param {any} control
 *  @param {(control: any) => void} act */
export function onChange(control, act) {
  bringBack(control);
  control.addEventListener("input", () => { control.dataset.typing = "1"; });
  control.addEventListener("blur", () => { delete control.dataset.typing; });
  control.addEventListener("change", () => {
    delete control.dataset.typing;
    accepted(control);
    act(control);
  });
}

/** onNumber acts when a number is done: Enter, the field is left, an arrow key. Presses of
 *  arrows in a row are one gesture. What is no whole number within its bounds stays,
 *  marked; an emptied field that needs one has the old one again.
 *  @param {any} control @param {(number: string, how: {gesture: string, control: any}) => void}
 *  act @param {() => string} name */
export function onNumber(control, act, name) {
  let gesture = "";
  const done = () => {
    delete control.dataset.typing;
    const why = wrongNumber(control);
    if (why) return refused(control, control.dataset.holds || "", why);
    accepted(control);
    if (control.value === "" && control.required) control.value = control.dataset.holds || "";
    else act(control.value && String(Number(control.value)), { gesture, control });
  };
  bringBack(control);
  control.addEventListener("focus", () => { gesture = name(); });
  control.addEventListener("blur", () => { delete control.dataset.typing; });
  control.addEventListener("input", () => { control.dataset.typing = "1"; });
  control.addEventListener("change", () => {
    gesture = name();
    done();
    gesture = name();
  });
  control.addEventListener("wheel", () => control.blur(), { passive: true }); // it scrolls
  control.addEventListener("keydown", (/** @type {KeyboardEvent} */ e) => {
    if (e.key !== "ArrowUp" && e.key !== "ArrowDown") return;
    e.preventDefault();
    if (e.key === "ArrowUp") control.stepUp();
    else control.stepDown();
    done();
  });
}

/** wrongNumber is why a number can't be taken; "" where it can. @param {any} control */
function wrongNumber(control) {
  const { value, min, max, validity } = control, number = Number(value);
  if (validity.badInput) return "write a whole number";
  if (value === "") return "";
  if (!Number.isInteger(number)) return "whole numbers only";
  if (min && number < Number(min)) return min + " at least";
  if (max && number > Number(max)) return max + " at most";
  return Number.isSafeInteger(number) ? "" : "that is too large";
}

/** walk goes round among things by arrows, Home and End. @param {KeyboardEvent} event
 *  @param {any[]} all */
export function walk(event, all) {
  const at = all.indexOf(document.activeElement), last = all.length - 1;
  const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
  const to = event.key === "Home" ? 0 : event.key === "End" ? last
    : by ? (at + by + all.length) % all.length : -1;
  if (at < 0 || to < 0 || event.altKey || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  event.stopPropagation();
  all[to].focus();
}

/** roving makes many controls one stop of the Tab key: arrows go on from there.
 *  @param {any} box */
export function roving(box) {
  const all = () => [...box.querySelectorAll("button, input")].filter(e =>
    !e.disabled && e.checkVisibility());
  const settle = () => {
    const free = all(), now = free.find(e => e.tabIndex === 0) || free[0];
    for (const e of box.querySelectorAll("button, input")) e.tabIndex = e === now ? 0 : -1;
  };
  box.addEventListener("focusin", (/** @type {any} */ event) => {
    for (const e of box.querySelectorAll("button, input")) e.tabIndex = e === event.target ? 0 : -1;
  });
  box.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => walk(event, all()));
  return settle;
}

/** held is what may be taken hold of and drawn about. Begin gives what to do at every
 *  move and at the end, or null where there is nothing to hold; end is told whether it was
 *  given up (by Escape, or by a second finger).
 *  @typedef {{move: (e: PointerEvent) => void, end: (givenUp: boolean) => void}} Held
 *  @param {PointerEvent} event @param {Held} held */
export function hold(event, held) {
  const id = event.pointerId;
  const move = (/** @type {PointerEvent} */ e) => { if (e.pointerId === id) held.move(e); };
  const end = (/** @type {boolean} */ givenUp) => {
    removeEventListener("pointermove", move);
    removeEventListener("pointerup", up);
    removeEventListener("pointercancel", cancel);
    removeEventListener("pointerdown", second, true);
    removeEventListener("keydown", key, true);
    held.end(givenUp);
  };
  const up = (/** @type {PointerEvent} */ e) => { if (e.pointerId === id) end(false); };
  const cancel = (/** @type {PointerEvent} */ e) => { if (e.pointerId === id) end(true); };
  const second = () => end(true);
  const key = (/** @type {KeyboardEvent} */ e) => {
    if (e.key !== "Escape") return;
    e.preventDefault();
    e.stopPropagation();
    end(true);
  };
  addEventListener("pointermove", move);
  addEventListener("pointerup", up);
  addEventListener("pointercancel", cancel);
  addEventListener("pointerdown", second, true);
  addEventListener("keydown", key, true);
  return { giveUp: () => end(true) };
}
