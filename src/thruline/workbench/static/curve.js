// One move as a staircase of bytes over the travel: its ends, and the points of its curve, are carried.

import { carry } from "./carry.js";
import { attempt, say } from "./frame.js";
import { draw } from "./make.js";
import { act, drawnFrom, since } from "./rig.js";

const [LEFT, TOP, WIDE, HIGH] = [34, 12, 344, 130];
const OUTSIDE = 18;
const LAST = 127;
const SOON_MS = 150;
const timers = new Map();

const between = (least, value, most) => Math.min(most, Math.max(least, value));
const rangeOf = (move) => Math.max(1, move.high - move.low);
const yOf = (move, wire) => TOP + HIGH - (HIGH * (wire - move.low)) / rangeOf(move);
const wireAt = (move, y) => move.low + ((TOP + HIGH - y) / HIGH) * rangeOf(move);
const xOf = (travel) => LEFT + (WIDE * travel) / 100;
const travelAt = (x) => Math.round(between(0, ((x - LEFT) / WIDE) * 100, 100));
const nameOf = (move) => move.label;
const told = (move, wire) => (move.shown.length ? `${wire}, shows ${move.shown[wire - move.low]}` : String(wire));

// While something is dragged; what is put down is worked out by the workbench.
const stairs = (shares, { heel, toe }) => shares.map((share) => heel + Math.floor(share * (toe - heel) + 0.5));
const wireOf = (share, ends) => stairs([share / 100], ends)[0];

function shareAt(points, travel) {
  if (travel < points[0][0]) return points[0][1];
  for (let nth = 1; nth < points.length; nth += 1) {
    const [[x0, y0], [x1, y1]] = [points[nth - 1], points[nth]];
    if (x0 <= travel && travel < x1) return y0 + ((y1 - y0) * (travel - x0)) / (x1 - x0);
  }
  return points.at(-1)[1];
}

const sharesOf = (points) => Array.from({ length: LAST + 1 }, (_, place) => shareAt(points, (place / LAST) * 100) / 100);

export const putCurve = (move, curve, done) => attempt(() => act("sweep-curve", { move: move.address, curve }), done);

// One more point on the curve, in the middle of the widest stretch that has none.
export function addPoint(move) {
  const places = [0, ...move.points.map(([travel]) => travel), 100];
  const gaps = places.slice(1).map((place, nth) => place - places[nth]);
  const widest = gaps.indexOf(Math.max(...gaps));
  const travel = Math.round(places[widest] + gaps[widest] / 2);
  return putCurve(move, [...move.points, [travel, Math.round(shareAt(move.points, travel))]], "Added.");
}

export const removePoint = (move, nth) => putCurve(move, move.points.toSpliced(nth, 1), "Taken away; Undo brings it back.");

function staircase(move, values) {
  const parts = [];
  values.forEach((value, position) => {
    const x = LEFT + (WIDE * position) / (LAST + 1);
    parts.push(`${position ? "L" : "M"}${x.toFixed(1)} ${yOf(move, value).toFixed(1)}h${(WIDE / (LAST + 1)).toFixed(2)}`);
  });
  return parts.join("");
}

function slider(move, label, facts) {
  return draw("circle", { r: 9, tabindex: 0, role: "slider", "aria-label": label, "aria-valuemin": move.low,
    "aria-valuemax": move.high, ...facts });
}

function tell(handle, wire, words) {
  handle.setAttribute("aria-valuenow", wire);
  handle.setAttribute("aria-valuetext", words);
}

// An end: beside the field, as high as its byte.
function endHandle(move, end, ends) {
  const handle = slider(move, `${nameOf(move)} at the ${end}`, { class: "handle", "data-end": end, "aria-orientation": "vertical",
    cx: end === "heel" ? LEFT - OUTSIDE : LEFT + WIDE + OUTSIDE });
  const spot = () => ({ x: 0, y: yOf(move, ends[end]) });
  const show = () => {
    handle.setAttribute("cy", spot().y);
    tell(handle, ends[end], told(move, ends[end]));
  };
  show();
  return { handle, spot, show, words: () => told(move, ends[end]),
    take: ({ y }) => { ends[end] = Math.round(between(move.low, wireAt(move, y), move.high)); },
    put: () => attempt(() => act("sweep-end", { move: move.address, end, value: ends[end] })),
    stride: () => ({ x: 0, y: HIGH / rangeOf(move) }) };
}

