// @ts-check
// What is asked and said apart: before saving over a changed file, a name for a copy, what
// was left unsaved, kinds of yarn, colours of a photo, keys.

import { newGesture, op } from "./edits.js";
import { $, accepted, button, fill, make, onChange, options, plain, put, refused,
  value } from "./parts.js";
import { call, product } from "./program.js";
import { state } from "./state.js";
import { send } from "./work.js";

/* saving where the file is not what this goes on from */

/** @type {Object<string, {title: string, why: (file: string) => string, over: string}>} */
const questions = {
  changed: { title: "The file has changed", over: "Save over it",
    why: f => "Something else wrote to " + f + " since it was read here." },
  older: { title: "The file holds changes that this version does not", over: "Save over it",
    why: f => "This version goes back to an earlier " + f + ", from before it was changed." },
  gone: { title: "The file is gone", over: "Save it again",
    why: f => f + " is no longer there: it was deleted, moved or given another name." },
};

/** question asks before it saves. @param {any} asks */
export function question(asks) {
  const q = questions[asks.why], gone = asks.why === "gone", lost = asks.lost.length > 0;
  put($("changed-title"), q.title);
  put($("changed-why"), q.why(state.view.file) + " Nothing has been saved." +
    (gone ? " Saving writes the file again, as the brief is here." : ""));
  put($("changed-lost"), gone ? "" : lost ? "Saving over it would lose these lines of the file" +
    (asks.more ? ", and " + asks.more + " more:" : ":") : "Every line of the file is in this " +
    "version too. Saving over it would put back what was taken out of the file or moved in it.");
  fill($("changed-lines"), asks.lost, () => make("li"), put);
  $("changed-lost").hidden = gone;
  $("changed-lines").hidden = gone || !lost;
  put($("changed-over"), q.over);
  $("changed-read").hidden = gone;
  $("changed").showModal();
}

/** wrote shows what saving changed in the file. @param {any} w */
export function wrote(w) {
  $("wrote").hidden = !w;
  if (!w) return;
  put($("wrote-what"), w.lines === 1 ? "1 line of it changed" : w.lines + " lines of it changed");
  const lines = [...w.new.map((/** @type {string} */ l) => "new: " + l),
    ...w.gone.map((/** @type {string} */ l) => "gone: " + l)];
  if (lines.length < w.lines) lines.push("and " + (w.lines - lines.length) + " more");
  fill($("wrote-lines"), lines, () => make("li"), put);
}

/* what an earlier page left */

let turn = 0; // which of them is shown: one after the other, so that the cloth is seen

export function showLeft() {
  const all = state.left, at = all.length ? turn % all.length : 0;
  $("left").hidden = !all.length;
  fill($("left"), all.slice(at, at + 1), newLeft, (li, l) => {
    if (li.id !== "left-" + l.id) {
      li.id = "left-" + l.id;
      li.sure = false;
    }
    put(li.says, l.says + (all.length > 1 ? " (" + (at + 1) + " of " + all.length + ")" : ""));
    li.next.hidden = all.length < 2;
    put(li.drop, li.sure ? "Yes, throw it away" : "Throw it away");
  });
}

/** newLeft offers it; it is thrown away at the second press. */
function newLeft() {
  const li = make("li", { className: "told" });
  const id = () => Number(li.id.slice("left-".length));
  li.says = make("span");
  li.drop = button("", () => {
    if (li.sure) return send("left", { left: id(), take: false });
    li.sure = true;
    put(li.drop, "Yes, throw it away");
  });
  li.next = button("The next", () => {
    turn++;
    showLeft();
  });
  const goOn = async () => {
    await send("left", { left: id(), take: true });
    $("stage").focus(); // the button is gone
  };
  li.append(li.says, button("Go on with it", goOn, { className: "main" }), li.next, li.drop);
  return li;
}

/* single files of the plan */

/** openFiles lists what the plan comes as, each to be saved by itself. */
export async function openFiles() {
  const { files = [] } = await call("files");
  $("files-list").replaceChildren(...files.map(name =>
    make("li", {}, make("a", { href: product(name, true), download: name }, name))));
  $("files").showModal();
}

/* kinds of yarn */

export function openYarns() {
  showYarns();
  $("yarns").showModal();
}

export function showYarns() {
  fill($("yarn-list"), state.view.yarns, newYarn, (li, y) => {
    put(li.firstElementChild, y.name);
    li.yarn = y.name;
    for (const key of ["count", "package", "price"]) value(li.fields[key], y[key]);
  });
  options($("add-yarn"), plain(state.view.yarns.map((/** @type {any} */ y) => y.name)));
}

/** lacks says of an empty field that it is needed. @param {any} c @param {string} what
 *  @param {string} hint */
function lacks(c, what, hint) {
  if (c.value.trim()) return 0;
  refused(c, "", what + ": " + hint);
  return 1;
}

/** forgive takes a mark away as soon as something else is typed. */
const forgive = (/** @type {any} */ e) => accepted(e.target);

function newYarn() {
  const li = make("li", {}, make("b")), label = (/** @type {string} */ key,
    /** @type {string} */ text, /** @type {string} */ as) => {
    const c = li.fields[key] = make("input", { autocomplete: "off", placeholder: as });
    onChange(c, () => op({ do: "yarn.set", colour: li.yarn, key, value: c.value }, { control: c }));
    return make("label", {}, text + " ", c);
  };
  li.fields = /** @type {Object<string, any>} */ ({});
  li.append(make("span", { className: "fields three" },
    label("count", "Count", "as in 16/2 cotton"),
    label("package", "Package", "as in 250 g"), label("price", "Price", "as in 12.50")));
  return li;
}

