// What is written of a unit beside its settings: its id, its chart, remarks, how it tends to fail.

import { showClauses, showFacts } from "./facts.js";
import { say } from "./frame.js";
import { make } from "./make.js";
import { act, ask, edit, remove } from "./rig.js";

const places = new Map(); // id of a unit -> where its facts stand; what is typed there stays
let renamed = null; // the new id of a unit whose field for it gets the focus

const doing = (unit) => ({
  fact: async (address, text) => {
    if (!address.endsWith("].id")) return act("fact", { address, text });
    const place = places.get(unit.id);
    const told = await act("rename-unit", { unit: unit.id, text });
    places.delete(unit.id);
    places.delete(text.trim());
    renamed = text.trim();
    if (place.open) moreAbout({ id: renamed }).open = true;
    return told;
  },
  add: (address, list, texts) => act("add-fact", { address, list, texts }),
  drop: (address) => edit(remove(address)),
  move: (address, by) => act("move-fact", { address, by }),
});

async function fill(unit, facts, parts) {
  try {
    const told = await ask("units", { about: unit.id });
    showFacts(facts, told.facts, unit.id, doing(unit));
    showClauses(parts, told.parts, doing(unit));
  } catch (trouble) {
    if (facts.isConnected) say(trouble.message, true);
  }
  if (renamed === unit.id && facts.isConnected) {
    renamed = null;
    facts.querySelector("input")?.focus();
  }
}

// The place for the facts of a unit; they are asked for while it is open, and at every change.
export function moreAbout(unit) {
  const known = places.get(unit.id);
  if (known) {
    if (known.open) known.ontoggle();
    return known;
  }
  const [facts, parts] = [make("div"), make("div")];
  const place = make("details", { className: "clause" },
    make("summary", {}, make("span", {}, `More about ${unit.id}`)), facts, parts);
  place.ontoggle = () => place.open && fill(unit, facts, parts);
  places.set(unit.id, place);
  return place;
}
