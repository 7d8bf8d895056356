// The bench: its ports, what is sent, and who answers. What comes in and the audit have their own files.

import { audited, captureNames } from "./bench-audit.js";
import { deed, tell } from "./bench-deeds.js";
import { wired } from "./bench-wire.js";
import { make, pick } from "./make.js";
import { HERE, answerOf, ask, follow, reach } from "./rig.js";

let rig = null;
let bench = null;
let isAsking = false;
let isLate = false;
let wanted = null;

const option = (value, says = value) => make("option", { value }, says);

function refill(select, options) {
  const before = select.value;
  select.replaceChildren(...options);
  if ([...select.options].some((one) => one.value === before)) select.value = before;
}

function choosable(port, isOpen, isInput) {
  const name = isInput ? "listen" : "send";
  const holder = port.holder && !isOpen ? ` (in use at the bench of ${port.holder})` : "";
  const box = make("input", { type: "checkbox", name, value: port.name, checked: isOpen, disabled: Boolean(holder) });
  const where = isInput ? make("label", {}, "plugged into ", make("select", { "aria-label": `What ${port.name} is plugged into` },
    option("", "(nothing named)"), ...rig.sockets.map((one) => option(one)))) : "";
  const stands = !isInput && rig.outputs.length ? make("label", {}, "stands for ", make("select", { "aria-label": `The output that ${port.name} stands for` },
    option("", "(all outputs)"), ...rig.outputs.map((one) => option(one)))) : "";
  return make("div", { className: "row port" }, make("label", {}, box, ` ${port.name}${holder}`), where, stands);
}

function showChoice() {
  const open = bench.open;
  const chosen = new Map(open.inputs.map((one) => [one.port, one.line]));
  const ticked = (list) => new Set([...document.querySelectorAll(`${list} input:checked`)].map((one) => one.value));
  const kept = { inputs: ticked("#inputs"), outputs: ticked("#outputs") };
  const sockets = new Map([...document.querySelectorAll("#inputs .port")].map((row) =>
    [row.querySelector("input").value, row.querySelector("select").value]));
  pick("inputs").replaceChildren(...bench.inputs.map((port) => {
    const row = choosable(port, chosen.has(port.name) || kept.inputs.has(port.name), true);
    const line = chosen.get(port.name);
    row.querySelector("select").value = sockets.get(port.name) ?? (rig.sockets.includes(line) ? line : "");
    return row;
  }));
  const outs = new Map(open.outputs.map((one) => [one.port, one.over ?? ""]));
  const overs = new Map([...document.querySelectorAll("#outputs .port")].map((row) =>
    [row.querySelector("input").value, row.querySelector("select")?.value]));
  pick("outputs").replaceChildren(...bench.outputs.map((port) => {
    const row = choosable(port, outs.has(port.name) || kept.outputs.has(port.name), false);
    const over = overs.get(port.name) ?? outs.get(port.name) ?? "";
    const select = row.querySelector("select");
    if (select) select.value = rig.outputs.includes(over) ? over : "";
    return row;
  }));
}

function showPorts() {
  const { inputs, outputs } = bench.open;
  const gone = (one) => (one.there ? "" : " ✕ gone: plug it in again, and it goes on");
  pick("opened").replaceChildren(
    ...inputs.map((one) => make("li", { className: one.there ? "" : "bad" },
      `listens to ${one.port}${one.line !== one.port ? `, plugged into ${one.line}` : ""}${gone(one)}`)),
    ...outputs.map((one) => make("li", { className: one.there ? "" : "bad" }, `sends to ${one.port}${one.over ? `, for ${one.over}` : ""}${gone(one)}`)),
    ...(inputs.length + outputs.length ? [] : [make("li", {}, "No port is open. Choose at least one: to listen to, to send to, or both.")]));
  if (inputs.length + outputs.length === 0) pick("choosing").open = true;
  showChoice();
  pick("news").replaceChildren(...bench.news.slice(0, 4).map((one) => make("li", {}, one)));
  pick("troubles").replaceChildren(...bench.troubles.map((one) => make("p", {}, one)));
  pick("ports").querySelector("[type=submit]").disabled = !bench.is_here;
  pick("close").hidden = inputs.length + outputs.length === 0;
  pick("close").disabled = !bench.is_here;
}

function stepRow(step, place, sending) {
  const at = sending.place;
  const mark = place < at || sending.progress === "done" ? "✓" : place === at ? "▸" : "";
  return make("li", { "aria-current": place === at ? "step" : null }, `${mark} ${step.title}`);
}

