// Find: one question at a time, and what follows from its answer.

import { attempt, say } from "./frame.js";
import { make, pick } from "./make.js";
import { HERE, act, ask, follow, now } from "./rig.js";

const PERCENT = 100;
const MOST_KEYS = 9;
let view = null;
let isBusy = false;
let wantsFocus = false;
const linked = new URLSearchParams(location.hash.slice(1));  // the Bench page names what it heard

const percent = (share) => (share >= 0.01 ? `${Math.round(share * PERCENT)} %` : "under 1 %");

async function doing(deed, asked, done = "") {
  if (isBusy) return;
  isBusy = true;
  pick("working").hidden = false;
  wantsFocus = true;
  const status = await attempt(() => act(deed, asked), done);
  if (status === null) { wantsFocus = false; await load(); }
}

const steps = () => view.search.steps.length;
const answer = (text, check) => doing("find-answer", { answer: text, steps: steps(), ...(check ? { check } : {}) });

const big = (says, onclick, facts = {}) => make("button", { type: "button", className: "big", onclick, ...facts }, says);

function keyed(number) {
  return number <= MOST_KEYS ? make("kbd", {}, String(number)) : null;
}

// Units that are not right are marked, then sent together.
function glance(check, sent) {
  const marks = check.units.map((id, place) => make("label", { className: "big" },
    make("input", { type: "checkbox", value: id, "data-key": String(place + 1) }), view.names[id] ?? id));
  const chosen = () => marks.map((one) => one.firstChild).filter((one) => one.checked).map((one) => one.value);
  const send = big("", () => sent(chosen().join(",") || "none"), { className: "big strong" });
  const tell = () => {
    const count = chosen().length;
    send.textContent = count ? `${count === 1 ? "This one is" : `These ${count} are`} not right` : "All are right";
  };
  for (const one of marks) one.onchange = tell;
  tell();
  return [make("div", { className: "answers" }, marks), send];
}

function answersTo(check, again) {
  const sent = (text) => answer(text, again ? check.id : undefined);
  const known = check.kind === "glance" ? glance(check, sent)
    : [make("div", { className: "answers" }, check.answers.map((one, place) =>
      big([keyed(place + 1), one.says].filter(Boolean), () => sent(one.id), { "data-key": again ? undefined : String(place + 1) })))];
  for (const one of known) one.querySelectorAll?.("button").forEach((each) => { each.normalize(); });
  return [...known, make("div", { className: "answers lesser" },
    big("Not sure", () => sent("not sure"), { "data-key": again ? undefined : "n" }),
    big("Cannot do that here", () => sent("cannot"), { "data-key": again ? undefined : "c" }))];
}

function question(check) {
  return [
    make("h2", { id: "asks", className: "asks" }, check.asks),
    check.caution ? make("p", { className: "caution" }, make("strong", {}, "Caution: "), check.caution) : null,
    make("p", { className: "quiet" }, `Takes about ${view.check_takes}.`,
      view.asked_again ? ` ${view.asked_again[0].toUpperCase()}${view.asked_again.slice(1)}.` : ""),
    ...answersTo(check, false),
  ];
}

function mending(mend) {
  const edits = view.mend_edits.map((one) => make("div", { className: "inrig" },
    make("p", {}, `The document itself is amiss here: ${one.about}`),
    big(one.says, () => attempt(() => act("mend", { finding: one.finding, mend: one.says }), `${one.says}.`))));
  return [
    make("p", { className: "quiet" }, view.says),
    make("h2", { id: "asks", className: "asks" }, `Mend it: ${mend.mend}`),
    mend.because.length ? make("details", {}, make("summary", {}, "What speaks for it"),
      make("ul", {}, mend.because.map((one) => make("li", {}, one)))) : null,
    ...edits,
    view.confirm ? make("p", {}, make("strong", {}, "Then, to be sure: "), view.confirm.asks) : null,
    view.confirm?.caution ? make("p", { className: "caution" }, view.confirm.caution) : null,
    big("It is mended", () => answer("mended"), { className: "big strong", "data-key": "m" }),
  ];
}

function recordText() {
  const told = [view.rig, view.says, "", ...view.record, "", "Suspects:",
    ...view.suspects.slice(0, 5).map((one) => `${percent(one.likely)}  ${one.says}`)];
  return told.join("\n");
}

