// Units: how each is set and where that is found on it; cables; more units from charts.

import { field, isDrafted, keepFocus, whenChosen } from "./field.js";
import { attempt, findingsMark, say } from "./frame.js";
import { make, pick } from "./make.js";
import { act, ask, edit, follow, remove, set } from "./rig.js";
import { moreAbout } from "./unit-more.js";

const UNWANTED = "";
const APART = "contact by contact";

// What can be chosen; `words` says it otherwise than it is written, and `empty` names the choice of
// writing nothing.
function chooser(label, values, value, changed, { empty, words = {} } = {}) {
  const shown = values.includes(value) || value === null ? values : [value, ...values];
  const options = shown.map((one) => make("option", { value: one, selected: one === value }, words[one] ?? String(one)));
  if (empty) options.unshift(make("option", { value: UNWANTED, selected: value === null }, empty));
  return make("select", { "aria-label": label, onchange: whenChosen(changed) }, options);
}

const change = (...edits) => attempt(() => edit(...edits));

// That nothing is written of it, and what is taken then.
const unwritten = (taken) => (taken === null ? "not written" : `not written (${taken})`);

function setting(unit, one) {
  const address = `${unit.address}.settings.${one.id}`;
  const name = `${unit.name}: ${one.name}`;
  return make("tr", {},
    make("th", { scope: "row" }, one.name),
    make("td", {}, chooser(name, one.values, one.stated ? one.value : null,
      (select) => change(select.value === UNWANTED ? remove(address) : set(address, select.value)), { empty: unwritten(one.value) })),
    make("td", { className: "quiet" }, one.where, one.stated ? "" : " (taken as from the factory)"),
    make("td", {}, findingsMark(address)));
}

function channelRow(unit) {
  if (!unit.channels.length) return null;
  const pickNumber = (key) => (select) => change(select.value === UNWANTED
    ? remove(`${unit.address}.${key}`) : set(`${unit.address}.${key}`, Number(select.value)));
  return make("tr", {}, make("th", { scope: "row" }, "Channel"),
    make("td", {}, chooser(`${unit.name}: channel`, unit.channels, unit.is_channel_written ? unit.channel : null,
      pickNumber("channel"), { empty: unwritten(unit.channel) })),
    make("td", { className: "quiet" }, unit.channel_where,
      unit.is_channel_written || unit.channel === null ? "" : " (taken as from the factory)",
      unit.sent_on !== unit.channel ? ` The controller addresses it on ${unit.sent_on}.` : ""),
    make("td", {}, findingsMark(`${unit.address}.channel`)));
}

// Over which output the controller sends to it, where that one chooses.
function outputRow(unit) {
  if (!unit.sent_over_outputs.length) return null;
  const address = `${unit.address}.sent-over`;
  return make("tr", {}, make("th", { scope: "row" }, "Sent over"),
    make("td", {}, chooser(`${unit.name}: sent over`, unit.sent_over_outputs, unit.sent_over,
      (select) => change(select.value === UNWANTED ? remove(address) : set(address, select.value)),
      { empty: `as plugged: ${unit.goes_over}` })),
    make("td", { className: "quiet" }, "output of the controller"),
    make("td", {}, findingsMark(address)));
}

// The order of units is that of sheets and reports. Focus stays on the button that is pressed.
const shift = (unit, by, word, isOff) => make("button", { type: "button", disabled: isOff,
  "aria-label": `${unit.id} ${word}`, onclick: () => attempt(() => act("move-fact", { address: unit.address, by })) }, word);

function unitCard(unit, place, units) {
  const rows = [channelRow(unit), outputRow(unit), ...unit.settings.map((one) => setting(unit, one))].filter(Boolean);
  const rename = field(`Name of ${unit.id}`, unit.name, (text) =>
    (text ? change(set(`${unit.address}.name`, text)) : change(remove(`${unit.address}.name`))));
  return make("section", { className: "unit", id: `unit-${unit.id}`, "aria-label": unit.name },
    make("div", { className: "row" }, make("h2", {}, unit.id), rename, findingsMark(unit.address)),
    make("p", { className: "quiet" }, `${unit.model}, ${unit.kind}${unit.is_controller ? "; it recalls the presets" : ""}`),
    rows.length ? make("table", {}, make("tbody", {}, rows)) : make("p", { className: "quiet" }, "It has nothing to be set."),
    moreAbout(unit),
    make("div", { className: "row" },
      shift(unit, -1, "earlier", place === 0), shift(unit, 1, "later", place === units.length - 1),
      make("button", { type: "button", onclick: () => takeOut(unit) }, `Remove ${unit.id}`)));
}