function showSending() {
  const { sending } = bench;
  const parts = [];
  if (sending.title) {
    const state = { playing: "is being sent", asks: "sent", done: "done", stopped: "stopped", failed: "failed" }[sending.progress];
    parts.push(make("h3", {}, `${sending.title}: ${state}`), make("p", { className: sending.progress === "failed" ? "bad" : "" }, sending.says));
  }
  if (sending.again.length) {
    parts.push(make("div", { className: "row" },
      make("button", { type: "button", id: "again", disabled: !bench.may_send, onclick: () => deed("again") }, `Send everything for ${sending.again.join(", ")} again`)));
  }
  const step = sending.steps[sending.place];
  if (sending.steps.length > 1) parts.push(make("ol", { className: "steps" }, sending.steps.map((one, place) => stepRow(one, place, sending))));
  if (step) {
    parts.push(make("ul", { className: "shows" }, step.shows.map((one) =>
      make("li", { className: one.trouble.length ? "bad" : "" }, one.says))));
    if (sending.progress === "asks") {
      parts.push(make("div", { className: "row" }, make("strong", {}, "Is it so?"),
        make("button", { type: "button", id: "yes", disabled: !bench.may_send, onclick: () => deed("answer", { so: true }) }, "Yes, go on"),
        make("button", { type: "button", id: "no", disabled: !bench.may_send, onclick: () => deed("answer", { so: false }) }, "No")));
    }
    parts.push(make("details", {}, make("summary", {}, `${step.messages.length} messages with their bytes`),
      make("ol", {}, step.messages.map((one) => make("li", {}, `${(one.at_us / 1000).toFixed(2)} ms  ${one.says}  `, make("code", {}, one.bytes))))));
  }
  const isOpen = pick("sending").querySelector("details")?.open;
  const focus = document.activeElement?.id;
  pick("sending").replaceChildren(...parts);
  if (isOpen && pick("sending").querySelector("details")) pick("sending").querySelector("details").open = true;
  if (["yes", "no", "again"].includes(focus)) pick(focus)?.focus();
  const isQuiet = sending.is_sound_down;
  pick("down").checked = isQuiet;
  pick("down").disabled = !bench.is_here;
  pick("may").checked = bench.may_telephones_send;
  pick("phones").hidden = !bench.is_here;
  pick("caution").classList.toggle("said", isQuiet);
  const can = bench.may_send && isQuiet && bench.open.outputs.length > 0;
  for (const id of ["send", "step"]) pick(id).disabled = !can || sending.progress === "playing" || !rig.presets.length;
  pick("place").disabled = !can || sending.progress === "playing";
}

function showSweep() {
  const { sweep } = bench;
  pick("sweeps").hidden = rig.sweeps.length === 0;
  if (document.activeElement !== pick("place") || sweep.follows) pick("place").value = sweep.place;
  const parts = sweep.says ? [make("p", { id: "moved" }, sweep.says)] : [];
  const button = (says, step) => make("button", { type: "button", onclick: () => deed("pedal", { do: step, sweep: pick("sweep").value }) }, says);
  if (sweep.learning === "at-toe") {
    parts.push(make("p", {}, `Move the pedal to its toe and leave it there. ${sweep.moved}`), button("It is at its toe", "at-toe"), button("Stop", "let-go"));
  } else if (sweep.learning === "at-heel") {
    parts.push(make("p", {}, `Now back to its heel, and leave it there. ${sweep.moved}`), button("It is at its heel", "at-heel"), button("Stop", "let-go"));
  } else if (sweep.follows) {
    parts.push(make("p", {}, `The pedal moves ${sweep.name}: ${sweep.pedal}.`), button("Let go of the pedal", "let-go"));
  } else if (sweep.pedal) {
    parts.push(make("p", {}, `The pedal is known: ${sweep.pedal}.`), button("Let it move the sweep", "follow"));
  }
  pick("pedal").replaceChildren(...parts);
  pick("learn").disabled = !bench.may_send;
}

function showUnits() {
  const { identity, saving, backups } = bench;
  pick("identity").replaceChildren(...(!identity ? [] : [
    ...identity.answered.map((one) => make("p", {}, one)),
    make("p", { className: "hint" }, identity.is_over ? identity.says : "Waiting for answers …")]));
  pick("saving").textContent = saving ? saving.says : "";
  pick("stop-saving").hidden = !saving || saving.is_over || !bench.is_here;
  refill(pick("backup"), Object.entries(backups).flatMap(([unit, names]) =>
    names.map((name) => option(`${unit}/${name}`, `“${name}” of ${unit}`))));
  refill(pick("restore-port"), bench.open.outputs.map((one) => option(one.port)));
  pick("restore").querySelector("button").disabled = !bench.is_here || !pick("backup").value || !pick("restore-port").value;
  pick("save").querySelector("button").disabled = !bench.is_here;
}

function show() {
  showPorts();
  showSending();
  showSweep();
  showUnits();
  captureNames(bench);
}

async function load() {
  if (isAsking) { isLate = true; return; }
  isAsking = true;
  try {
    do {
      isLate = false;
      bench = await answerOf(await reach(`${HERE}/bench/state.json`));
      show();
      await Promise.all([wired(bench), audited(bench)]);
    } while (isLate);
  } catch (trouble) {
    tell(trouble.message, true);
  } finally {
    isAsking = false;
  }
}

