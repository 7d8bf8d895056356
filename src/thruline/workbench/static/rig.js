// The rig behind the page: asked for, changed, and followed as others change it.

export const RIG = document.body.dataset.rig;
export const PAGE = document.body.dataset.page;
export const HERE = `/rig/${encodeURIComponent(RIG)}`;
const AGAIN_MS = 500;
const AWAY = "The workbench is out of reach";

export class Refused extends Error {
  constructor(answer) {
    super(answer.says);
    this.clashes = answer.clashes;
    this.cells = answer.cells;
  }
}

// Nobody answers: what was to be done is not done, and can be tried again.
export const isAway = (text) => text.startsWith(AWAY);
export const isOut = () => !isReached;

const followers = new Set();
let [waiting, heard] = [0, 0];
let status = JSON.parse(document.getElementById("status").textContent) ?? (await first());
let drawn = status.revision; // the revision of the newest answer that a page is drawn from
let begun = null; // on which revision what is being done now was decided; none: on the newest
let isReached = true;
let before = Promise.resolve(); // deeds go one after the other, each knows what the last has made
const steps = new Map(); // a revision -> the revision that a deed of this page has made of it

// The page came before the rig was open. Where it cannot be opened, the same page says why.
function first() {
  return ask("status").catch(() => { location.reload(); return new Promise(() => {}); });
}

export const now = () => status;
export const follow = (told) => followers.add(told);
export const drawnFrom = () => drawn;
export const begunOn = () => begun;

// Do something that was decided on an earlier revision: where its place has changed since, the person
// is asked. A deed that is done again, after that, is decided on what is there by then.
export function since(revision, work) {
  begun = revision;
  try {
    return work();
  } finally {
    begun = null;
  }
}

// What this page itself has made of a revision has been seen by whoever made it.
function seenBy(revision) {
  while (revision !== status.revision && steps.has(revision)) revision = steps.get(revision);
  return revision;
}

function take(next) {
  if (next.turn < status.turn && next.started === status.started) return status;
  const changed = next.turn !== status.turn || next.started !== status.started;
  status = next;
  for (const told of followers) told(status, changed);
  return status;
}

// Findings that were shown before are told by their place there.
function whole(next, before) {
  next.findings = next.findings.map((one) => (typeof one === "number" ? before.findings[one] : one));
  return next;
}

export async function answerOf(response) {
  let answer;
  try {
    answer = await response.json();
  } catch {
    answer = { says: `the workbench answered with ${response.status}` };
  }
  if (!response.ok) throw new Refused(answer);
  return answer;
}

// An answer to whatever is asked of the workbench.
export async function reach(address, options = {}) {
  try {
    return await fetch(address, options);
  } catch (trouble) {
    if (trouble.name === "AbortError") throw trouble;
    isReached = false;
    throw new Error(options.method ? `${AWAY}; this is not kept yet.` : `${AWAY}.`);
  }
}

export async function ask(place, asked = {}, signal = undefined) {
  const words = new URLSearchParams(Object.entries(asked).filter(([, value]) => value !== ""));
  const told = await answerOf(await reach(`${HERE}/${place}.json?${words}`, { signal }));
  if (place !== "status") drawn = told.revision ?? drawn;
  return told;
}

export async function post(address, asked) {
  return answerOf(await reach(address, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(asked),
  }));
}

export function act(deed, asked = {}) {
  const seen = begun;
  waiting += 1;
  const mine = before.then(() => perform(deed, asked, seen)).finally(() => {
    waiting -= 1;
    if (!waiting && heard > status.turn) refresh().catch(() => {});
  });
  before = mine.catch(() => {});
  return mine;
}

async function perform(deed, asked, seen) {
  const was = status;
  const told = await post(`${HERE}/do/${deed}`,
    { seen: seenBy(seen ?? was.revision), have: was.mark, ...asked });
  if (told.turn === was.turn + 1 && told.revision !== was.revision) {
    steps.delete(told.revision);
    steps.set(was.revision, told.revision);
  }
  return take(whole(told, was));
}

export const edit = (...edits) => act("edit", { edits });
export const set = (address, value) => ({ do: "set", address, value });
export const add = (address, value) => ({ do: "add", address, value });
export const remove = (address) => ({ do: "remove", address });

export async function refresh() {
  const was = status;
  return take(whole(await ask("status", { have: was.mark }), was));
}

function connect() {
  const socket = new WebSocket(location.origin.replace(/^http/, "ws") + `${HERE}/live`);
  socket.onopen = () => {
    isReached = true;
    document.dispatchEvent(new CustomEvent("reach", { detail: true }));
    refresh().catch(() => {});
  };
  socket.onmessage = (told) => {
    const turns = JSON.parse(told.data);
    heard = turns.turn;
    if (heard !== status.turn && !waiting) refresh().catch(() => {});
    document.dispatchEvent(new CustomEvent("bench", { detail: turns.bench }));
  };
  socket.onclose = () => {
    isReached = false;
    document.dispatchEvent(new CustomEvent("reach", { detail: false }));
    setTimeout(connect, AGAIN_MS);
  };
}
connect();
