// Rig: its own facts, the way of the sound, songs, and findings that are lived with.

import { openClauses, showClauses } from "./facts.js";
import { say } from "./frame.js";
import { make, pick } from "./make.js";
import { act, ask, edit, follow, remove } from "./rig.js";

const doing = {
  fact: (address, text) => act("fact", { address, text }),
  add: (address, list, texts) => act("add-fact", { address, list, texts }),
  drop: (address) => edit(remove(address)),
  move: (address, by) => act("move-fact", { address, by }),
};

function show(view) {
  showClauses(pick("facts"), view.clauses.map((one) => ({ ...one, is_fixed: one.key === "rig" })), doing);
  pick("presets").replaceChildren(...view.presets.map((one) => make("li", {}, `${one.number} ${one.name}`)));
  document.body.dataset.loaded = "yes";
}

const load = () => ask("whole").then(show, (trouble) => say(trouble.message, true));

openClauses("rig", "audio", "song");
follow((_status, changed) => changed && load());
load();