async function loadRig() {
  rig = await ask("bench");
  pick("lacks").hidden = !rig.lacks;
  pick("lacks").textContent = rig.lacks;
  pick("caution").querySelector("p + p").textContent = rig.caution;
  refill(pick("preset"), rig.presets.map((one) => option(one.number, `${one.number} ${one.name}`)));
  refill(pick("sweep"), rig.sweeps.map((one) => option(one.name, `${one.name} (${one.moves.join(", ")})`)));
  refill(pick("save-unit"), rig.units.map((one) => option(one.id, one.name)));
  const words = [...rig.units.map((one) => one.id), ...rig.kinds];
  refill(pick("only"), [option("", "everything"), ...words.map((one) => option(one))]);
  refill(pick("hide"), [option("", "nothing"), ...words.map((one) => option(one))]);
  refill(pick("at"), [option("", "where its lines say"), ...rig.sockets.map((one) => option(one))]);
}

pick("panic").onclick = () => deed("panic");
document.addEventListener("keydown", (event) => {
  if (event.altKey && event.code === "KeyP") { event.preventDefault(); deed("panic"); }
});
pick("ports").onsubmit = (event) => {
  event.preventDefault();
  const inputs = [...pick("inputs").children].filter((row) => row.querySelector("input")?.checked).map((row) =>
    ({ port: row.querySelector("input").value, line: row.querySelector("select").value }));
  const outputs = [...pick("outputs").children].filter((row) => row.querySelector("input")?.checked).map((row) =>
    ({ port: row.querySelector("input").value, over: row.querySelector("select")?.value ?? "" }));
  if (!inputs.length && !outputs.length) {
    tell("Tick a port first: one to listen to, one to send to, or both. To close those that are open, let go of all.", true);
    return;
  }
  deed("open", { inputs, outputs }, "Open.").then((isDone) => { if (isDone) pick("choosing").open = false; });
};
pick("close").onclick = () => {
  for (const box of pick("ports").querySelectorAll("input:checked")) box.checked = false;
  deed("close", {}, "All ports are free again.");
};
pick("down").onchange = () => deed("sound", { down: pick("down").checked });
pick("may").onchange = () => deed("telephones", { may: pick("may").checked });
pick("send").onclick = () => deed("send", { preset: Number(pick("preset").value) });
pick("step").onclick = () => deed("step", { preset: Number(pick("preset").value) });
pick("learn").onclick = () => deed("pedal", { do: "learn" });
pick("identify").onclick = () => deed("identify");
pick("save").onsubmit = (event) => {
  event.preventDefault();
  deed("save", { unit: pick("save-unit").value, name: pick("save-name").value });
};
pick("stop-saving").onclick = () => deed("stop-saving").then(() => pick("save-name").focus());

// A slider gives more places than a line takes: only the latest is sent, and the next when that is out.
let isMoving = false;
async function moveOn() {
  if (isMoving) return;
  isMoving = true;
  while (wanted !== null) {
    const place = wanted;
    wanted = null;
    await deed("sweep", { sweep: pick("sweep").value, place });
  }
  isMoving = false;
}
pick("place").oninput = () => { wanted = Number(pick("place").value); moveOn(); };

pick("restore").onsubmit = (event) => {
  event.preventDefault();
  const [unit, ...rest] = pick("backup").value.split("/");
  const name = rest.join("/");
  const dialog = pick("ask");
  const typed = make("input", { "aria-label": "The id of the unit", autocomplete: "off" });
  const form = make("form", { method: "dialog" },
    make("h2", { id: "ask-title" }, `Put “${name}” back into ${unit}`),
    ...(bench.untold.includes(`${unit}/${name}`) ? [make("p", { className: "caution" },
      "It does not tell of which rig it was kept: see that it is of this very unit.")] : []),
    make("p", {}, `What ${unit} remembers now is lost. Let nothing else be on the line meanwhile: no clock, no pedals. To go on, type the id of the unit: ${unit}`),
    typed,
    make("div", { className: "row" },
      make("button", { type: "submit", value: "go" }, "Send it"),
      make("button", { type: "button", onclick: () => dialog.close("") }, "Leave it")));
  dialog.replaceChildren(form);
  dialog.onclose = () => {
    dialog.onclose = null;
    if (dialog.returnValue !== "go") return;
    deed("restore", { unit, name, port: pick("restore-port").value, confirmed: typed.value });
  };
  dialog.returnValue = "";
  dialog.showModal();
};

const again = () => loadRig().then(load).catch((trouble) => tell(trouble.message, true));
document.addEventListener("bench", () => rig && load()); // what is told before the rig is here, is in its first load
follow((_status, changed) => changed && again());
await again();
document.body.dataset.bench = "ready";
