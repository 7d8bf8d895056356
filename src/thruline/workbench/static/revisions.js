// Revisions: every saved state, named, compared with what is on the desk, and restored.

import { attempt, say } from "./frame.js";
import { make, pick } from "./make.js";
import { act, ask, follow } from "./rig.js";

let old = "";
let chart = new URLSearchParams(location.search).get("chart") ?? ""; // none: the rig itself

const deed = (word, asked) => (chart ? act(`${word}-chart`, { chart, ...asked }) : act(word, asked));

const two = (number) => String(number).padStart(2, "0");
function when(at) {
  const day = new Date(at);
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())} ${two(day.getHours())}:${two(day.getMinutes())}:${two(day.getSeconds())}`;
}

function nameField(one) {
  const field = make("input", { value: one.name, size: 14, maxLength: 80, autocomplete: "off", placeholder: "as delivered", "aria-label": `Name of revision ${one.number}` });
  field.onchange = () => attempt(() => deed("name", { revision: one.number, name: field.value }), field.value.trim() ? "Named." : "It has no name any more.").then(load);
  return field;
}

function row(one) {
  const button = (words, deed) => make("button", { type: "button", "aria-label": `${words} revision ${one.number}`, onclick: deed }, words);
  return make("tr", { className: one.is_now ? "now" : "" },
    make("td", {}, one.number), make("td", { className: "when" }, when(one.at)),
    make("td", {}, one.says, one.is_now ? make("strong", {}, " (as it is now)") : ""), make("td", {}, nameField(one)),
    make("td", {}, make("div", { className: "row" }, one.is_now ? null : [
      button("Compare", () => { old = String(one.number); load().then(() => pick("compared").scrollIntoView()); }),
      one.cause === "unreadable" ? null : button("Restore", () => attempt(() => deed("restore", { revision: one.number }), `Revision ${one.number} is back.`))])));
}

function showCompared(told) {
  pick("compared").hidden = !told;
  if (!told) return;
  pick("compared").querySelector("h2").textContent = `Since revision ${told.old}`;
  const effect = [...told.gone.map((one) => `Gone: ${one}`), ...told.new.map((one) => `New: ${one}`)];
  if (told.unusable) effect.push(`That revision cannot be used: ${told.unusable}`);
  pick("effect").replaceChildren(...(effect.length ? effect : ["The proof finds the same in both."]).map((one) => make("li", {}, one)));
  const kinds = { "+": "added", "-": "dropped", "@": "quiet" };
  pick("compared").querySelector("pre").replaceChildren(...(told.rows.length ? told.rows : [" Nothing has changed."]).map((one) =>
    make("span", { className: kinds[one[0]] ?? "" }, `${one}\n`)));
}

async function load() {
  try {
    const view = await ask("revisions", { with: old, chart });
    pick("of").replaceChildren(make("option", { value: "", selected: !chart }, "the rig"),
      ...view.charts.map((one) => make("option", { value: one, selected: one === chart }, `the chart ${one}`)));
    pick("choose").hidden = !view.charts.length;
    pick("none").hidden = view.revisions.length > 0;
    pick("revisions").tBodies[0].replaceChildren(...view.revisions.map(row));
    showCompared(view.compared);
    document.body.dataset.loaded = "yes";
  } catch (trouble) {
    say(trouble.message, true);
  }
}

pick("of").onchange = () => {
  [chart, old] = [pick("of").value, ""];
  history.replaceState(null, "", chart ? `?chart=${encodeURIComponent(chart)}` : location.pathname);
  load();
};

follow((_status, changed) => changed && load());
load();
