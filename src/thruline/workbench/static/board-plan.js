// Plans on the Board page: worked out when asked for, shown as edits, applied or dropped, undone.

import { attempt, say } from "./frame.js";
import { make, pick } from "./make.js";
import { act, ask, follow, now } from "./rig.js";

const NAMES = { channels: "The channels", power: "The power", cables: "The cables" };
const place = pick("plan");
let plan = null; // what is shown, and for which revision it was worked out
let asked = {};
let appliedAt = 0; // the revision that applying it has made; 0 while it is not applied
let isStanding = false; // whether it is applied, and was not taken back since
let isBusy = false; // while a deed is under way nothing is said of where the rig stands
let waiting = new AbortController(); // of several that are asked for the last one counts, the others are given up

const isFresh = () => now().revision === plan.revision;
const isLast = () => now().revision === appliedAt;

// Later edits leave what was applied where it is; only who goes back before it takes it back.
function isApplied() {
  if (isLast()) isStanding = true;
  else if (now().revision < appliedAt) isStanding = false;
  return isStanding;
}

function wishes(form) {
  const given = Object.fromEntries([...new FormData(form)].map(([key, value]) => [key, value.trim()]));
  if (form.elements.chains && !form.elements.chains.checked) given.chains = "no";
  return { plan: form.dataset.plan, ...given };
}

async function work(wish) {
  waiting.abort();
  const mine = waiting = new AbortController();
  [plan, asked, appliedAt, isStanding] = [null, wish, 0, false];
  place.hidden = false;
  place.setAttribute("aria-busy", "true");
  place.replaceChildren(make("h2", { id: "plan-title" }, NAMES[wish.plan]),
    make("p", { role: "status" }, "Working it out…"), make("button", { type: "button", onclick: drop }, "Stop waiting"));
  place.scrollIntoView({ block: "nearest" });
  try {
    const found = await ask("plan", wish, mine.signal);
    if (mine !== waiting) return;
    plan = found;
    show();
    place.focus({ preventScroll: true });
    place.scrollIntoView({ block: "start" });
    say(`${NAMES[wish.plan]}: ${plan.says}.`);
  } catch (trouble) {
    if (mine !== waiting) return;
    drop();
    say(trouble.message, true);
  }
  place.removeAttribute("aria-busy");
}

function drop() {
  waiting.abort();
  waiting = new AbortController();
  plan = null;
  const form = document.querySelector(`[data-plan="${asked.plan}"] button`);
  place.hidden = true;
  place.replaceChildren();
  delete document.body.dataset.plan;
  form?.focus();
}

async function doing(deed, done) {
  if (isBusy) return null;
  isBusy = true;
  const status = await attempt(deed, done);
  isBusy = false;
  return status;
}

async function apply() {
  const { edits, revision } = plan;
  const status = await doing(() => act("plan", { plan: asked.plan, edits, seen: revision }), "Applied; Undo takes it back.");
  if (status) appliedAt = status.revision;
  if (plan) showState();
}

async function takeBack() {
  await doing(() => act("undo"), "Undone; the document is as it was.");
  if (plan) showState();
}

const button = (says, onclick, isOff = false) => make("button", { type: "button", onclick, disabled: isOff }, says);

// What may be done with the plan now: it depends on where the rig stands.
function showState() {
  const [row, told] = [place.querySelector(".deeds"), place.querySelector(".state")];
  if (!row) return;
  const again = button("Work it out again", () => work(asked));
  const hadFocus = row.contains(document.activeElement);
  const state = isApplied() ? "applied" : isFresh() ? "shown" : "past";
  document.body.dataset.plan = state;
  told.className = `state ${state}`;
  if (state === "past") {
    told.textContent = "The rig was changed since this was worked out, so it cannot be applied any more.";
    row.replaceChildren(again, button("Put it away", drop));
  } else if (state === "applied") {
    told.textContent = ["Applied: it stands in the document. Keep the lists below for the work by hand.",
      isLast() ? "" : "The rig was changed since: Undo takes that back first, and then this plan."].filter(Boolean).join(" ");
    row.replaceChildren(...(isLast() ? [button("Undo this plan", takeBack, !now().can_undo)] : [again]), button("Put it away", drop));
  } else if (plan.edits.length) {
    told.textContent = "Nothing is written yet.";
    row.replaceChildren(make("button", { type: "button", className: "strong", onclick: apply }, `Apply ${counted(plan.edits.length, "edit", "edits")}`),
      button("Drop it", drop));
  } else {
    told.textContent = plan.clash.length ? "There is nothing to apply." : "Nothing has to change in the document.";
    row.replaceChildren(button("Put it away", drop));
  }
  if (hadFocus) row.querySelector("button")?.focus();
}

