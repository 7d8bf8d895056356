// Charts: one model of unit fact by fact, what is wrong with its chart and what it lacks.

import { forget, goTo, showClauses } from "./facts.js";
import { attempt, say } from "./frame.js";
import { make, pick } from "./make.js";
import { HERE, act, ask, begunOn, follow } from "./rig.js";

let chosen = new URLSearchParams(location.search).get("chart") ?? "";
let asking = 0;
let revision = 1;
const copying = { of: "", form: null };

// What somebody else has put into the chart meanwhile is not overwritten: it is shown, then asked about.
async function change(deed, asked) {
  try {
    return await act(deed, { chart: chosen, chart_seen: begunOn() ?? revision, ...asked });
  } catch (trouble) {
    if (trouble.clashes) await load();
    throw trouble;
  }
}

const doing = {
  seen: () => revision,
  fact: (address, text) => change("chart-fact", { address, text }),
  add: (address, list, texts) => change("add-chart-fact", { address, list, texts }),
  drop: (address) => change("drop-chart-fact", { address }),
  move: (address, by) => change("move-chart-fact", { address, by }),
};

function choose(id) {
  chosen = id;
  history.replaceState(null, "", `?chart=${encodeURIComponent(id)}`);
  forget();
  return load();
}

function copyForm(chart) {
  const id = make("input", { "aria-label": "Call the copy", value: chart.is_own ? `${chart.id}-2` : chart.id, autocomplete: "off" });
  const form = make("form", { className: "row", id: "copy" }, make("label", {}, "Call the copy ", id),
    make("button", {}, "Copy it beside the rig"));
  form.onsubmit = async (event) => {
    event.preventDefault();
    const wanted = id.value.trim();
    if (await attempt(() => act("copy-chart", { chart: chart.id, new: wanted }), "Copied.")) await choose(wanted);
    else id.setAttribute("aria-invalid", "true");
  };
  return form;
}

// The form stays while its chart does, with what is being typed into it.
function copyFormOf(chart) {
  const of = `${chart.id} ${chart.is_own}`;
  if (copying.of !== of) Object.assign(copying, { of, form: copyForm(chart) });
  return copying.form;
}

function stepButton(word, isBack, isOn) {
  return make("button", { type: "button", disabled: !isOn, "aria-label": `${word} in this chart`,
    onclick: () => attempt(() => act("step-chart", { chart: chosen, back: isBack })) }, `${word} in this chart`);
}

function takeAway(id) {
  const dialog = pick("ask");
  const go = async () => {
    dialog.close();
    if (await attempt(() => act("take-chart-away", { chart: id }), "Taken away.")) await choose("");
  };
  dialog.replaceChildren(
    make("h2", { id: "ask-title" }, `Take the chart “${id}” away`),
    make("p", {}, "Its file beside the rig is removed. Where a chart of the same id stands elsewhere, units that use it take that one."),
    make("div", { className: "row" },
      make("button", { type: "button", onclick: go }, "Take it away"),
      make("button", { type: "button", onclick: () => dialog.close() }, "Leave it")));
  dialog.showModal();
}

function about(chart) {
  const place = pick("about");
  const label = place.contains(document.activeElement) ? document.activeElement.getAttribute("aria-label") : null;
  place.replaceChildren(
    make("p", { className: "quiet" }, `${chart.file}, in ${chart.shelf}`),
    chart.is_own ? make("div", { className: "row" }, stepButton("Undo", true, chart.can_undo), stepButton("Redo", false, chart.can_redo),
      make("a", { href: `${HERE}/revisions?chart=${encodeURIComponent(chart.id)}` }, "Its revisions"),
      make("button", { type: "button", onclick: () => takeAway(chart.id) }, "Take it away"))
      : make("p", {}, "This chart is only read here. Copy it beside the rig to change it."),
    copyFormOf(chart),
    ...chart.problems.map((one) => make("p", { className: "reason" }, one.says)));
  if (!label) return;
  const field = place.querySelector(`[aria-label="${CSS.escape(label)}"]:enabled`) ?? place.querySelector("button:enabled");
  field?.focus({ preventScroll: true }); // a step that was the last leaves the button for the other way
}

function lacks(chart) {
  const rows = chart.missing.map((one) => make("tr", {}, make("td", {}, one.fact), make("td", {}, `cannot be told: ${one.untold}`),
    make("td", {}, make("button", { type: "button", "aria-label": `Go to ${one.fact}`,
      onclick: () => goTo(pick("facts"), one.address) }, "Go to it"))));
  pick("lacks").replaceChildren(...(rows.length
    ? [make("details", { open: rows.length < 8 }, make("summary", {}, rows.length === 1 ? "1 fact is not given" : `${rows.length} facts are not given`),
      make("div", { className: "scroll" }, make("table", {}, make("tbody", {}, rows))))]
    : chart.problems.length ? [] : [make("p", { className: "proved" }, "✓ Nothing is missing.")]));
}

function none(asked) {
  const says = asked ? `There is no chart "${asked}". Choose one above, or begin it.` : "This rig uses no chart yet. Choose one above, or begin one.";
  pick("about").replaceChildren(make("p", {}, says));
  for (const one of ["lacks", "facts"]) pick(one).replaceChildren();
}

function show(view) {
  if (view.chart) [chosen, revision] = [view.chart.id, view.chart.revision];
  const named = view.charts.map((one) => ({ ...one, name: one.says ? `${one.says} (${one.id})` : one.id }))
    .sort((one, other) => one.name.localeCompare(other.name));
  pick("chart").replaceChildren(...named.map((one) => make("option", { value: one.id, selected: one.id === chosen },
    [one.name, one.is_own ? "beside the rig" : "only read", one.is_used ? "used" : ""].filter(Boolean).join(", "))));
  if (view.chart) {
    about(view.chart);
    lacks(view.chart);
    showClauses(pick("facts"), view.chart.clauses.map((one) => ({ ...one, is_fixed: one.key === "chart" })),
      view.chart.is_own ? doing : null);
  }
  else none(view.asked);
  document.body.dataset.loaded = view.chart?.id ?? "none";
}

// Answers may overtake each other: only the last that was asked for is shown.
async function load() {
  const turn = ++asking;
  try {
    const view = await ask("charts", { chart: chosen });
    if (turn === asking) show(view);
  } catch (trouble) {
    if (turn === asking) say(trouble.message, true);
  }
}

pick("chart").onchange = () => choose(pick("chart").value);
pick("make").onsubmit = async (event) => {
  event.preventDefault();
  const [id, maker, model, kind] = ["id", "maker", "model", "kind"].map((one) => pick(`make-${one}`).value.trim());
  if (await attempt(() => act("make-chart", { new: id, maker, model, kind }), "Begun.")) {
    pick("make").reset();
    pick("begin").open = false;
    pick("chart").focus();
    await choose(id);
  }
};

follow((_status, changed) => changed && load());
load();
