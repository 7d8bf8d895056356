// What is written of a preset beside its cells: its number, remarks, what the memory really holds.

import { showFacts } from "./facts.js";
import { say } from "./frame.js";
import { pick } from "./make.js";
import { act, ask } from "./rig.js";

let label = null;
let shown = null;

function doing(renumbered) {
  return {
    fact: async (address, text) => {
      if (!address.endsWith(".number")) return act("fact", { address, text });
      const preset = label;
      const told = await act("renumber-preset", { preset, text });
      renumbered();
      return told;
    },
  };
}

// Show the facts of the preset of this label, if the place for them is open. `mark` tells of which
// state they are; `renumbered` is called when the preset is called otherwise from now on.
export async function showMore(next, mark, renumbered) {
  label = next;
  pick("more-title").textContent = next === null ? "More about this preset" : `More about preset ${next}`;
  pick("more").hidden = next === null;
  if (next === null || !pick("more").open || shown === `${mark} ${next}`) return;
  shown = `${mark} ${next}`;
  try {
    const { preset } = await ask("presets", { about: next });
    if (label === next) showFacts(pick("facts"), preset.facts, `preset ${next}`, doing(renumbered));
  } catch (trouble) {
    shown = null;
    say(trouble.message, true);
  }
}