// A point: sideways its travel, which stays between its neighbours', upwards its share.
function pointHandle(move, nth, points, ends) {
  const handle = slider(move, `${nameOf(move)}, point ${nth + 1}`, { class: "handle point", "data-point": nth });
  const wire = () => wireOf(points[nth][1], ends);
  const words = () => `${points[nth][0]} % of the travel, ${points[nth][1]} % of the way: ${told(move, wire())}`;
  const exact = (share) => ends.heel + (share / 100) * (ends.toe - ends.heel);
  const spot = () => ({ x: xOf(points[nth][0]), y: yOf(move, exact(points[nth][1])) });
  const show = () => {
    handle.setAttribute("cx", spot().x);
    handle.setAttribute("cy", spot().y);
    tell(handle, wire(), words());
  };
  show();
  return { handle, spot, show, words,
    take: ({ x, y }) => {
      const travel = between(points[nth - 1]?.[0] ?? 0, travelAt(x), points[nth + 1]?.[0] ?? 100);
      points[nth] = [travel, shareFrom(move, y, ends) ?? points[nth][1]];
    },
    put: () => putCurve(move, points),
    stride: () => ({ x: WIDE / 100, y: (HIGH * Math.abs(ends.toe - ends.heel)) / rangeOf(move) / 100 }) };
}

// Nothing when heel and toe are the same: every share is that byte then.
function shareFrom(move, y, ends) {
  if (ends.toe === ends.heel) return null;
  return Math.round(between(0, ((wireAt(move, y) - ends.heel) / (ends.toe - ends.heel)) * 100, 100));
}

function soon(key, deed) {
  clearTimeout(timers.get(key));
  timers.set(key, setTimeout(deed, SOON_MS));
}

function bindKeys(svg, move) {
  svg.addEventListener("keydown", (event) => {
    const point = event.target.closest(".point");
    if (!point || event.ctrlKey || event.metaKey || event.altKey) return;
    const nth = Number(point.dataset.point);
    if (event.key === "Delete" || event.key === "Backspace") {
      if (nth > 0 && nth === move.points.length - 1) svg.querySelector(`[data-point="${nth - 1}"]`).focus();
      removePoint(move, nth);
    } else if (event.key === "+" || event.key === "Insert") addPoint(move);
    else return;
    event.preventDefault();
  });
}

function bindNewPoints(svg, move, ends) {
  svg.addEventListener("dblclick", (event) => {
    if (event.target.closest(".handle")) return;
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    const travel = travelAt(x);
    const share = shareFrom(move, y, ends) ?? Math.round(shareAt(move.points, travel));
    putCurve(move, [...move.points, [travel, share]], "Added.");
  });
}

function field(move) {
  const svg = draw("svg", { viewBox: `0 0 ${LEFT * 2 + WIDE} ${TOP * 2 + HIGH + 18}`, class: "curve", role: "group",
    "aria-label": `${nameOf(move)}: ${move.values[0]} at the heel to ${move.values.at(-1)} at the toe` });
  svg.append(
    draw("rect", { x: LEFT, y: TOP, width: WIDE, height: HIGH, class: "field" }),
    draw("path", { d: staircase(move, move.values), class: "stairs" }));
  for (const [words, x, anchor] of [["heel", LEFT, "start"], ["toe", LEFT + WIDE, "end"]]) {
    const text = draw("text", { x, y: TOP + HIGH + 22, "text-anchor": anchor });
    text.textContent = words;
    svg.append(text);
  }
  return svg;
}

export function curve(move) {
  const [svg, seen] = [field(move), drawnFrom()];
  const ends = { heel: move.heel.wire, toe: move.toe.wire };
  const points = move.points.map((point) => [...point]);
  const things = [...["heel", "toe"].map((end) => endHandle(move, end, ends)),
    ...points.map((_, nth) => pointHandle(move, nth, points, ends))];
  const thingOf = new Map(things.map((thing) => [thing.handle, thing]));
  svg.append(...thingOf.keys());
  carry(svg, {
    which: ".handle",
    spot: (handle) => thingOf.get(handle).spot(),
    show: (handle, spot) => {
      thingOf.get(handle).take(spot);
      for (const thing of things) thing.show();
      const shares = points.length ? sharesOf(points) : move.shares;
      svg.querySelector(".stairs").setAttribute("d", staircase(move, stairs(shares, ends)));
      say(`${handle.getAttribute("aria-label")}: ${thingOf.get(handle).words()}`);
    },
    settle: (handle) => soon(`${move.address} ${handle.dataset.end ?? "points"}`, () => since(seen, () => thingOf.get(handle).put())),
    stride: (handle) => thingOf.get(handle).stride(),
  });
  if (points.length) {
    bindKeys(svg, move);
    bindNewPoints(svg, move, ends);
  }
  return svg;
}