// What hangs on a unit goes with it: it is shown before anything is done.
function takeOut(unit) {
  const go = () => attempt(() => act("remove-unit", { unit: unit.id }), "Removed; Undo brings all of it back.");
  if (!unit.goes.length) return go();
  const dialog = pick("ask");
  const close = (then) => () => { dialog.close(); then?.(); };
  dialog.replaceChildren(
    make("h2", { id: "ask-title" }, `Remove ${unit.id}?`),
    make("p", {}, "This goes with it:"),
    make("ul", {}, unit.goes.map((one) => make("li", {}, one))),
    unit.is_controller ? make("p", {}, "No unit recalls the presets then.") : "",
    make("div", { className: "row" },
      make("button", { type: "button", onclick: close(go) }, "Remove all of it"),
      make("button", { type: "button", onclick: close() }, "Leave it")));
  return dialog.showModal();
}

// How the plugs of a cable are joined: by a name, or contact by contact, which is typed.
function wiringOf(cable, wirings, name) {
  const [address, label] = [`${cable.address}.wiring`, `Wiring of ${name}`];
  const isNamed = cable.wiring === null || Object.hasOwn(wirings, cable.wiring);
  const typed = () => field(label, isNamed ? "" : cable.wiring, (text) => {
    if (!text) return change(remove(address));
    if (Object.hasOwn(wirings, text)) return change(set(address, text));
    const pairs = text.split(",").map((one) => one.trim().match(/^(\S+) to (\S+)$/));
    if (pairs.every(Boolean)) return change(set(address, Object.fromEntries(pairs.map(([, one, other]) => [one, other]))));
    say(`“${text}” is no wiring; it reads like 4 to tip, 5 to sleeve, the plug at ${cable.from} first`, true);
    return null;
  }, { size: 20, placeholder: "such as 4 to tip, 5 to sleeve" });
  if (!isNamed || isDrafted(label)) return typed();
  return chooser(label, [...Object.keys(wirings), APART], cable.wiring, (select) => {
    if (select.value === UNWANTED) return change(remove(address));
    if (select.value !== APART) return change(set(address, select.value));
    const made = typed();
    select.replaceWith(made);
    return made.focus();
  }, { empty: unwritten(wirings[cable.taken]), words: wirings });
}

function cableRow(cable, wirings) {
  const at = (key) => `${cable.address}.${key}`;
  const name = `${cable.from} to ${cable.to}`;
  const ends = field(`Plugs of ${name}`, cable.ends, (text) => change(set(at("ends"), text)), { size: 16 });
  const length = field(`Length of ${name}`, cable.length, (text) => {
    if (!text) return change(remove(at("length")));
    if (/^\d+$/.test(text)) return change(set(at("length"), Number(text)));
    say(`“${text}” is not a length; it reads like 300, in millimetres`, true);
    return null;
  }, { size: 5, inputMode: "numeric" });
  return make("tr", {}, make("td", {}, cable.from), make("td", {}, cable.to), make("td", {}, ends),
    make("td", {}, wiringOf(cable, wirings, name)), make("td", {}, length),
    make("td", {}, make("div", { className: "row" }, findingsMark(cable.address),
      make("button", { type: "button", "aria-label": `Remove the cable ${name}`, onclick: () => change(remove(cable.address)) }, "Remove"))));
}

function show(view) {
  keepFocus(() => {
    pick("units").replaceChildren(...view.units.map(unitCard));
    pick("cables").tBodies[0].replaceChildren(...view.cables.map((one) => cableRow(one, view.wirings)));
  });
  pick("charts").replaceChildren(...view.charts.map((one) => make("option", { value: one.id, label: one.says ? `${one.says} (${one.id})` : one.id })));
  for (const [id, sockets] of [["start", view.outputs], ["stop", view.inputs]]) {
    const chosen = pick(id).value;
    pick(id).replaceChildren(...sockets.map((one) =>
      make("option", { value: one.name, selected: one.name === chosen }, `${one.name} (${one.connector})`)));
  }
  document.body.dataset.loaded = "yes";
}

const load = () => ask("units").then(show, (trouble) => say(trouble.message, true));

pick("add").onsubmit = async (event) => {
  event.preventDefault();
  const chart = pick("chart").value.trim();
  if (await attempt(() => act("add-unit", { chart }), "Added.")) pick("chart").value = "";
};
pick("plug").onsubmit = (event) => {
  event.preventDefault();
  attempt(() => act("add-cable", { from: pick("start").value, to: pick("stop").value }), "Added.");
};

follow((_status, changed) => changed && load());
load();
