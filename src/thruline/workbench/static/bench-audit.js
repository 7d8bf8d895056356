// The audit: press by press while it happens, or of a saved log; ticks, causes, and the timing chart.

import { deed, tell } from "./bench-deeds.js";
import { make, pick } from "./make.js";
import { HERE, answerOf, reach } from "./rig.js";

let shown = "";
let log = "";

const option = (value, says = value) => make("option", { value }, says);

function refilled(select, first, names) {
  const before = select.value;
  select.replaceChildren(option("", first), ...names.map((one) => option(one)));
  if (names.includes(before)) select.value = before;
}

export function captureNames(bench) {
  refilled(pick("capture"), "a saved log", bench.captures);
  refilled(pick("source"), "the open ports", bench.captures);
  pick("audit").disabled = bench.open.inputs.length === 0;
}

const fault = (one) => make("li", {}, one.says, make("br"), make("span", { className: "hint" }, `Look at: ${one.look_at}`));

function cause(one, isBest) {
  const odds = one.odds > 0.99 ? "over 99 %" : `${Math.round(one.odds * 100)} %`;
  if (!one.faults.length) return make("p", {}, `No mistake${isBest ? "" : " after all"}; what differs, if anything, is chance (${odds}).`);
  return make("div", { className: `card ${isBest ? "risk" : ""}` },
    make("p", { className: "severity" }, `${isBest ? "Likeliest" : "Or"}: ${odds}`),
    make("ul", {}, one.faults.map(fault)),
    one.same_effect.length ? make("p", { className: "hint" }, `With just the same effect: ${one.same_effect.map((each) => each.join(", and ")).join("; ")}`) : null);
}

function press(one, name) {
  const mark = one.right ? "✓" : "✕";
  const says = one.right ? "as it was meant" : "";
  return make("tr", { className: one.right ? "" : "differs" },
    make("td", {}, mark), make("td", {}, one.title),
    make("td", {}, says,
      ...one.missing.map((each) => make("div", {}, `missing: ${each}`)),
      ...one.besides.map((each) => make("div", {}, `besides: ${each}`))),
    make("td", {}, one.preset !== null
      ? make("button", { type: "button", onclick: () => chart(name, one.preset) }, "Timing") : ""));
}

// A search for the fault that begins with what this audit found.
function toFind(name) {
  const words = new URLSearchParams({ heard: name });
  if (pick("at").value) words.set("at", pick("at").value);
  return make("p", {}, make("a", { href: `${HERE}/find#${words}` }, "Find what is wrong, beginning with this audit"));
}

function showVerdict(found, name) {
  const pressed = found.presses.filter((one) => one.pressed);
  const right = pressed.filter((one) => one.right);
  pick("verdict").replaceChildren(
    make("p", { className: `sum ${found.clean ? "proved" : "fault"}` }, `${right.length} of ${pressed.length} presses are as they were meant`),
    ...found.unexplained.map((one) => make("p", { className: "bad" }, `Unexplained: ${one}`)),
    ...(found.clean ? [] : found.causes.slice(0, 3).map((one, place) => cause(one, place === 0))),
    ...(found.clean ? [] : [toFind(name || log)]),
    make("div", { className: "scroll" }, make("table", { id: "ticks" },
      make("thead", {}, make("tr", {}, ["", "step", "what came", ""].map((one) => make("th", {}, one)))),
      make("tbody", {}, pressed.map((one) => press(one, name))))),
    pressed.length < found.presses.length ? make("details", {}, make("summary", {}, `${found.presses.length - pressed.length} were not pressed`),
      make("p", {}, found.presses.filter((one) => !one.pressed).map((one) => one.title).join(", "))) : "",
    make("p", {}, make("a", { id: "report", href: `${HERE}/bench/report?${asking(name)}`, download: "" }, "Save the report as a page")));
}

function asking(name, more) {
  const words = new URLSearchParams(more);
  if (name) words.set("capture", name);
  if (pick("at").value) words.append("at", pick("at").value);
  return words;
}

async function chart(name, preset) {
  try {
    const told = await answerOf(await reach(`${HERE}/bench/chart.json?${asking(name, { preset })}`));
    pick("timing").hidden = false;
    pick("timing").querySelector("h3").textContent = told.title;
    pick("timing").querySelector("p").textContent = told.says;
    const drawn = new DOMParser().parseFromString(told.svg, "image/svg+xml").documentElement;
    pick("chart").replaceChildren(document.importNode(drawn, true));
    pick("times").tBodies[0].replaceChildren(...told.rows.map((one) => make("tr", { className: one.differs ? "fault" : "" },
      make("td", {}, one.says), make("td", { className: "bytes" }, one.bytes), make("td", {}, one.computed), make("td", {}, one.captured), make("td", {}, one.off))));
    pick("timing").scrollIntoView({ block: "nearest" });
  } catch (trouble) {
    tell(trouble.message, true);
  }
}

function showPressing(audit) {
  if (!audit) { pick("pressing").replaceChildren(); return; }
  const end = make("button", { type: "button", onclick: () => deed("end-audit") }, "End the audit");
  const parts = audit.asks
    ? [make("p", { className: "sum" }, `Now ${audit.moves ? "move" : "press"} ${audit.asks}`),
      make("p", { className: "hint" }, `${audit.place} of ${audit.count} are done. It goes on by itself when it has been heard.`),
      make("div", { className: "row" }, make("button", { type: "button", id: "skip", onclick: () => deed("skip") }, "Nothing comes: pass over it"), end)]
    : [make("p", { className: "sum" }, "All was asked for."), end];
  pick("pressing").replaceChildren(...parts);
}

async function verdictOf(name) {
  const { found } = await answerOf(await reach(`${HERE}/bench/audit.json?${asking(name)}`));
  if (found) showVerdict(found, name);
}

export async function audited(bench) {
  showPressing(bench.audit);
  pick("audit").hidden = Boolean(bench.audit);
  if (!bench.audit) return;
  log = bench.log;
  const now = `${bench.log}:${bench.audit.place}`;
  if (now === shown) return;
  shown = now;
  pick("capture").value = "";
  await verdictOf("");
}

pick("audit").onclick = () => { pick("verdict").replaceChildren(); pick("timing").hidden = true; deed("audit"); };
for (const id of ["capture", "at"]) {
  pick(id).onchange = () => {
    pick("timing").hidden = true;
    pick("verdict").replaceChildren();
    if (pick("capture").value) verdictOf(pick("capture").value).catch((trouble) => tell(trouble.message, true));
  };
}
