// Facts of a document to be filled in: clauses that open, a field for each fact, entries to add,
// to order and to take away. What is not understood stays where it was typed, with the reason.

import { clauseWords, factWords, hintOf, oneOf, words } from "./fact-words.js";
import { drawing, whenLeft } from "./field.js";
import { attempt } from "./frame.js";
import { make } from "./make.js";
import { drawnFrom, isOut, since } from "./rig.js";

const refused = new Map(); // address of a fact -> what was typed there and why it is not taken
const opened = new Set();

// Do a deed; the reason why it is refused, or nothing; null when the person leaves what is there.
async function trouble(deed) {
  let why = "";
  const told = await attempt(async () => {
    why = "";
    try {
      return await deed();
    } catch (refusal) {
      why = refusal.message;
      throw refusal;
    }
  });
  return told === false ? null : why;
}

function input(fact, label) {
  const facts = { "aria-label": label, "data-address": fact.address };
  if (!fact.choices.length) {
    return make("input", { ...facts, value: fact.typed, placeholder: fact.typed ? null : hintOf(fact), autocomplete: "off",
      list: fact.offers ? `offers-${fact.key}` : null });
  }
  const empty = fact.is_required && fact.typed ? [] :
    [make("option", { value: "" }, fact.usual ? `not given: ${fact.usual}` : "not given")];
  const made = make("select", facts, empty,
    fact.choices.map((one) => make("option", { value: one, selected: one === fact.typed }, one)));
  made.value = fact.typed;
  return made;
}

function mark(field, why, reason) {
  field.toggleAttribute("aria-invalid", false);
  if (why) field.setAttribute("aria-invalid", "true");
  reason.textContent = why;
}

function factRow(fact, path, doing) {
  const field = input(fact, `${path}: ${factWords(fact.key, fact.address)}`);
  const reason = make("p", { className: "reason", id: `why-${fact.address}` });
  field.setAttribute("aria-describedby", reason.id);
  Object.assign(field.dataset, { was: fact.typed, seen: doing?.seen?.() ?? drawnFrom() });
  const kept = refused.get(fact.address);
  if (kept) {
    field.value = kept.text;
    field.dataset.seen = kept.seen;
    mark(field, kept.why, reason);
  }
  let sent = field.value;
  const commit = async () => {
    const text = field.value;
    if (text === sent) return;
    sent = text;
    refused.delete(fact.address);
    if (text === fact.typed) {
      mark(field, "", reason);
      return;
    }
    const seen = Number(field.dataset.seen);
    const why = await since(seen, () => trouble(() => doing.fact(fact.address, text)));
    // The page may have been drawn anew meanwhile: what was typed stands in another field then.
    const shown = field.isConnected ? field : document.querySelector(`[data-address="${CSS.escape(fact.address)}"]`) ?? field;
    if (why) refused.set(fact.address, { text, why, seen, isUnkept: isOut() });
    else if (why === null) shown.value = sent = shown.dataset.was;
    else field.dataset.was = text;
    mark(shown, why, document.getElementById(reason.id) ?? reason);
  };
  // A field that was drawn anew while it was typed into tells of no change when it is left.
  field.onchange = whenLeft(commit);
  field.commit = () => { sent = null; commit(); };
  field.onblur = whenLeft((event) => { if (event.relatedTarget) commit(); });
  field.onkeydown = (event) => { if (event.key === "Enter") commit(); };
  return make("tr", {}, make("th", { scope: "row" }, factWords(fact.key, fact.address)),
    make("td", {}, doing ? field : null, reason),
    make("td", { className: "quiet" }, fact.says,
      fact.usual && !fact.typed && !fact.choices.length ? ` Left out, it is ${fact.usual}.` : ""));
}

function readRow(fact) {
  return make("tr", {}, make("th", { scope: "row" }, factWords(fact.key, fact.address)),
    make("td", {}, fact.typed || (fact.usual ? `${fact.usual} (not given)` : "not given")),
    make("td", { className: "quiet" }, fact.says));
}

function table(facts, path, doing) {
  if (!facts.length) return null;
  return make("table", {}, make("tbody", {}, facts.map((one) => (doing ? factRow(one, path, doing) : readRow(one)))));
}

const [LEAST, WIDEST] = [8, 44]; // letters that a field to be filled in shows

const addWords = (clause) => (clause.key === "accept" ? "Live with it" : clause.is_list ? `Add ${oneOf(words(clause.key))}` : `Add ${words(clause.key)}`);

// The button by its words, and where it adds something when that is inside something else.
function addName(clause, path) {
  const around = path.slice(0, -words(clause.key).length).trim();
  return around ? `${addWords(clause)} to ${around}` : addWords(clause);
}

// What can be chosen for a fact beside what is typed.
function offersOf(fact) {
  return fact.offers ? make("datalist", { id: `offers-${fact.key}` },
    fact.offers.map((one) => make("option", { value: one.value, label: one.says }))) : null;
}

