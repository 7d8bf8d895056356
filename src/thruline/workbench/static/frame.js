// What stands around every page: the proof, findings with their mends, undo, the look.

import { arrange, make, pick } from "./make.js";
import { PAGE, act, add, edit, follow, isAway, now, post, refresh } from "./rig.js";

const LOOK = "thruline-look";
const SHOWN_AT_FIRST = 12;
let isAll = false;
let chosen = "";

export function say(text, isBad = false) {
  const said = pick("said");
  said.className = isBad ? "bad" : "";
  said.textContent = text;
}

function effectInWords(effect) {
  if (!effect) return "";
  const told = (word, list) =>
    list.length ? `${word}: ${list.length === 1 ? list[0] : `${list.length} findings`}.` : "";
  return [told("Gone", effect.gone), told("New", effect.new)].filter(Boolean).join(" ");
}

let asking = Promise.resolve();

// Whether the person wants theirs in place of what somebody else has put there.
function choose(trouble) {
  asking = asking.then(() => new Promise((answered) => {
    const dialog = pick("ask");
    const button = (word, what) => make("button", { type: "button", onclick: () => dialog.close(what) }, word);
    dialog.replaceChildren(
      make("h2", { id: "ask-title", tabIndex: -1, autofocus: true }, "This was changed meanwhile"), // a second Enter answers nothing
      make("p", {}, trouble.message),
      make("div", { className: "row" },
        button("Put mine in its place", "mine"), button("Leave what is there", "")));
    dialog.onclose = () => {
      dialog.onclose = null;
      answered(dialog.returnValue === "mine");
    };
    dialog.returnValue = "";
    dialog.showModal();
  }));
  return asking;
}

// Do something to the rig and say what came of it. Where two people met at one place, ask.
// Gives the new status; null when it is refused, and false when the person leaves what is there.
export async function attempt(deed, done = "") {
  try {
    const status = await deed();
    say([done, effectInWords(status.effect)].filter(Boolean).join(" "));
    return status;
  } catch (trouble) {
    say(trouble.message, true);
    if (!trouble.clashes) return null;
    await refresh().catch(() => {});
    if (await choose(trouble)) return attempt(deed, done);
    say("What is there stays.");
    return false;
  }
}

const concerns = (finding, address) =>
  finding.where.some((one) => one === address || one.startsWith(`${address}.`));

export const findingsAt = (address) => now().findings.filter((one) => concerns(one, address));

// Show what the proof found about one thing first, beside it.
export function showFindings(address) {
  chosen = address;
  showAside();
  pick("findings").focus();
}

// A button that stands beside a thing and says how much the proof found about it.
export function findingsMark(address) {
  const found = findingsAt(address);
  if (!found.length) return null;
  const worst = found[0].severity;
  const says = `${found.length} ${found.length === 1 ? "finding" : "findings"}`;
  return make("button", {
    type: "button", className: `found ${worst}`, title: found[0].says,
    onclick: () => showFindings(address),
  }, says);
}

// A finding that stands as before keeps its card, with whatever is open or typed on it.
const cards = new WeakMap();

function card(finding) {
  if (!cards.has(finding)) cards.set(finding, made(finding));
  return cards.get(finding);
}

function made(finding) {
  const mends = finding.mends.map((mend) =>
    make("li", {},
      make("button", {
        type: "button", className: "mend", title: mend.edits.join("\n"),
        onclick: () => attempt(() => act("mend", { finding: finding.id, mend: mend.says }), `${mend.says}.`),
      }, mend.says)));
  return make("article", { className: `card ${finding.severity}` },
    make("p", { className: "severity" }, finding.severity),
    make("h3", {}, finding.says),
    mends.length ? make("ul", { className: "mends" }, mends) : null,
    make("details", {},
      make("summary", {}, "Why"),
      make("p", {}, finding.why),
      make("dl", {}, finding.evidence.flatMap(([name, value]) =>
        [make("dt", {}, name), make("dd", {}, value)]))),
    livingWith(finding));
}

// A finding that the people concerned decide to live with, for a reason that stands in the rig.
function livingWith(finding) {
  const reason = make("input", { "aria-label": `Why we live with: ${finding.says}`, required: true,
    minLength: 3, maxLength: 300, placeholder: "such as: the player wants it so", autocomplete: "off" });
  const form = make("form", { className: "row" }, reason, make("button", {}, "Live with it"));
  form.onsubmit = (event) => {
    event.preventDefault();
    attempt(() => edit(add("accept", { finding: finding.id, reason: reason.value.trim() })), "Accepted, with its reason.");
  };
  return make("details", {}, make("summary", {}, "Live with it"), form);
}

