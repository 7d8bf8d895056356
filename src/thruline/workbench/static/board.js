// Board: units to scale from above, dragged and turned; cables drawn from socket to socket.

import "./board-plan.js";
import { carry } from "./carry.js";
import { attempt, findingsMark, say } from "./frame.js";
import { draw, make, pick } from "./make.js";
import { ask, edit, follow, remove, set, since } from "./rig.js";

const AROUND = 95;
const SNAP = 5;
const PATIENCE_MS = 250;
let view = null;
let places = new Map();
const waiting = new Map();

const isShown = (layer) => pick("layers").querySelector(`[value=${layer}]`).checked;
const snapped = (mm) => (pick("snap").checked ? Math.round(mm / SNAP) * SNAP : Math.round(mm));
const unitCalled = (id) => view.units.find((one) => one.id === id);
const moved = ({ x, y, turn }) => `translate(${x} ${y}) rotate(${turn})`;

function onBoard(place, [x, y]) {
  const angle = (place.turn * Math.PI) / 180;
  const [across, along] = [Math.cos(angle), Math.sin(angle)];
  return [place.x + x * across - y * along, place.y + x * along + y * across];
}

function mouth({ unit, socket }) {
  const place = places.get(unit);
  const found = unitCalled(unit)?.sockets.find((one) => one.id === socket);
  if (!place || !found) return null;
  const turn = { ...place, x: 0, y: 0 };
  return { at: onBoard(place, found.at), out: onBoard(turn, found.out) };
}

function cablePath(cable) {
  const [start, stop] = [mouth(cable.from), mouth(cable.to)];
  if (!start || !stop) return null;
  const reach = Math.min(120, 30 + Math.hypot(start.at[0] - stop.at[0], start.at[1] - stop.at[1]) / 3);
  const towards = ({ at, out }) => [at[0] + out[0] * reach, at[1] + out[1] * reach];
  return `M${start.at}C${towards(start)} ${towards(stop)} ${stop.at}`;
}

const feedOf = (cable) => view.power.leads.find((one) => one.address === cable.address);

const words = (cable) =>
  `${cable.from.unit}.${cable.from.socket} to ${cable.to.unit}.${cable.to.socket}, ${cable.ends}${cable.length ? `, ${cable.length} mm` : ""}${feedInWords(cable)}`;

function feedInWords(cable) {
  const feed = cable.layer === "power" && feedOf(cable);
  return feed ? `. It gives ${feed.gives || "what is not told"}; ${feed.name} wants ${feed.wants || "what is not told"}` : "";
}

function note(x, y, text, name = "length") {
  const made = draw("text", { x, y, class: name });
  made.textContent = text;
  return made;
}

// What is written at a cable: its length amid it, and on demand the plug at each end.
function notes(cable, line) {
  const middle = line.getPointAtLength(line.getTotalLength() / 2);
  const made = cable.length ? [note(middle.x, middle.y, cable.length)] : [];
  if (!pick("plugs").checked) return made;
  return [...made, ...cable.ends.split("/").map((plug, nth) => plugName(mouth(nth ? cable.to : cable.from), plug))];
}

// The name of a plug runs away from its socket, so that neighbours have room; it never stands on its head.
function plugName({ at, out }, plug) {
  const isUpright = Math.abs(out[1]) > Math.abs(out[0]);
  const runsForward = isUpright ? out[1] < 0 : out[0] > 0;
  const made = note(0, 0, plug, `length end ${runsForward ? "forward" : "back"}`);
  const [x, y] = [at[0] + out[0] * 8, at[1] + out[1] * 8];
  made.setAttribute("transform", `translate(${x} ${y}) rotate(${isUpright ? -90 : 0}) translate(0 4)`);
  return made;
}

function titled(element, text) {
  const title = draw("title");
  title.textContent = text;
  element.append(title);
  return element;
}

function drawCables(svg) {
  const group = svg.querySelector(".cables");
  group.replaceChildren();
  drawNames(svg);
  for (const cable of view.cables) {
    const d = isShown(cable.layer) && cablePath(cable);
    if (!d) continue;
    const line = titled(draw("path", { d, class: `cable ${cable.layer}` }), words(cable));
    group.append(line);
    for (const end of [cable.from, cable.to]) {
      const [cx, cy] = mouth(end).at;
      group.append(draw("circle", { cx, cy, r: 4, class: `plug ${cable.layer}` }));
    }
    group.append(...notes(cable, line));
  }
  if (!isShown("audio") || view.cables.some((one) => one.layer === "audio")) return;
  const points = view.audio.map((id) => {
    const unit = unitCalled(id);
    return onBoard(places.get(id), [unit.width / 2, unit.depth / 2]);
  });
  group.prepend(titled(draw("polyline", { points: points.join(" "), class: "sound" }), "The way of the sound"));
}