// What must be known before an entry can be added, and the button that adds it.
function addForm(clause, path, doing) {
  const name = `${path}: new`;
  const reason = make("p", { className: "reason" });
  const fields = clause.blank.map((one) => {
    const field = input({ ...one, address: `new ${one.address}` }, `${name} ${factWords(one.key, one.address)}`);
    field.dataset.was = "";
    if (field.placeholder) field.size = Math.min(WIDEST, Math.max(field.placeholder.length, LEAST));
    return [one, field];
  });
  const form = make("form", { className: "row add-fact", "data-add": clause.address },
    fields.map(([one, field]) => make("label", { title: one.says || null }, `${factWords(one.key, one.address)} `, field, offersOf(one))),
    make("button", { "aria-label": addName(clause, path) }, addWords(clause)),
    reason);
  form.onsubmit = async (event) => {
    event.preventDefault();
    const texts = Object.fromEntries(fields.map(([one, field]) => [one.key, field.value]));
    const empty = fields.find(([, field]) => !field.value.trim());
    if (empty) {
      mark(empty[1], `${words(empty[0].key)} is wanted${empty[0].example ? `, such as ${empty[0].example}` : ""}`, reason);
      empty[1].focus();
      return;
    }
    const typed = fields.map(([, field]) => field.value);
    for (const [, field] of fields) {
      field.removeAttribute("aria-invalid");
      field.dataset.was = field.value; // a page that is drawn anew starts the form afresh
    }
    const why = await trouble(() => doing.add(clause.address, clause.is_list, texts));
    reason.textContent = why;
    fields.forEach(([, field], at) => {
      if (!why) return;
      field.value = typed[at];
      field.dataset.was = "";
      field.setAttribute("aria-invalid", "true");
    });
  };
  return form;
}

function entry(list, one, at, path, doing) {
  const name = `${path} ${one.label}`;
  const move = (by, word, isOff) => make("button", { type: "button", disabled: isOff,
    "aria-label": `${name} ${word}`, onclick: () => trouble(() => doing.move(one.address, by)) }, word);
  const tools = doing ? make("div", { className: "row" },
    move(-1, "earlier", at === 0), move(1, "later", at === list.parts.length - 1),
    make("button", { type: "button", "aria-label": `Remove ${name}`,
      onclick: () => trouble(() => doing.drop(one.address)) }, "Remove")) : null;
  return folding(one.address, make("span", {}, one.label), table(one.facts, name, doing),
    one.parts.map((part) => clauseView(part, name, doing)), tools);
}

function folding(address, title, ...inside) {
  const made = make("details", { className: "clause", "data-clause": address, open: opened.has(address) },
    make("summary", {}, title), inside.flat());
  made.ontoggle = () => (made.open ? opened.add(address) : opened.delete(address));
  return made;
}

function clauseView(clause, path, doing) {
  const name = path ? `${path} ${words(clause.key)}` : words(clause.key);
  const count = clause.is_list ? ` (${clause.parts.length})` : clause.is_given ? "" : " (not given)";
  const says = clause.says ? make("p", { className: "quiet" }, clause.says) : null;
  const title = make("span", {}, clauseWords(clause.key), count);
  if (clause.is_list) {
    return folding(clause.address, title, says,
      clause.parts.map((one, at) => entry(clause, one, at, name, doing)),
      doing ? addForm(clause, name, doing) : null);
  }
  if (!clause.is_given) return folding(clause.address, title, says, doing ? addForm(clause, name, doing) : null);
  const drop = doing && !clause.is_fixed ? make("button", { type: "button", "aria-label": `Remove ${name}`,
    onclick: () => trouble(() => doing.drop(clause.address)) }, `Remove ${words(clause.key)}`) : null;
  return folding(clause.address, title, says, table(clause.facts, name, doing),
    clause.parts.map((part) => clauseView(part, name, doing)), drop);
}

const fieldsIn = (place) => [...place.querySelectorAll("[data-address]")];

// Draw clauses into a place; what is being typed there and the field it is typed into stay.
// Without `doing` the facts can only be read.
export function showClauses(place, clauses, doing) {
  redraw(place, clauses.map((one) => clauseView(one, "", doing)));
}

// Draw the facts of one table into a place, in the same way.
export function showFacts(place, facts, path, doing) {
  redraw(place, [table(facts, path, doing)]);
}

function redraw(place, drawn) {
  const typing = new Map(fieldsIn(place).filter((one) => one.value !== one.dataset.was)
    .map((one) => [one.dataset.address, one]));
  const had = place.contains(document.activeElement) ? document.activeElement : null;
  const label = had?.getAttribute("aria-label");
  const marked = [had?.selectionStart, had?.selectionEnd];
  drawing(() => place.replaceChildren(...drawn));
  for (const field of fieldsIn(place)) {
    const typed = typing.get(field.dataset.address);
    if (!typed) continue;
    field.value = typed.value;
    if (typed.dataset.seen) field.dataset.seen = typed.dataset.seen;
  }
  const field = label && place.querySelector(`[aria-label="${CSS.escape(label)}"]`);
  field?.focus({ preventScroll: true });
  if (Number.isInteger(marked[0])) field?.setSelectionRange?.(...marked);
}

// Open everything around an address and go to the fact there, or to where it can be added.
export function goTo(place, address) {
  const around = [...place.querySelectorAll("[data-clause]")]
    .filter((one) => address === one.dataset.clause || address.startsWith(`${one.dataset.clause}.`)
      || address.startsWith(`${one.dataset.clause}[`));
  for (const one of around) {
    one.open = true;
    opened.add(one.dataset.clause);
  }
  const field = fieldsIn(place).find((one) => one.dataset.address === address)
    ?? around.at(-1)?.querySelector(":scope > form input, :scope > form select, :scope > form button")
    ?? around.at(-1)?.querySelector("summary");
  field?.scrollIntoView({ block: "center" });
  field?.focus();
}

export function openClauses(...addresses) {
  for (const one of addresses) opened.add(one);
}

// What was typed while nobody answered is put in when the workbench is back.
document.addEventListener("reach", (event) => {
  if (!event.detail) return;
  for (const [address] of [...refused].filter(([, kept]) => kept.isUnkept)) {
    refused.delete(address);
    document.querySelector(`[data-address="${CSS.escape(address)}"]`)?.commit();
  }
});

export function forget() {
  refused.clear();
  opened.clear();
}