const counted = (count, one, many) => `${count} ${count === 1 ? one : many}`;

function table(label, head, rows) {
  return make("div", { className: "scroll", tabIndex: 0, role: "group", "aria-label": label },
    make("table", {}, make("thead", {}, make("tr", {}, head.map((one) => make("th", { scope: "col" }, one || make("span", { className: "unseen" }, "more"))))),
      make("tbody", {}, rows.map((row) => make("tr", {}, row.map((cell) => make("td", {}, cell)))))));
}

function list(title, says) {
  return says.length ? [make("h4", {}, title), make("ul", {}, says.map((one) => make("li", {}, one)))] : [];
}

function changes() {
  if (!plan.changes.length) return [];
  return [
    make("h3", {}, "What changes in the document"),
    table("What changes in the document", ["where", "now", "then", "why"], plan.changes.map((one) => [
      make("span", {}, make("code", {}, one.address), one.row ? make("span", { className: "quiet" }, ` row ${one.row}`) : ""),
      one.do === "add" ? "nothing" : one.was, one.do === "remove" ? "taken away" : one.becomes, one.why])),
    make("details", {}, make("summary", {}, "As rows of the document"),
      make("pre", { className: "rows", tabIndex: 0, "aria-label": "Rows of the document" }, plan.diff.map((row) =>
        make("span", { className: row.startsWith("+") ? "added" : row.startsWith("-") ? "dropped" : "" }, `${row}\n`)))),
    make("p", {}, make("strong", {}, "The proof: "), `${plan.effect}.`),
    ...list("Gone with it", plan.gone), ...list("New with it", plan.new),
  ];
}

function sections() {
  return plan.sections.flatMap((one) => {
    const inside = [...one.says.map((says) => make("p", {}, says)),
      one.rows.length ? table(one.title, one.head, one.rows) : "", ...one.notes.map((note) => make("p", { className: "hint" }, note))];
    const isLong = one.title.startsWith("Wiring");
    return isLong ? [make("details", {}, make("summary", {}, one.title), inside)] : [make("h3", {}, one.title), ...inside];
  });
}

function show() {
  const verdict = plan.proved === true ? "✓ " : "";
  place.replaceChildren(...[
    make("h2", { id: "plan-title" }, NAMES[plan.plan]),
    make("p", { className: plan.whole ? "sum" : "sum fault" }, `${plan.whole ? "" : "✕ "}${plan.says[0].toUpperCase()}${plan.says.slice(1)}.`),
    plan.clash.length ? make("p", {}, make("strong", {}, "The smallest clash: "), `${plan.clash.join(", ")}. Let go of a wish, or lead one of them over another line.`) : "",
    make("p", { className: plan.proved ? "proved" : "" }, verdict, plan.verdict),
    plan.cautions.length ? make("div", { className: "caution" }, make("strong", {}, "Caution"), plan.cautions.map((one) => make("p", {}, one))) : "",
    make("p", { className: "state", role: "status" }), make("div", { className: "row deeds" }),
    ...changes(), ...sections(),
  ].filter(Boolean));
  showState();
}

for (const form of document.querySelectorAll("[data-plan]")) {
  form.onsubmit = (event) => {
    event.preventDefault();
    work(wishes(form));
  };
}
follow(() => plan && !isBusy && showState());
