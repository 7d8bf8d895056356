// Sweeps: what each pedal moves, on which presets, and every move with its curve.

import { addPoint, curve, putCurve, removePoint } from "./curve.js";
import { field, keepFocus, whenChosen } from "./field.js";
import { attempt, findingsMark, say } from "./frame.js";
import { make, pick } from "./make.js";
import { act, ask, edit, follow, remove, set } from "./rig.js";

// What a number field holds; what is no whole number goes as it is typed, and is refused in words.
const percent = (text) => (/^-?\d+\s*%?$/.test(text) ? parseInt(text, 10) : text);

function pointRows(move, name) {
  if (!move.points.length) return null;
  const number = (nth, which, words) => field(`${name}, ${words} of point ${nth + 1} in percent`, move.points[nth][which], (text) => {
    const points = move.points.map((point) => [...point]);
    points[nth][which] = percent(text);
    return putCurve(move, points);
  }, { size: 3 });
  return [
    make("p", { className: "quiet" }, "Travel: where the pedal is, from heel to toe. Share: how far the value is then on its way from the one at the heel to the one at the toe."),
    make("ol", { className: "points", "aria-label": `Points of ${name}` }, move.points.map((_, nth) => make("li", {}, make("div", { className: "row" },
      make("label", {}, "travel", number(nth, 0, "travel"), "%"), make("label", {}, "share", number(nth, 1, "share"), "%"),
      make("button", { type: "button", "aria-label": `Take point ${nth + 1} of ${name} away`, onclick: () => removePoint(move, nth) }, "Take away"))))),
    make("button", { type: "button", "aria-label": `Add a point to ${name}`, onclick: () => addPoint(move) }, "Add a point"),
  ];
}

const CURVES = { linear: "linear: evenly", audio: "audio: slow first, fast last", late: "late: fast first, slow last",
  s: "s: slow at both ends", points: "points: set by hand" };

function curveChoice(move, curves, name) {
  const words = (one) => (move.points.length && one === move.nearest ? `${CURVES[one] ?? one} (nearest)` : CURVES[one] ?? one);
  return make("select", { "aria-label": `Curve of ${name}`, onchange: whenChosen((select) => putCurve(move, select.value)) },
    [...curves, "points"].map((one) => make("option", { value: one, selected: one === move.curve }, words(one))));
}

// Moves by unit and control; where one control is moved twice, with the sweep and the place in it.
function namesOf(sweeps) {
  const all = sweeps.flatMap((sweep) => sweep.moves.map((move, nth) => [move, `${move.unit} ${move.control}`, `${sweep.name}, move ${nth + 1}`]));
  return new Map(all.map(([move, name, where]) =>
    [move.address, all.filter((one) => one[1] === name).length > 1 ? `${name} (${where})` : name]));
}

function moveCard(move, curves, { isOnly, name }) {
  const end = (which) => make("label", {}, which,
    field(`${name}, ${which} as typed`, move[which].written, (value) => attempt(() => act("sweep-end", { move: move.address, end: which, value })), { size: 9 }),
    make("span", { className: move[which].why ? "bad" : "quiet" }, move[which].why || `${move[which].wire}, shows ${move[which].shown}`));
  return make("section", { className: "move", "aria-label": name },
    make("div", { className: "row" }, make("h3", {}, name), findingsMark(move.address)),
    move.values.length ? curve({ ...move, label: name }) : make("p", { className: "bad" }, "An end makes no sense, so there is no curve."),
    make("div", { className: "row" }, end("heel"), end("toe"), make("label", {}, "curve", curveChoice(move, curves, name)),
      isOnly ? null : make("button", { type: "button", onclick: () => attempt(() => edit(remove(move.address))) }, `Remove ${name}`)),
    pointRows(move, name));
}

function pedalChoice(sweep, pedals) {
  const shown = pedals.includes(sweep.pedal) ? pedals : [sweep.pedal, ...pedals];
  return make("select", { "aria-label": `Pedal of ${sweep.name}`,
    onchange: whenChosen((select) => attempt(() => edit(set(`${sweep.address}.pedal`, select.value)))) },
    shown.map((one) => make("option", { value: one, selected: one === sweep.pedal }, one)));
}

const controlOptions = (view, chosen) => view.controls.map((one, at) => make("option", { value: at, selected: at === chosen }, one.name));

// The first control that no sweep moves yet, or else none of these moves: two that move one are a fault.
function firstFree(view, moves) {
  const moved = (some) => new Set(some.map((one) => `${one.unit}: ${one.control}`));
  const free = (taken) => view.controls.findIndex((one) => !taken.has(one.name));
  const found = free(moved(view.sweeps.flatMap((one) => one.moves)));
  return found < 0 ? free(moved(moves)) : found;
}

function sweepCard(sweep, view) {
  const controls = make("select", { "aria-label": `One more move of ${sweep.name}` }, controlOptions(view, firstFree(view, sweep.moves)));
  const more = () => {
    const { unit, control } = view.controls[Number(controls.value)];
    return attempt(() => act("add-move", { sweep: sweep.address, unit, control }), "Added.");
  };
  const names = namesOf(view.sweeps);
  return make("section", { className: "sweep", "aria-label": sweep.name },
    make("div", { className: "row" }, make("h2", {}, sweep.name), findingsMark(sweep.address)),
    make("div", { className: "row" },
      make("label", {}, "Name", field(`Name of ${sweep.name}`, sweep.name, (text) => attempt(() => edit(set(`${sweep.address}.name`, text))), { size: 14 })),
      make("label", {}, "Pedal at", pedalChoice(sweep, view.pedals)),
      make("label", {}, "On the presets", field(`Presets of ${sweep.name}`, sweep.presets, (text) => attempt(() => act("sweep-presets", { sweep: sweep.address, text })), { size: 22 })),
      make("span", { className: "quiet" }, `${sweep.count} ${sweep.count === 1 ? "preset" : "presets"}`)),
    make("div", { className: "moves" }, sweep.moves.map((one) => moveCard(one, view.curves, { isOnly: sweep.moves.length === 1, name: names.get(one.address) }))),
    make("div", { className: "row" }, controls, make("button", { type: "button", onclick: more }, `Let ${sweep.name} move this too`),
      make("button", { type: "button", onclick: () => attempt(() => edit(remove(sweep.address)), "Removed; Undo brings it back.") }, `Remove ${sweep.name}`)));
}

function show(view) {
  pick("none").hidden = view.sweeps.length > 0;
  keepFocus(() => pick("sweeps").replaceChildren(...view.sweeps.map((one) => sweepCard(one, view))));
  const chosen = [pick("pedal").value, pick("control").value];
  pick("pedal").replaceChildren(...view.pedals.map((one) => make("option", { value: one, selected: one === chosen[0] }, one)));
  pick("control").replaceChildren(...controlOptions(view, chosen[1] ? Number(chosen[1]) : firstFree(view, [])));
  pick("add").onsubmit = (event) => {
    event.preventDefault();
    const { unit, control } = view.controls[Number(pick("control").value)] ?? {};
    if (!pick("pedal").value || !unit) { say("A sweep needs a pedal input of the controller and a control of a unit.", true); return; }
    attempt(() => act("add-sweep", { pedal: pick("pedal").value, unit, control }), "Added.");
  };
  document.body.dataset.loaded = "yes";
}

const load = () => ask("sweeps").then(show, (trouble) => say(trouble.message, true));
follow((_status, changed) => changed && load());
load();