async function copy(text) {
  try {
    await navigator.clipboard.writeText(text);
    say("The record is copied.");
  } catch {
    say("This browser does not let it be copied; mark the record and copy it by hand.", true);
  }
}

function ending() {
  const isGood = ["works", "nothing-found"].includes(view.state);
  const text = recordText();
  const file = URL.createObjectURL(new Blob([text], { type: "text/plain" }));
  return [
    make("h2", { id: "asks", className: `asks${isGood ? " proved" : ""}` }, `${isGood ? "✓ " : ""}${view.says}`),
    make("h3", {}, "The record"),
    make("pre", { className: "rows", tabIndex: 0, "aria-label": "The record of this search" }, text),
    make("div", { className: "row" }, make("button", { type: "button", onclick: () => copy(text) }, "Copy the record"),
      make("a", { href: file, download: "search.txt" }, "Save it as a file")),
    big("Put this search away", () => doing("find-end", {}, "Put away.")),
  ];
}

function showDoubt() {
  pick("doubt").hidden = !view.doubt;
  if (!view.doubt) return;
  const isNew = view.doubt.startsWith("these");  // told in full once, in short as long as it stays
  pick("doubt").replaceChildren(
    make("h2", {}, isNew ? "These answers contradict each other" : `Answer ${view.doubtful + 1} still contradicts the others`),
    isNew ? make("p", {}, `The least trustworthy is number ${view.doubtful + 1}: ${view.steps[view.doubtful]}. Try that again.`) : "",
    make("details", {}, make("summary", {}, "Answer it again"), make("p", {}, view.again.asks),
      view.again.caution ? make("p", { className: "caution" }, view.again.caution) : "", ...answersTo(view.again, true)),
    make("button", { type: "button", onclick: () => without(view.doubtful) }, `Take answer ${view.doubtful + 1} back`));
}

const without = (place) => doing("find-without", { step: place, steps: steps() }, "Taken back.");

function showSuspects() {
  const rows = [...view.suspects,
    { says: "nothing is wrong", likely: view.nothing_wrong },
    { says: "something that is not among the suspects", likely: view.something_else },
    { says: "two of these at once (counted in above)", likely: view.two_at_once }];
  rows.sort((one, other) => other.likely - one.likely);
  pick("suspects").replaceChildren(...rows.filter((one, place) => place < 3 || one.likely >= 0.01).slice(0, 8).map((one) =>
    make("li", {}, make("span", { className: "odds" }, percent(one.likely)),
      make("meter", { min: 0, max: 1, value: one.likely, "aria-label": `${one.says}: ${percent(one.likely)}` }),
      make("span", {}, one.says))));
}

function showSteps() {
  const last = view.steps.length - 1;
  pick("steps").replaceChildren(...view.steps.map((says, place) => make("li", {}, says, " ",
    make("button", { type: "button", onclick: () => without(place), "aria-label": `Take back answer ${place + 1}`,
      "data-key": place === last ? "b" : undefined }, "Take back"))));
  if (!view.steps.length) pick("steps").replaceChildren(make("li", { className: "quiet" }, "Nothing yet."));
}

// Captures that an audit may begin with; the one that the Bench page named is chosen.
function showHeard() {
  const before = pick("heard").value || linked.get("heard");
  pick("from-audit").hidden = !view.captures.length;
  pick("heard").replaceChildren(make("option", { value: "" }, "nothing"), ...view.captures.map((one) => make("option", { value: one }, one)));
  if (view.captures.includes(before)) pick("heard").value = before;
}

function begunBy() {
  const told = [view.from_audit && `the audit of ${view.from_audit}`, view.from_proof && "the proof"].filter(Boolean);
  pick("begun-by").hidden = !told.length;
  pick("begun-by").textContent = `Suspected first: what ${told.join(" and ")} found.`;
}

