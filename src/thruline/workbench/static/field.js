// Fields whose text goes into the document when they are left or Enter is pressed.

import { make } from "./make.js";
import { drawnFrom, isOut, since } from "./rig.js";

// What is typed and not in the document yet, by the label of its field: it stays when the page is
// drawn anew, and is known with the revision on which it was begun.
const drafts = new Map();

let isDrawing = false;

// A browser takes a field that is drawn away for one that was left; what is typed there is not done.
export function drawing(draw) {
  isDrawing = true;
  draw();
  isDrawing = false;
}

// What is to be done when a field is left, unless it is drawn away.
export const whenLeft = (work) => (event) => { if (!isDrawing) work(event); };

export const isDrafted = (label) => drafts.has(label) && !drafts.get(label).isSent;

const shownAs = (label) => document.querySelector(`main [aria-label="${CSS.escape(label)}"]`);

// `changed` is given the text; it gives the new status, null where the text is refused, and false
// where the person leaves what is there.
export function field(label, value, changed, more = {}) {
  const stored = String(value ?? "");
  if (drafts.get(label)?.text.trim() === stored) drafts.delete(label);
  const draft = drafts.get(label);
  const seen = draft?.seen ?? drawnFrom();
  const made = make("input", { value: draft?.text ?? stored, "aria-label": label, autocomplete: "off",
    "data-stored": stored, "aria-invalid": draft?.isRefused ? "true" : null, ...more });

  async function commit(text) {
    const last = drafts.get(label);
    if (last?.isSent && last.text === text) return; // Enter, and the change that it makes
    const mine = { text, seen, isSent: true };
    drafts.set(label, mine);
    const told = await since(seen, () => changed(text.trim()));
    if (drafts.get(label) !== mine) return;
    const shown = shownAs(label);
    if (told === null) {
      Object.assign(mine, { isSent: false, isRefused: true });
      if (isOut()) mine.again = () => commit(text);
      shown?.setAttribute("aria-invalid", "true");
      return;
    }
    drafts.delete(label);
    shown?.removeAttribute("aria-invalid");
    if (told === false && shown) shown.value = shown.dataset.stored;
  }

  const isTyped = () => isDrafted(label) && !drafts.get(label).isRefused;
  made.oninput = () => drafts.set(label, { text: made.value, seen });
  made.onchange = whenLeft(() => commit(made.value));
  // A field that was drawn anew while it was typed into tells of no change when it is left.
  made.onblur = whenLeft((event) => { if (event.relatedTarget && isTyped()) commit(made.value); });
  made.onkeydown = (event) => {
    if (event.key === "Enter" && isTyped()) commit(made.value);
    if (event.key !== "Escape" || !drafts.delete(label)) return;
    made.value = stored;
    made.removeAttribute("aria-invalid");
  };
  return made;
}

const unkept = new Set(); // choices that were made while nobody answered

// What is to be done when something else is chosen. Where it is refused it is marked, and where nobody
// answers it is made when the workbench is back.
export function whenChosen(changed) {
  const seen = drawnFrom();
  return async (event) => {
    const select = event.target;
    const deed = async () => {
      const told = await since(seen, () => changed(select));
      if (told === null) select.setAttribute("aria-invalid", "true");
      if (told === null && isOut()) unkept.add(deed);
    };
    await deed();
  };
}

// Draw anew; the focus stays on what is called as before, and the place in its text.
export function keepFocus(draw) {
  const had = document.activeElement;
  const label = had?.getAttribute?.("aria-label");
  const marked = [had?.selectionStart, had?.selectionEnd];
  drawing(draw);
  if (!label || had.isConnected) return;
  const found = shownAs(label);
  found?.focus({ preventScroll: true });
  if (Number.isInteger(marked[0])) found?.setSelectionRange?.(...marked);
}

document.addEventListener("reach", (event) => {
  if (!event.detail) return;
  for (const one of [...drafts.values()]) one.again?.();
  for (const deed of [...unkept]) {
    unkept.delete(deed);
    deed();
  }
});