function wrap(name, width) {
  const most = Math.max(5, Math.floor(width / 8.5));
  const rows = [];
  for (const word of name.split(" ")) {
    if (rows.length && `${rows.at(-1)} ${word}`.length <= most) rows.push(`${rows.pop()} ${word}`);
    else rows.push(word);
  }
  return rows;
}

function drawUnit(unit) {
  const place = places.get(unit.id);
  const troubled = view.troubles.some((one) => one.units.includes(unit.id));
  const group = draw("g", { class: `box${troubled ? " troubled" : ""}`, tabindex: 0, role: "button", "data-id": unit.id,
    transform: moved(place), "aria-roledescription": "unit that can be moved",
    "aria-label": `${unit.name}, ${unit.width} by ${unit.depth} mm, at ${place.x}, ${place.y}, turned ${place.turn}` });
  group.append(titled(draw("rect", { width: unit.width, height: unit.depth, rx: 4, class: unit.known ? "" : "guessed" }), unit.name));
  for (const socket of unit.sockets) {
    const [x, y] = socket.at;
    group.append(titled(draw("rect", { x: x - 4, y: y - 4, width: 8, height: 8, class: `socket ${socket.layer}` }), `${socket.marked} (${socket.kind})`));
  }
  return group;
}

// Names lie above the cables, and upright however a unit is turned.
function drawNames(svg) {
  const group = svg.querySelector(".names");
  group.replaceChildren();
  for (const unit of view.units.filter((one) => places.get(one.id))) {
    const [x, y] = onBoard(places.get(unit.id), [unit.width / 2, unit.depth / 2]);
    const rows = wrap(unit.name, places.get(unit.id).turn % 180 ? unit.depth : unit.width);
    const feed = isShown("power") ? view.power.leads.find((one) => one.unit === unit.id)?.label ?? [] : [];
    const top = y - ((rows.length - 1) * 16 + feed.length * 14) / 2 + 5;
    rows.forEach((row, at) => group.append(note(x, top + at * 16, row, "name")));
    feed.forEach((row, at) => group.append(note(x, top + (rows.length - 1) * 16 + (at + 1) * 14, row, "feed")));
  }
}

function put(id, place, done = "") {
  const { later, seen } = waiting.get(id) ?? { seen: view.revision };
  clearTimeout(later);
  waiting.set(id, { seen, later: setTimeout(() => {
    waiting.delete(id);
    const { x, y, turn } = place;
    since(seen, () => attempt(() => edit(set(`unit[${id}].place`, turn ? { x, y, turn } : { x, y })), done));
  }, PATIENCE_MS) });
}

function turn(element) {
  const unit = unitCalled(element.dataset.id);
  const place = places.get(unit.id);
  const middle = [unit.width / 2, unit.depth / 2];
  const before = onBoard(place, middle);
  const next = { ...place, turn: (place.turn + 90) % 360 };
  const after = onBoard(next, middle);
  next.x = snapped(place.x + before[0] - after[0]);
  next.y = snapped(place.y + before[1] - after[1]);
  places.set(unit.id, next);
  element.setAttribute("transform", moved(next));
  drawCables(element.ownerSVGElement);
  put(unit.id, next, `${unit.name} turned to ${next.turn} degrees.`);
}

function bind(svg) {
  carry(svg, {
    which: ".box",
    spot: (element) => places.get(element.dataset.id),
    show: (element, { x, y }) => {
      const next = { ...places.get(element.dataset.id), x: snapped(x), y: snapped(y) };
      places.set(element.dataset.id, next);
      element.setAttribute("transform", moved(next));
      drawCables(svg);
      say(`${unitCalled(element.dataset.id).name}: ${next.x} mm from the left, ${next.y} mm from the back`);
    },
    settle: (element) => put(element.dataset.id, places.get(element.dataset.id)),
    stride: () => {
      const far = pick("snap").checked ? SNAP : 1;
      return { x: far, y: far };
    },
  });
  svg.addEventListener("keydown", (event) => {
    const element = event.target.closest(".box");
    if (!element || event.ctrlKey || event.metaKey) return;
    if (event.key.toLowerCase() === "r") turn(element);
    else if (event.key === "Delete") attempt(() => edit(remove(`unit[${element.dataset.id}].place`)), "Taken off the board; Undo puts it back.");
    else return;
    event.preventDefault();
  });
}