function showSearch() {
  begunBy();
  pick("dropped").hidden = !view.dropped;
  pick("dropped").textContent = `The rig was changed since: ${view.dropped} of the answers no longer fit it and are left out.`;
  showDoubt();
  const isTold = Boolean(view.search.steps.at(-1)?.said);  // until the next answer
  pick("understood").hidden = !isTold;
  pick("understood").replaceChildren(make("p", {}, isTold ? view.understood.at(-1) : ""),
    make("p", { className: "quiet" }, "Not what you meant? Take it back below, under what was answered, and tell it in other words."));
  const parts = view.mend && view.state === "mend" ? mending(view.mend) : view.check ? question(view.check) : ending();
  pick("asked").replaceChildren(...parts.filter(Boolean));
  pick("left").textContent = [view.is_end ? "" : view.state === "check" ? `About ${view.left} of checks still expected.` : "",
    view.seconds_spent ? `Spent so far: ${view.spent}.` : ""].filter(Boolean).join(" ");
  pick("fallen").hidden = !view.ruled_out.length;
  pick("fallen").querySelector("ul").replaceChildren(...view.ruled_out.map((one) => make("li", {}, one)));
  showSuspects();
  showSteps();
  pick("place").value = view.search.place;
}

function show(next) {
  view = next;
  isBusy = false;
  pick("working").hidden = true;
  pick("begin").hidden = view.begun;
  pick("search").hidden = !view.begun;
  if (view.begun) showSearch();
  else {
    pick("example").textContent = view.units.at(0)?.id ?? "delay";
    showHeard();
  }
  if (wantsFocus && view.begun) { pick("asked").focus({ preventScroll: true }); pick("asked").scrollIntoView({ block: "nearest" }); }
  wantsFocus = false;
  document.body.dataset.steps = view.begun ? String(view.search.steps.length) : "none";
  document.body.dataset.loaded = "yes";
}

const load = () => ask("find").then(show, (trouble) => {
  isBusy = false;
  pick("working").hidden = true;
  say(trouble.message, true);
});

async function showCard() {
  const place = pick("card").querySelector("div");
  if (!pick("card").open) return;
  place.replaceChildren(make("p", { className: "hint" }, "Working it out…"));
  try {
    const { card } = await ask("find", { card: "1" });
    place.replaceChildren(...card.map((entry) => make("section", { id: `entry-${entry.number}`, className: "entry" },
      make("h3", {}, `${entry.number}. ${entry.asks}`),
      entry.caution ? make("p", { className: "caution" }, entry.caution) : "",
      make("ul", {}, entry.branches.map((one) => make("li", {}, `${one.answer}: `,
        one.goes_to ? make("a", { href: `#entry-${one.goes_to}` }, `go to ${one.goes_to}`) : one.do.join("; or ")))))));
  } catch (trouble) {
    place.replaceChildren(make("p", { className: "bad" }, trouble.message));
  }
}

pick("begin").onsubmit = (event) => {
  event.preventDefault();
  const place = pick("begin").querySelector("[name=place]:checked").value;
  const words = pick("symptom").value.trim();
  doing("find-begin", { place, symptoms: words ? [words] : [], from_proof: pick("from-proof").checked,
    from_capture: pick("heard").value, ...(linked.get("at") ? { at: linked.get("at") } : {}) });
};
pick("more").onsubmit = async (event) => {
  event.preventDefault();
  const words = pick("seen").value.trim();
  if (!words) return;
  await doing("find-symptom", { symptom: words, steps: steps() });
  pick("seen").value = "";
};
pick("place").onchange = () => doing("find-place", { place: pick("place").value });
for (const [link, form] of [["read", "html"], ["print", "pdf"], ["text", "md"]]) pick(`${link}-record`).href = `${HERE}/find/record.${form}`;
pick("end").onclick = () => doing("find-end", {}, "Put away.");
pick("card").ontoggle = showCard;

// One key for each answer, as it is written on its button.
document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || pick("ask").open) return;
  if (event.target.closest("input:not([type=checkbox]), select, textarea")) return;
  const named = document.querySelector(`#search [data-key="${CSS.escape(event.key.toLowerCase())}"]`);
  if (!named) return;
  event.preventDefault();
  named.click();
});

follow((status, changed) => {
  const count = status.findings.length;
  pick("proof-count").textContent = `(${count} ${count === 1 ? "finding" : "findings"})`;
  if (changed) load();
});
pick("proof-count").textContent = `(${now().findings.length})`;
load();
