// @ts-check
// Brings all parts of the page together.

import { prepareSheet, report, showBar, wireBar } from "./bar.js";
import { placeCard, showCard } from "./card.js";
import * as clothView from "./cloth.js";
import { showLeft, showYarns, wireDialogs } from "./dialogs.js";
import { css } from "./colour.js";
import { showDrawer, wireDrawer } from "./drawer.js";
import { shaftsOf } from "./geometry.js";
import * as gestures from "./gestures.js";
import { showList, wireKeys } from "./keys.js";
import { wirePacket } from "./packet.js";
import { wireMessages } from "./messages.js";
import { $ } from "./parts.js";
import { call } from "./program.js";
import { showShelf, wireShelf } from "./shelf.js";
import { changed, cloth, recall, remember, state, watch } from "./state.js";
import { showTags } from "./tags.js";
import { showTray, wireTray } from "./tray.js";
import { atWork, followOthers, idle, measured, onWork, reportTo, send, take,
  watchWork } from "./work.js";

addEventListener("error", e => measured.errors.push(String(e.error && e.error.stack || e.message)));
addEventListener("unhandledrejection", e => measured.errors.push(String(e.reason)));

// what tests and benchmarks look at
Object.assign(window, { stripesong: Object.assign(measured, { state, cloth, send, idle,
  choose: gestures.choose, draw: clothView.draw, sight: clothView.sight, at: clothView.at,
  laid: () => clothView.laid, frames: clothView.frames, boxesOf: clothView.boxesOf,
  handles: clothView.handles, runBox: clothView.runBox, enlarge: clothView.enlarge,
  shift: clothView.shift, looksOf: clothView.looksOf, css, shaftsOf }) });

let asked = -1; // the edition that was shown last

function show() {
  showBar();
  showLeft();
  showShelf();
  showCard();
  showDrawer();
  showTray();
  showList();
  if ($("yarns").open) showYarns();
  if ($("changed").open && asked !== state.view.edition) $("changed").close();
  asked = state.view.edition;
  remember();
  prepareSheet();
  clothView.redraw();
}

clothView.onDraw(() => {
  showTags();
  placeCard();
});

async function begin() {
  const [lists, answer] = await Promise.all([call("lists"), call("view")]);
  if (!answer.view) return report(answer, null);
  state.dark = matchMedia("(prefers-color-scheme: dark)").matches;
  state.lists = lists;
  recall();
  take(answer);
  showYarns();
  reportTo(report);
  watch(show);
  wireBar();
  wireMessages();
  wireDialogs();
  wireDrawer();
  wireShelf();
  wireTray();
  wirePacket();
  wireKeys();
  gestures.wireCloth();
  show();
  clothView.draw();
  performance.mark("drawn");
  atWork(answer.busy);
  new ResizeObserver(() => clothView.redraw()).observe(clothView.canvas);
  onWork(() => {});
  measured.settled = true;
  followOthers();
}

/** reopen shows what is at work now from the beginning: another brief. */
async function reopen() {
  const answer = await call("view");
  state.selected = null;
  take(answer);
  showYarns();
  changed();
  clothView.showAll();
}

Object.assign(measured, { reopen, watchWork });
measured.settled = false;
begin();