function drawBoard() {
  const focused = document.activeElement?.closest?.("[data-id]")?.dataset.id;
  const { width, depth } = view.board;
  const svg = draw("svg", { viewBox: `${-AROUND} ${-AROUND} ${width + 2 * AROUND} ${depth + 2 * AROUND}`, role: "group",
    "aria-label": `The board from above, ${width} by ${depth} mm` });
  svg.append(draw("rect", { width, height: depth, rx: 6, class: "plank" }));
  svg.append(...view.units.filter((one) => places.get(one.id)).map(drawUnit), draw("g", { class: "cables" }), draw("g", { class: "names" }));
  pick("board").replaceChildren(svg);
  bind(svg);
  drawCables(svg);
  return focused;
}

// A unit that went off the board, or came onto it, keeps the focus wherever it is now.
function focusUnit(id) {
  if (id) document.querySelector(`main [data-id="${CSS.escape(id)}"]`)?.focus({ preventScroll: true });
}

function freePlace(unit) {
  const { width, depth } = view.board;
  const taken = view.units.filter((one) => one.place).map((one) => {
    const far = onBoard(places.get(one.id), [one.width, one.depth]);
    const { x, y } = places.get(one.id);
    return [Math.min(x, far[0]), Math.min(y, far[1]), Math.max(x, far[0]), Math.max(y, far[1])];
  });
  for (let y = 0; y + unit.depth <= depth; y += 20) {
    for (let x = 0; x + unit.width <= width; x += 20) {
      if (taken.every(([left, back, right, front]) => x + unit.width <= left || x >= right || y + unit.depth <= back || y >= front)) return { x, y };
    }
  }
  return { x: 0, y: 0 };
}

function showPower() {
  pick("power").hidden = !isShown("power");
  const rows = view.power.leads.map((one) => [one.name, one.outlet, one.gives || "see the other end", one.wants || "see the other end",
    [one.used ?? "not told", one.shares.length ? `, with ${one.shares.join(" and ")}` : ""].join(""), findingsMark(one.address)]);
  const none = view.power.unfed.map((one) => [one.name, "no lead", "", one.wants, "", findingsMark(`unit[${one.unit}]`)]);
  pick("power").querySelector("tbody").replaceChildren(...[...rows, ...none].map((row) =>
    make("tr", {}, row.map((cell) => make("td", {}, cell)))));
}

function show(next) {
  view = next;
  for (const unit of view.units) if (!waiting.has(unit.id)) places.set(unit.id, unit.place);
  places = new Map([...places].filter(([id, place]) => place && unitCalled(id)));
  const focused = drawBoard();
  for (const key of ["width", "depth"]) if (document.activeElement !== pick(key)) pick(key).value = view.board[key];
  pick("troubles").replaceChildren(...view.troubles.map((one) => make("li", { className: "bad" }, `✕ ${one.says}`)));
  const off = view.units.filter((one) => !one.place);
  pick("off").replaceChildren(...(off.length ? off.map((unit) => make("button", { type: "button", "data-id": unit.id, onclick: () =>
    attempt(() => edit(set(`unit[${unit.id}].place`, freePlace(unit))), `${unit.name} is on the board.`) }, `Place ${unit.name} (${unit.id})`)) : ["Everything has its place."]));
  pick("cables").tBodies[0].replaceChildren(...view.cables.map((one) => make("tr", {},
    make("td", {}, `${one.from.unit}.${one.from.socket}`), make("td", {}, `${one.to.unit}.${one.to.socket}`),
    make("td", {}, one.ends), make("td", {}, one.length ? `${one.length} mm` : "not written"), make("td", {}, findingsMark(one.address)))));
  focusUnit(focused);
  showPower();
  document.body.dataset.loaded = "yes";
}

const load = () => ask("board").then(show, (trouble) => say(trouble.message, true));
pick("layers").onchange = () => { focusUnit(drawBoard()); showPower(); };
pick("size").onsubmit = (event) => {
  event.preventDefault();
  const [width, depth] = ["width", "depth"].map((id) => pick(id).value.trim());
  if (!/^\d+$/.test(width) || !/^\d+$/.test(depth)) { say("A size reads like 950 by 480, in millimetres.", true); return; }
  attempt(() => edit(set("rig.board", { width: Number(width), depth: Number(depth) })), `The board is ${width} by ${depth} mm.`);
};
follow((_status, changed) => changed && load());
load();
