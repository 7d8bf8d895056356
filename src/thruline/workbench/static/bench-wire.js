// What came over the open ports, or stands in a saved log, in words.

import { tell } from "./bench-deeds.js";
import { make, pick } from "./make.js";
import { HERE, answerOf, reach } from "./rig.js";

const MOST_SHOWN = 400;
const AT_THE_END = 40;
let last = 0;
let log = null;
let isHeld = false;

const filters = () => {
  const words = new URLSearchParams();
  if (pick("only").value) words.append("only", pick("only").value);
  if (pick("hide").value) words.append("hide", pick("hide").value);
  return words;
};

const row = (one) => make("tr", { className: one.kind === "malformed" ? "fault" : one.kind === "note-of-the-session" ? "note" : "" },
  make("td", {}, one.at), make("td", {}, one.line), make("td", {}, one.says), make("td", { className: "bytes" }, one.bytes));

function append(rows) {
  const body = pick("wire").querySelector("tbody");
  const place = pick("wire");
  const isAtEnd = place.scrollHeight - place.scrollTop - place.clientHeight < AT_THE_END;
  body.append(...rows.map(row));
  while (body.rows.length > MOST_SHOWN) body.rows[0].remove();
  if (isAtEnd) place.scrollTop = place.scrollHeight;
}

function empty() {
  pick("wire").querySelector("tbody").replaceChildren();
}

async function live(bench) {
  if (bench.log !== log) { log = bench.log; last = 0; empty(); }
  if (isHeld) return;
  const words = filters();
  words.set("after", last);
  const told = await answerOf(await reach(`${HERE}/bench/told.json?${words}`));
  if (told.count < last) { last = 0; empty(); }
  if (told.count > last || told.rows.length) append(told.rows);
  last = told.count;
  const listens = bench.open.inputs.length > 0;
  pick("wire-says").textContent = [
    listens ? `${told.count} came; the latest ${MOST_SHOWN} are shown, the log has all.` : "Nothing is listened to.",
    bench.log ? `Log: ${bench.log}` : "", bench.says].filter(Boolean).join(" ");
}

async function saved(name) {
  const words = filters();
  words.set("capture", name);
  const told = await answerOf(await reach(`${HERE}/bench/replay.json?${words}`));
  empty();
  append(told.rows);
  pick("wire-says").textContent = `${told.count} in this log${told.began ? `, begun ${told.began}` : ""}; the latest ${MOST_SHOWN} are shown.`;
}

export async function wired(bench) {
  const name = pick("source").value;
  pick("take").hidden = !(name || bench.log);
  pick("take").href = `${HERE}/bench/capture/${encodeURIComponent(name || bench.log)}`;
  if (!name) await live(bench);
}

function again() {
  last = 0;
  log = null;
  empty();
  const name = pick("source").value;
  if (name) saved(name).catch((trouble) => tell(trouble.message, true));
  document.dispatchEvent(new CustomEvent("bench"));
}

for (const id of ["only", "hide", "source"]) pick(id).onchange = again;
pick("hold").onclick = () => {
  isHeld = !isHeld;
  pick("hold").setAttribute("aria-pressed", String(isHeld));
  if (!isHeld) document.dispatchEvent(new CustomEvent("bench"));
};