/* a photo */

const SIDE = 88; // pixels of the photo that are looked at, each way

/** photo brings a picture down to five colours. @param {File} file */
export async function photo(file) {
  try {
    const picture = await createImageBitmap(file), c = document.createElement("canvas");
    c.width = c.height = SIDE;
    const pen = /** @type {CanvasRenderingContext2D} */ (c.getContext("2d"));
    pen.imageSmoothingEnabled = false; // no colours that are not in it
    pen.drawImage(picture, 0, 0, SIDE, SIDE);
    const data = pen.getImageData(0, 0, SIDE, SIDE).data;
    let bytes = "";
    for (let i = 0; i < data.length; i += 4) {
      if (data[i + 3] >= 128) bytes += String.fromCharCode(data[i], data[i + 1], data[i + 2]);
    }
    const answer = await call("photo", { pixels: btoa(bytes) });
    showPhoto(answer.colours || []);
  } catch (e) {
    showPhoto([]);
  }
}

function showPhoto(/** @type {any[]} */ colours) {
  put($("photo-says"), colours.length ? "The main colours of the photo, five at most. Tick " +
    "those you have as yarn." : "This can't be read as a picture.");
  $("photo-list").replaceChildren(...colours.map(c => {
    const dot = make("span", { className: "dot" }), near = make("span", { className: "dot" });
    dot.style.background = c.hex;
    near.style.background = state.view.colours.find((/** @type {any} */ own) =>
      own.name === c.near)?.hex || "none";
    const tick = make("input", { type: "checkbox" }), name = make("input", { value: c.name,
      autocomplete: "off", ariaLabel: "Name" });
    const li = make("li", {}, make("label", {}, tick, dot, c.hex + ", " +
      Math.round(100 * c.share) + " %"), name, make("span", { className: "quiet" },
      "nearest on the shelf: ", near, " " + c.near + ", " + c.apart.toFixed(1) + " apart"));
    return Object.assign(li, { tick, name, hex: c.hex });
  }));
  options($("photo-yarn"), plain(state.view.yarns.map((/** @type {any} */ y) => y.name)));
  $("photo-take").hidden = !colours.length;
  put($("photo-wrong"), "");
  $("photo").showModal();
}

/** takePhoto puts all that are ticked on the shelf, or none: where one can't be taken, the
 *  dialog stays and says why, at its name. */
async function takePhoto() {
  const ticked = [...$("photo-list").children].filter(li => li.tick.checked);
  const names = state.view.colours.map((/** @type {any} */ c) => c.name);
  for (const { name } of ticked) {
    const called = name.value.trim(), taken = names.includes(called);
    accepted(name);
    if (called && !taken) names.push(called);
    else return photoWrong(name, taken ? "There is a colour “" + called + "” already: give this " +
      "one another name. Nothing was put on the shelf yet." : "A colour needs a name.");
  }
  if (!ticked.length) return put($("photo-wrong"), "None is ticked: tick those you have as yarn.");
  $("photo").close();
  const gesture = newGesture();
  for (const { name, hex } of ticked) {
    await op({ do: "colour.add", colour: name.value, value: hex, key: $("photo-yarn").value },
      { gesture });
  }
}

function photoWrong(/** @type {any} */ name, /** @type {string} */ why) {
  put($("photo-wrong"), "");
  refused(name, "", why);
  name.focus();
}

export function wireDialogs() {
  const click = (/** @type {string} */ id, /** @type {() => any} */ act) =>
    $(id).addEventListener("click", act);
  const answer = (/** @type {string} */ id, /** @type {() => any} */ act) => click(id, () => {
    $("changed").close();
    act();
  });
  answer("changed-copy", () => send("save-as", { title: state.view.title }));
  answer("changed-over", () => send("save", { over: true }));
  answer("changed-read", () => send("reread", {}));
  answer("changed-close", () => {});
  for (const id of ["naming", "help", "yarns", "photo", "files"]) {
    click(id + "-close", () => $(id).close());
  }
  $("naming-form").addEventListener("submit", () =>
    send("save-as", { title: $("naming-name").value }));
  for (const id of ["yarn-add", "add"]) $(id).addEventListener("input", forgive);
  $("yarn-add").addEventListener("submit", (/** @type {Event} */ e) => {
    e.preventDefault();
    if (lacks($("yarn-name"), "the new kind has no name", "give it one, as in linen") |
      lacks($("yarn-count"), "the new kind has no count", "as on its label, 16/1 linen")) {
      return;
    }
    op({ do: "yarn.set", colour: $("yarn-name").value, key: "count",
      value: $("yarn-count").value }, { control: $("yarn-count") }).then(a => {
      if (a.ok) $("yarn-name").value = $("yarn-count").value = "";
    });
  });
  $("add").addEventListener("submit", (/** @type {Event} */ e) => {
    e.preventDefault();
    if (lacks($("add-name"), "the new colour has no name", "give it one, as in moss")) return;
    op({ do: "colour.add", colour: $("add-name").value, value: $("add-hex").value,
      key: $("add-yarn").value, stock: $("add-stock").value.trim() },
    { control: $("add-name") }).then(a => {
      if (a.ok) $("add-name").value = $("add-stock").value = "";
    });
  });
  click("photo-take", takePhoto);
  $("photo-file").addEventListener("change", () => {
    const file = $("photo-file").files[0];
    if (file) photo(file);
    $("photo-file").value = "";
  });
  addEventListener("dragover", e => e.preventDefault());
  addEventListener("drop", e => {
    e.preventDefault();
    const file = e.dataTransfer && e.dataTransfer.files[0];
    if (file) photo(file);
  });
}
