// Stage: once loaded it needs nobody. It keeps the set and the place in it, and catches up later.

import { pick } from "./make.js";
import { keep, kept, take } from "./stage-set.js";

const RIG = document.body.dataset.rig;
const HERE = `/rig/${encodeURIComponent(RIG)}`;
const SET = `thruline-set-${RIG}`;
const AGAIN_MS = 1500;

function use(set) {
  keep(SET, set);
  document.querySelector("header a").textContent = set.rig;
  document.title = `Stage · ${set.rig} · thruline`;
  take(set);
}

async function load() {
  const response = await fetch(`${HERE}/stage.json`);
  if (response.ok) use(await response.json());
}

function connect() {
  const socket = new WebSocket(location.origin.replace(/^http/, "ws") + `${HERE}/live`);
  socket.onopen = () => { pick("reach").textContent = ""; };
  socket.onmessage = () => load().catch(() => {});
  socket.onclose = () => {
    pick("reach").textContent = "on its own: the workbench is out of reach";
    setTimeout(connect, AGAIN_MS);
  };
}

if (kept(SET)) take(kept(SET));
load().catch(() => {}).finally(() => { document.body.dataset.ready = "stage"; });
connect();
navigator.serviceWorker?.register("/stage-worker.js").then(() => { document.body.dataset.kept = "yes"; }, () => {});
