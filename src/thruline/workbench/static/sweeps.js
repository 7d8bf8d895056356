// Sweeps: every move as a staircase of bytes over the travel, with ends that can be dragged.

import { carry } from "./carry.js";
import { attempt, findingsMark, say } from "./frame.js";
import { draw, make, pick } from "./make.js";
import { act, ask, edit, follow, remove, set } from "./rig.js";

const [LEFT, TOP, WIDE, HIGH] = [14, 12, 384, 130];
const LAST = 127;
let timer = 0;

const yOf = (move, wire) => TOP + HIGH - (HIGH * (wire - move.low)) / Math.max(1, move.high - move.low);
const wireAt = (move, y) => {
  const share = (TOP + HIGH - y) / HIGH;
  return Math.round(Math.min(move.high, Math.max(move.low, move.low + share * (move.high - move.low))));
};

// While an end is dragged; what is put down is worked out by the workbench.
const stairs = (move, heel, toe) => move.shares.map((share) => heel + Math.floor(share * (toe - heel) + 0.5));

function staircase(move, values) {
  const parts = [];
  values.forEach((value, position) => {
    const x = LEFT + (WIDE * position) / (LAST + 1);
    parts.push(`${position ? "L" : "M"}${x.toFixed(1)} ${yOf(move, value).toFixed(1)}h${(WIDE / (LAST + 1)).toFixed(2)}`);
  });
  return parts.join("");
}

const told = (move, wire) => (move.shown.length ? `${wire}, shows ${move.shown[wire - move.low]}` : String(wire));

function curve(move) {
  const svg = draw("svg", { viewBox: `0 0 ${LEFT * 2 + WIDE} ${TOP * 2 + HIGH + 18}`, class: "curve", role: "group",
    "aria-label": `${move.unit} ${move.control}: ${move.values[0]} at the heel to ${move.values.at(-1)} at the toe` });
  svg.append(
    draw("rect", { x: LEFT, y: TOP, width: WIDE, height: HIGH, class: "field" }),
    draw("path", { d: staircase(move, move.values), class: "stairs" }));
  for (const [words, x, anchor] of [["heel", LEFT, "start"], ["toe", LEFT + WIDE, "end"]]) {
    const text = draw("text", { x, y: TOP + HIGH + 22, "text-anchor": anchor });
    text.textContent = words;
    svg.append(text);
  }
  for (const end of ["heel", "toe"]) {
    if (move[end].wire === null) continue;
    const handle = draw("circle", { cx: end === "heel" ? LEFT : LEFT + WIDE, cy: yOf(move, move[end].wire), r: 9,
      class: "handle", tabindex: 0, role: "slider", "data-end": end, "aria-label": `${move.unit} ${move.control} at the ${end}`,
      "aria-orientation": "vertical", "aria-valuemin": move.low, "aria-valuemax": move.high,
      "aria-valuenow": move[end].wire, "aria-valuetext": told(move, move[end].wire) });
    svg.append(handle);
  }
  const wires = { heel: move.heel.wire, toe: move.toe.wire };
  const place = (handle, wire) => {
    wires[handle.dataset.end] = wire;
    handle.setAttribute("cy", yOf(move, wire));
    handle.setAttribute("aria-valuenow", wire);
    handle.setAttribute("aria-valuetext", told(move, wire));
    svg.querySelector(".stairs").setAttribute("d", staircase(move, stairs(move, wires.heel, wires.toe)));
    say(`${move.unit} ${move.control} at the ${handle.dataset.end}: ${told(move, wire)}`);
  };
  const put = (handle) => {
    clearTimeout(timer);
    const end = handle.dataset.end;
    timer = setTimeout(() => attempt(() => act("sweep-end", { move: move.address, end, value: wires[end] })), 150);
  };
  carry(svg, {
    which: ".handle",
    spot: (handle) => ({ x: 0, y: yOf(move, wires[handle.dataset.end]) }),
    show: (handle, { y }) => place(handle, wireAt(move, y)),
    settle: put,
    stride: HIGH / Math.max(1, move.high - move.low),
  });
  return svg;
}

