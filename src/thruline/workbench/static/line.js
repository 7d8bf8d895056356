// Line: the timing chart of a preset; every message of it can be read by pointer and keyboard.

import { findingsMark, say } from "./frame.js";
import { make, pick } from "./make.js";
import { ask, follow } from "./rig.js";

const IDLE_MS = 600;
const { preset, from } = Object.fromEntries(new URLSearchParams(location.search));
const asked = { preset: preset ?? "", from: from ?? "" };
let shown = null;
let current = 0;
let [last, later] = [0, 0];

function options(presets, chosen, first) {
  const made = presets.map((one) =>
    make("option", { value: one.number, selected: one.number === chosen }, `${one.number} ${one.name}`));
  return first ? [make("option", { value: "", selected: chosen === null }, first), ...made] : made;
}

function cells(message) {
  return [message.number, message.leaves, message.says, message.bytes,
    message.as_wanted === false ? `${message.written} (!)` : message.written, message.wire ?? "", message.shown ?? ""]
    .map((value, at) => make("td", { className: at === 3 ? "bytes" : "" }, String(value ?? "")));
}

function point(number, isFocused) {
  current = number;
  for (const line of pick("chart").querySelectorAll("[data-message]")) {
    line.classList.toggle("stands-out", Number(line.dataset.message) === number);
  }
  pick("chart").classList.toggle("one", number > 0);
  for (const row of pick("messages").tBodies[0].rows) {
    const isIt = Number(row.dataset.number) === number;
    row.setAttribute("aria-selected", String(isIt));
    row.tabIndex = isIt || (number === 0 && row.sectionRowIndex === 0) ? 0 : -1;
    if (isIt && isFocused) row.focus();
  }
  const message = shown.messages.find((one) => one.number === number);
  pick("one").replaceChildren(...(message ? oneMessage(message) :
    [make("p", { className: "hint" }, "Choose a message to read its way, hop by hop.")]));
}

function oneMessage(message) {
  const bytes = message.bytes.split(" ");
  return [
    make("p", {}, make("strong", {}, `${message.number}. ${message.says}`)),
    make("p", { className: "bytes" }, message.bytes),
    ...message.ways.flatMap((way) => [
      make("p", {}, way.says),
      make("ol", {}, way.hops.map((hop) => make("li", {},
        `${hop.from} → ${hop.to}: ${hop.starts} to ${hop.ends}`,
        hop.running ? ` (${bytes[0]} left out: running status)` : ""))),
    ]),
  ];
}

function show(view) {
  shown = view;
  const wasInside = pick("messages").contains(document.activeElement);
  pick("which").hidden = Boolean(view.lacks);
  if (view.lacks) {
    pick("heading").textContent = view.lacks;
    return;
  }
  pick("preset").replaceChildren(...options(view.presets, view.preset.number));
  pick("from").replaceChildren(...options(view.presets, view.from?.number ?? null, "anywhere"));
  pick("heading").textContent = view.heading;
  pick("heading").className = `sum ${view.obeyed ? "proved" : "fault"}`;
  const drawn = new DOMParser().parseFromString(view.svg, "image/svg+xml").documentElement;
  pick("chart").replaceChildren(document.importNode(drawn, true));
  pick("messages").tBodies[0].replaceChildren(...view.messages.map((one) =>
    make("tr", { "data-number": one.number, className: one.obeyed ? "" : "fault" }, cells(one))));
  pick("compared").tBodies[0].replaceChildren(...view.compared.map((one) => make("tr", {},
    make("td", {}, one.says), make("td", {}, one.right), make("td", {}, one.lost ? `${one.lost} not obeyed` : ""))));
  pick("arriving").replaceChildren(...(view.arriving.length
    ? view.arriving.map((one) => make("li", {}, `${one.unit} ${one.name}: ${one.says}`))
    : [make("li", {}, "Nothing: this preset always ends in the same state.")]));
  const mark = findingsMark(`preset[${view.preset.number}]`);
  if (mark) pick("heading").append(" ", mark);
  point(view.messages.some((one) => one.number === current) ? current : 0, wasInside);
}

async function load() {
  clearTimeout(later);
  const mine = ++last;
  try {
    const view = await ask("line", asked);
    if (mine !== last) return;
    show(view);
    later = setTimeout(() => settle(mine), IDLE_MS);
  } catch (trouble) {
    say(trouble.message, true);
    if (asked.preset) { asked.preset = asked.from = ""; await load(); }
  }
}

const content = ({ heading, svg, messages, compared }) => JSON.stringify([heading, svg, messages, compared]);

// The first order is at hand; to look for the best one can take longer, and is left for a quiet moment.
async function settle(mine) {
  const view = await ask("line", { ...asked, settled: "yes" }).catch(() => null);
  if (view && mine === last && content(view) !== content(shown)) show(view);
}

pick("which").onchange = () => {
  asked.preset = pick("preset").value;
  asked.from = pick("from").value;
  history.replaceState(null, "", `?${new URLSearchParams(asked)}`);
  load();
};
pick("which").onsubmit = (event) => event.preventDefault();

for (const event of ["click", "pointerover"]) {
  pick("chart").addEventListener(event, (told) => {
    const line = told.target.closest?.("[data-message]");
    if (line) point(Number(line.dataset.message), false);
  });
}
const STEPS = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 };
for (const place of ["messages", "chart"]) {
  pick(place).addEventListener("keydown", (event) => {
    const step = STEPS[event.key];
    if (!step || !shown?.messages.length) return;
    event.preventDefault();
    point(Math.min(shown.messages.length, Math.max(1, current + step)), place === "messages");
  });
}
pick("messages").addEventListener("focusin", (event) => {
  const row = event.target.closest("tr");
  if (row && Number(row.dataset.number) !== current) point(Number(row.dataset.number), false);
});
pick("messages").addEventListener("click", (event) => {
  const row = event.target.closest("tr[data-number]");
  if (row) point(Number(row.dataset.number), true);
});

follow((_status, changed) => changed && load());
load().then(() => { document.body.dataset.loaded = "yes"; });
