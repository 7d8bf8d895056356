// The rig behind the page: asked for, changed, and followed as others change it.

export const RIG = document.body.dataset.rig;
export const PAGE = document.body.dataset.page;
export const HERE = `/rig/${encodeURIComponent(RIG)}`;
const AGAIN_MS = 500;

export class Refused extends Error {
  constructor(answer) {
    super(answer.says);
    this.clashes = answer.clashes;
    this.cells = answer.cells;
  }
}

const followers = new Set();
let [waiting, heard] = [0, 0];
let status = JSON.parse(document.getElementById("status").textContent) ?? (await first());

// The page came before the rig was open. Where it cannot be opened, the same page says why.
function first() {
  return ask("status").catch(() => { location.reload(); return new Promise(() => {}); });
}

export const now = () => status;
export const follow = (told) => followers.add(told);

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

export async function ask(place, asked = {}, signal = undefined) {
  const words = new URLSearchParams(Object.entries(asked).filter(([, value]) => value !== ""));
  return answerOf(await fetch(`${HERE}/${place}.json?${words}`, { signal }));
}

export async function post(address, asked) {
  return answerOf(await fetch(address, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(asked),
  }));
}

export async function act(deed, asked = {}) {
  const before = status;
  waiting += 1;
  try {
    const told = await post(`${HERE}/do/${deed}`, { seen: before.revision, have: before.mark, ...asked });
    return take(whole(told, before));
  } finally {
    waiting -= 1;
    if (!waiting && heard > status.turn) refresh().catch(() => {});
  }
}

export const edit = (...edits) => act("edit", { edits });
export const set = (address, value) => ({ do: "set", address, value });
export const add = (address, value) => ({ do: "add", address, value });
export const remove = (address) => ({ do: "remove", address });

export async function refresh() {
  const before = status;
  return take(whole(await ask("status", { have: before.mark }), before));
}

function connect() {
  const socket = new WebSocket(location.origin.replace(/^http/, "ws") + `${HERE}/live`);
  socket.onopen = () => {
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
    document.dispatchEvent(new CustomEvent("reach", { detail: false }));
    setTimeout(connect, AGAIN_MS);
  };
}
connect();