function field(label, value, changed, size = 9) {
  const made = make("input", { value, size, autocomplete: "off", "aria-label": label });
  made.onchange = async () => { if (!(await changed(made.value.trim()))) made.setAttribute("aria-invalid", "true"); };
  return made;
}

function moveCard(move, curves, isOnly) {
  const name = `${move.unit} ${move.control}`;
  const end = (which) => make("label", {}, which,
    field(`${name}, ${which} as typed`, move[which].written, (value) => attempt(() => act("sweep-end", { move: move.address, end: which, value }))),
    make("span", { className: move[which].why ? "bad" : "quiet" }, move[which].why || `${move[which].wire}, shows ${move[which].shown}`));
  const names = curves.includes(move.curve) ? curves : [...curves, move.curve];
  const select = make("select", { "aria-label": `Curve of ${name}`, onchange: (event) =>
    attempt(() => edit(set(`${move.address}.curve`, event.target.value))) },
    names.map((one) => make("option", { value: one, selected: one === move.curve, disabled: !curves.includes(one) }, one)));
  return make("section", { className: "move", "aria-label": name },
    make("div", { className: "row" }, make("h3", {}, name), findingsMark(move.address)),
    move.values.length ? curve(move) : make("p", { className: "bad" }, "An end makes no sense, so there is no curve."),
    make("div", { className: "row" }, end("heel"), end("toe"), make("label", {}, "curve", select),
      isOnly ? null : make("button", { type: "button", onclick: () => attempt(() => edit(remove(move.address))) }, `Remove ${name}`)));
}

function sweepCard(sweep, view) {
  const controls = make("select", { "aria-label": `One more move of ${sweep.name}` }, view.controls.map((one, at) => make("option", { value: at }, one.name)));
  const more = () => {
    const { unit, control } = view.controls[Number(controls.value)];
    return attempt(() => act("add-move", { sweep: sweep.address, unit, control }), "Added.");
  };
  return make("section", { className: "sweep", "aria-label": sweep.name },
    make("div", { className: "row" }, make("h2", {}, sweep.name), make("span", { className: "quiet" }, `pedal at ${sweep.pedal}`), findingsMark(sweep.address)),
    make("div", { className: "row" },
      make("label", {}, "On the presets", field(`Presets of ${sweep.name}`, sweep.presets, (text) => attempt(() => act("sweep-presets", { sweep: sweep.address, text })), 22)),
      make("span", { className: "quiet" }, `${sweep.count} ${sweep.count === 1 ? "preset" : "presets"}`)),
    make("div", { className: "moves" }, sweep.moves.map((one) => moveCard(one, view.curves, sweep.moves.length === 1))),
    make("div", { className: "row" }, controls, make("button", { type: "button", onclick: more }, `Let ${sweep.name} move this too`),
      make("button", { type: "button", onclick: () => attempt(() => edit(remove(sweep.address)), "Removed; Undo brings it back.") }, `Remove ${sweep.name}`)));
}

function show(view) {
  const label = document.activeElement?.getAttribute?.("aria-label");
  pick("none").hidden = view.sweeps.length > 0;
  pick("sweeps").replaceChildren(...view.sweeps.map((one) => sweepCard(one, view)));
  if (label) document.querySelector(`#sweeps [aria-label="${CSS.escape(label)}"]`)?.focus({ preventScroll: true });
  const chosen = [pick("pedal").value, pick("control").value];
  pick("pedal").replaceChildren(...view.pedals.map((one) => make("option", { value: one, selected: one === chosen[0] }, one)));
  pick("control").replaceChildren(...view.controls.map((one, at) => make("option", { value: at, selected: String(at) === chosen[1] }, one.name)));
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
