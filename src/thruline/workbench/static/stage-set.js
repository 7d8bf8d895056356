// The set and the place in it: shown, stepped through by button or key, and kept.

import { make, pick } from "./make.js";

const PLACE = `thruline-place-${document.body.dataset.rig}`;
const [LONG, VERY_LONG] = [24, 48]; // letters of a name that fill a telephone in large type
let set = null;
let steps = [];

export const kept = (key) => { try { return JSON.parse(localStorage.getItem(key)); } catch { return null; } };

// Where a browser keeps nothing, for a file perhaps, the set is begun anew next time, and that is all.
export const keep = (key, value) => { try { localStorage.setItem(key, JSON.stringify(value)); } catch { /* as said */ } };

let at = kept(PLACE) ?? 0;

export function take(next) {
  const before = steps[at];
  set = next;
  steps = set.songs.flatMap((song, place) => song.steps.map((step, nth) => ({ ...step, song, place, nth })));
  const same = (one) => before && one.song.name === before.song.name && one.number === before.number;
  const found = steps[at] && same(steps[at]) ? at : steps.findIndex(same);
  if (found >= 0) at = found;
  at = Math.min(at, Math.max(0, steps.length - 1));
  list();
  show();
}

function list() {
  let count = 0;
  pick("set").querySelector("ol").replaceChildren(...set.songs.map((song) => make("li", {},
    make("h2", {}, song.tempo ? `${song.name}, ${song.tempo}` : song.name),
    song.steps.map((step) => {
      const place = count;
      count += 1;
      return make("button", { type: "button", "data-place": place, onclick: () => { go(place); pick("set").open = false; } }, `${step.number} ${step.name}`);
    }))));
}

function show() {
  const step = steps[at];
  pick("back").disabled = at <= 0;
  pick("on").disabled = at >= steps.length - 1;
  document.body.classList.toggle("missing", Boolean(step?.missing));
  if (!step) {
    pick("song").textContent = "There are no presets yet";
    return;
  }
  pick("song").textContent = step.song.name;
  pick("tempo").textContent = step.song.tempo ? `♩ = ${step.song.tempo}` : "";
  pick("number").textContent = step.number;
  pick("name").textContent = step.name;
  pick("now").className = step.name.length > VERY_LONG ? "longer" : step.name.length > LONG ? "long" : "";
  pick("about").textContent = step.about;
  const next = steps[at + 1];
  const where = next && next.place !== step.place ? `${next.song.name}: ` : "";
  pick("next").textContent = next ? `then ${where}${next.number} ${next.name}` : "This is the last.";
  for (const button of pick("set").querySelectorAll("button")) {
    if (Number(button.dataset.place) === at) button.setAttribute("aria-current", "step");
    else button.removeAttribute("aria-current");
  }
}

function go(place) {
  at = Math.min(steps.length - 1, Math.max(0, place));
  keep(PLACE, at);
  show();
}

const KEYS = { ArrowRight: 1, ArrowDown: 1, PageDown: 1, " ": 1, ArrowLeft: -1, ArrowUp: -1, PageUp: -1 };
document.addEventListener("keydown", (event) => {
  const step = KEYS[event.key];
  if (!step || (event.key === " " && event.target.closest("button, summary"))) return;
  event.preventDefault();
  go(at + step);
});
pick("back").onclick = () => go(at - 1);
pick("on").onclick = () => go(at + 1);