function showAside() {
  const all = now().findings;
  const about = chosen ? all.filter((one) => concerns(one, chosen)) : [];
  const rest = all.filter((one) => !about.includes(one));
  const cut = isAll ? rest : rest.slice(0, SHOWN_AT_FIRST);
  const parts = [make("h2", {}, "What the proof found")];
  if (chosen) {
    parts.push(
      make("p", { className: "row" }, make("strong", {}, `About ${chosen}`),
        make("button", { type: "button", onclick: () => { chosen = ""; showAside(); } }, "Show all")),
      ...(about.length ? about.map(card) : [make("p", {}, "Nothing about this any more.")]),
      rest.length ? make("h2", {}, "Elsewhere") : "");
  }
  if (!all.length) parts.push(make("p", { className: lookOf(now()) }, verdictOf(now())));
  parts.push(...cut.map(card));
  if (cut.length < rest.length) {
    parts.push(make("button", { type: "button", onclick: () => { isAll = true; showAside(); } },
      `Show ${rest.length - cut.length} more`));
  }
  if (now().untold.length) {
    parts.push(make("details", {}, make("summary", {}, `${now().untold.length} ${now().untold.length === 1 ? "thing" : "things"} cannot be told`),
      make("ul", {}, now().untold.map((one) => make("li", {}, `${one.says} (${one.lacks})`)))));
  }
  if (now().accepted.length) {
    parts.push(make("details", {}, make("summary", {}, `${now().accepted.length} accepted`),
      make("ul", {}, now().accepted.map((one) => make("li", {}, `${one.says} — ${one.reason}`)))));
  }
  const aside = pick("findings");
  const at = [...aside.children].findIndex((one) => one.contains(document.activeElement));
  arrange(aside, parts.filter(Boolean));
  if (at >= 0 && !aside.contains(document.activeElement)) focusNear(aside, at);
}

// What had the focus is gone: it goes on to what stands there now, or to the one before.
function focusNear(aside, at) {
  const next = aside.children[Math.min(at, aside.children.length - 1)] ?? aside;
  next.tabIndex = -1; // the card, and no button on it: a second Enter does nothing
  next.focus();
}

// Green stands for what is proved, and only where nothing is left untold.
function lookOf(status) {
  if (status.faults) return "fault";
  return status.verdict.endsWith("so far") ? "" : "proved";
}

// As the command says it, with what was looked at, and what the rig does not describe.
function verdictOf({ verdict, says, proved, silent }) {
  const first = `${verdict === "proved" ? "✓ " : ""}${verdict[0].toUpperCase()}${verdict.slice(1)}`;
  return `${first}: ${says}; ${[proved, silent].filter(Boolean).join("; ")}.`;
}

function showStatus(status) {
  const proof = pick("proof");
  proof.className = `proof ${lookOf(status)}`;
  const took = status.ms ? ` in ${status.ms} ms` : "";
  proof.replaceChildren(make("strong", {}, status.says), make("span", {}, ` · ${status.proved}${took}${status.silent ? `; ${status.silent}` : ""}`));
  pick("undo").disabled = !status.can_undo;
  pick("redo").disabled = !status.can_redo;
  const broken = pick("broken");
  const troubles = [status.unreadable, ...status.charts_lost].filter(Boolean);
  broken.hidden = !troubles.length;
  broken.querySelector("p").textContent = troubles.join("\n");
  broken.querySelector("button").hidden = !status.unreadable;
  document.querySelector(".rig").textContent = status.rig;
  document.title = [document.querySelector("h1").textContent, status.rig, "thruline"].join(" · ");
  showAside();
}

async function letIn() {
  const dialog = pick("ask");
  const close = make("button", { type: "button", onclick: () => dialog.close() }, "Close");
  try {
    const told = await post("/link", {});
    const code = new DOMParser().parseFromString(told.code, "image/svg+xml").documentElement;
    code.setAttribute("role", "img");
    code.setAttribute("aria-label", "The same link as a code to photograph");
    dialog.replaceChildren(
      make("h2", { id: "ask-title" }, "Let a telephone in"),
      make("p", {}, `Photograph this with the telephone. It works once, for ${told.minutes} minutes, on this network.`),
      document.importNode(code, true),
      make("p", {}, make("code", {}, told.link)), close);
  } catch (trouble) {
    dialog.replaceChildren(make("h2", { id: "ask-title" }, "Let a telephone in"),
      make("p", {}, trouble.message), close);
  }
  dialog.showModal();
}

function setLook(look) {
  if (look) document.documentElement.dataset.look = look;
  const isDark = look ? look === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  pick("look").setAttribute("aria-pressed", String(isDark));
}

const KEYS = { z: "undo", y: "redo" };

document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  if (event.target.closest("input, textarea, select")) return;
  const deed = event.shiftKey && event.key.toLowerCase() === "z" ? "redo" : KEYS[event.key.toLowerCase()];
  if (!deed) return;
  event.preventDefault();
  pick(deed).click();
});

pick("undo").onclick = () => attempt(() => act("undo"), "Undone.");
pick("redo").onclick = () => attempt(() => act("redo"), "Done again.");
pick("proof").onclick = () => { chosen = ""; showAside(); pick("findings").focus(); };
pick("broken").querySelector("button").onclick = () =>
  attempt(() => act("restore", { revision: now().revision }), "Put back; what the file held is kept among the revisions.");
if (pick("device")) pick("device").onclick = letIn;
pick("look").onclick = () => {
  const look = pick("look").getAttribute("aria-pressed") === "true" ? "light" : "dark";
  localStorage.setItem(LOOK, look);
  setLook(look);
};
document.addEventListener("reach", (event) => {
  pick("away").hidden = event.detail;
  if (event.detail && isAway(pick("said").textContent)) say("");
});

// Where the links of the pages stand in one row, the one of this page is in sight.
function showLink() {
  const link = document.querySelector("nav [aria-current]");
  const list = link.closest("ul");
  list.scrollLeft += link.getBoundingClientRect().left - list.getBoundingClientRect().left - (list.clientWidth - link.offsetWidth) / 2;
}

addEventListener("resize", showLink);
showLink();
setLook(localStorage.getItem(LOOK));
follow(showStatus);
showStatus(now());
document.body.dataset.ready = PAGE;
