// Rig: its own facts, the way of the sound, songs, and findings that are lived with.

import { openClauses, showClauses } from "./facts.js";
import { say } from "./frame.js";
import { make, pick } from "./make.js";
import { act, ask, edit, follow, now, remove } from "./rig.js";

const doing = {
  fact: (address, text) => act("fact", { address, text }),
  add: (address, list, texts) => act("add-fact", { address, list, texts }),
  drop: (address) => edit(remove(address)),
  move: (address, by) => act("move-fact", { address, by }),
};

// A finding to be lived with is chosen from those that there are.
function offering(clause) {
  if (clause.key !== "accept") return clause;
  const offers = now().findings.map((one) => ({ value: one.id, says: one.says }));
  return { ...clause, blank: clause.blank.map((one) => (one.key === "finding" ? { ...one, offers } : one)) };
}

function show(view) {
  showClauses(pick("facts"), view.clauses.map((one) => ({ ...offering(one), is_fixed: one.key === "rig" })), doing);
  pick("presets").replaceChildren(...view.presets.map((one) => make("li", {}, `${one.number} ${one.name}`)));
  document.body.dataset.loaded = "yes";
}

const load = () => ask("whole").then(show, (trouble) => say(trouble.message, true));

openClauses("rig", "audio", "song");
follow((_status, changed) => changed && load());
load();
