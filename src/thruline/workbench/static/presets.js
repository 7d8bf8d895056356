// The sheet of presets: a row for each, a column for each unit, typed cell by cell or in blocks.

import { attempt, findingsMark, say, showFindings } from "./frame.js";
import { make, pick } from "./make.js";
import { showMore } from "./preset-more.js";
import { act, ask, edit, follow, isOut, now, remove, since } from "./rig.js";

const NAME = "name";
const [NARROW, NAMED, WIDE] = [8, 17, 32]; // columns, in widths of a digit: least, of names, most
let grid = null;
let columns = [];
let at = [0, 0];
let from = [0, 0];
let [widths, marked] = [[], []];
let typing = null; // the cell that is typed into, known by its preset and unit: rows come and go meanwhile
const wrong = new Map(); // "label column" -> { text, why, example, seen, isUnkept }

const body = () => pick("sheet").querySelector("tbody");
const cellAt = (row, column) => body()?.rows[row]?.cells[column];
const key = (row, column) => `${grid.presets[row].label} ${columns[column]}`;
const stored = (row, column) =>
  column === 0 ? grid.presets[row].name : grid.presets[row].cells[column - 1];
const textAt = (row, column) => wrong.get(key(row, column))?.text ?? stored(row, column);

function fill(cell, row, column) {
  const preset = grid.presets[row];
  const bad = wrong.get(key(row, column));
  const left = column ? preset.left[column - 1] : undefined;
  const text = textAt(row, column);
  const shown = column ? `${text}${left ? " ◆" : ""}` : `${preset.label}  ${text}`;
  if (cell.dataset.shown === shown + (bad?.why ?? "")) return;
  cell.dataset.shown = shown + (bad?.why ?? "");
  cell.textContent = shown;
  cell.className = [column ? "" : "first", bad ? "wrong" : "", left ? "left" : ""].join(" ").trim();
  if (bad) cell.setAttribute("aria-invalid", "true");
  else cell.removeAttribute("aria-invalid");
}

// Rows are blocks of one height, and columns have their widths from here: a browser then lays out
// and paints the rows that are in sight, and a cell that changes moves no other.
function build() {
  columns = [NAME, ...grid.units.map((one) => one.id)];
  const head = make("tr", { role: "row" }, make("th", { role: "columnheader", className: "first" }, "Preset"),
    grid.units.map((one) => make("th", { role: "columnheader", title: one.name }, one.id)));
  const pattern = make("tr", { role: "row" }, columns.map((_one, column) =>
    make("td", { tabIndex: -1, role: "gridcell", className: column ? "" : "first", "data-shown": "" })));
  const table = make("table", { role: "grid", "aria-label": "Presets and units", className: "sheet" },
    make("thead", { role: "rowgroup" }, head),
    make("tbody", { role: "rowgroup" }, grid.presets.map(() => pattern.cloneNode(true))));
  widths = columns.map((one, column) => Math.max(column ? NARROW : NAMED, one.length + 2));
  marked = [];
  pick("sheet").replaceChildren(table);
}

// Columns become as wide as what is to be shown, up to a measure, and never narrower again.
function widen(rows) {
  const before = widths.join();
  for (const row of rows) {
    for (const [column, cell] of [...body().rows[row].cells].entries()) {
      const letters = cell.textContent.length + 2;
      widths[column] = Math.min(WIDE, Math.max(widths[column], letters));
    }
  }
  const table = pick("sheet").firstElementChild;
  if (before === widths.join() && table.style.width) return;
  table.style.setProperty("--columns", widths.map((one) => `${one}ch`).join(" "));
  table.style.width = `${widths.reduce((sum, one) => sum + one, 0)}ch`;
}

function paint(rows = [...grid.presets.keys()]) {
  pick("none").hidden = grid.presets.length > 0;
  pick("sheet").hidden = !grid.presets.length;
  for (const id of ["copy", "drop", "earlier", "later", "sort"]) pick(id).disabled = !grid.presets.length;
  for (const row of rows) {
    for (const [column, cell] of [...body().rows[row].cells].entries()) {
      if (!cell.firstElementChild) fill(cell, row, column);
    }
  }
  if (!grid.presets.length) { showMore(null); return; }
  widen(rows);
  const inside = ([row, column]) => [Math.min(row, grid.presets.length - 1), Math.min(column, columns.length - 1)];
  from = inside(from);
  go(...inside(at), true, false);
}

function block() {
  const rows = [at[0], from[0]].sort((a, b) => a - b);
  const across = [at[1], from[1]].sort((a, b) => a - b);
  return { top: rows[0], bottom: rows[1], left: across[0], right: across[1] };
}

function* cellsOf({ top, bottom, left, right }) {
  for (let row = top; row <= bottom; row += 1) {
    for (let column = left; column <= right; column += 1) yield [row, column];
  }
}

function note() {
  const [row, column] = at;
  const preset = grid.presets[row];
  const bad = wrong.get(key(row, column));
  const parts = [];
  if (bad) parts.push(make("strong", { className: "bad" }, `✕ ${bad.why}${bad.example ? `; it reads like ${bad.example}` : ""}. Not in the document.`));
  else if (column) parts.push(preset.hints[column - 1] ?? `${columns[column]}: nothing is wanted of it here`);
  else parts.push(`Preset ${preset.label}`);
  if (!bad && column && preset.left[column - 1]) parts.push(` ◆ ${preset.left[column - 1]}`);
  more();
  const mark = findingsMark(column ? `preset[${preset.label}].${columns[column]}` : `preset[${preset.label}]`);
  pick("cell").replaceChildren(...parts, mark ? " " : "", mark ?? "");
}

const more = () => showMore(grid.presets[at[0]].label, grid.mark, () => load());

function go(row, column, isBlock, isFocused = true) {
  const cell = cellAt(row, column);
  if (!cell) return;
  const before = cellAt(...at);
  if (before) before.tabIndex = -1;
  for (const one of marked) one.removeAttribute("aria-selected");
  at = [row, column];
  if (!isBlock) from = at;
  cell.tabIndex = 0;
  const { top, bottom, left, right } = block();
  const isMany = top !== bottom || left !== right;
  marked = isMany ? [...cellsOf({ top, bottom, left, right })].map(([r, c]) => cellAt(r, c)) : [];
  for (const one of marked) one.setAttribute("aria-selected", "true");
  if (isFocused) {
    cell.focus({ preventScroll: true });
    cell.scrollIntoView({ block: "nearest", inline: "nearest" });
  }
  note();
}

// Put texts into cells, decided on the revision that was `seen`. What makes no sense stays visible, is
// marked, and is left out. A `remark` is said in the end.
async function put(texts, { seen = grid.revision, remark = "" } = {}) {
  const changed = texts.filter(([row, column, text]) => text !== textAt(row, column) || wrong.has(key(row, column)));
  const cells = changed.map(([row, column, text]) => ({ preset: grid.presets[row].label, column: columns[column], text }));
  for (const [row, column] of changed) wrong.delete(key(row, column));
  if (cells.length) await send(cells, seen);
  else paint();
  if (remark) say([pick("said").textContent, remark].filter(Boolean).join(" "), true);
}

const nameOf = (cell) => `${cell.preset} ${cell.column}`;

async function send(cells, seen) {
  let decided = seen; // of cells that are put in place of others' after all: what is there by then
  const done = cells.length > 1 ? `${cells.length} cells.` : "";
  const deed = async () => {
    const mine = decided;
    decided = null;
    try {
      return await since(mine, () => act("cells", { cells }));
    } catch (trouble) {
      if (isOut()) {
        for (const one of cells) wrong.set(nameOf(one), { text: one.text, why: "not kept yet: the workbench is out of reach", seen, isUnkept: true });
      }
      if (!trouble.cells) throw trouble;
      const bad = new Map(trouble.cells.map((one) => [nameOf(one), one]));
      for (const one of cells) {
        const told = bad.get(nameOf(one));
        if (told) wrong.set(nameOf(one), { text: one.text, why: told.why, example: told.example, seen });
      }
      const rest = cells.filter((one) => !bad.has(nameOf(one)));
      if (rest.length) await since(mine, () => act("cells", { cells: rest }));
      paint();
      throw trouble;
    }
  };
  await attempt(deed, done);
  const labels = new Set(cells.map((one) => one.preset));
  await load([...grid.presets.keys()].filter((row) => labels.has(grid.presets[row].label)));
}

// What was typed while nobody answered is put in when the workbench is back.
async function sendUnkept() {
  for (const [name, one] of [...wrong].filter(([, bad]) => bad.isUnkept)) {
    wrong.delete(name);
    const cut = name.lastIndexOf(" ");
    await send([{ preset: name.slice(0, cut), column: name.slice(cut + 1), text: one.text }], one.seen);
  }
}

// Where the cell that is typed into stands now; nothing when its preset or its unit is gone.
function typedAt() {
  const [row, column] = [grid.presets.findIndex((one) => one.label === typing.label), columns.indexOf(typing.column)];
  return row < 0 || column < 0 ? null : [row, column];
}

function leave(isKept) {
  if (!typing || typing.isMoving) return null;
  const [{ field, seen, was }, spot] = [typing, typedAt()];
  const [cell, text] = [cellAt(...spot), field.value.trim()];
  typing = null;
  delete cell.dataset.shown;
  field.remove();
  fill(cell, ...spot);
  if (isKept && text !== was) {
    cell.textContent = text;
    delete cell.dataset.shown;
    put([[...spot, text]], { seen });
  }
  return spot;
}

function typeInto(cell) {
  cell.textContent = "";
  cell.append(typing.field);
  typing.field.focus();
}

function type(first) {
  const [row, column] = at;
  const was = textAt(row, column);
  const field = make("input", { value: first ?? was, autocomplete: "off", spellcheck: false,
    "aria-label": `${columns[column]} of preset ${grid.presets[row].label}` });
  const seen = wrong.get(key(row, column))?.seen ?? grid.revision;
  typing = { label: grid.presets[row].label, column: columns[column], field, seen, was, isMoving: false };
  field.onblur = () => { leave(true); };
  field.onkeydown = (event) => {
    event.stopPropagation();
    const steps = { Enter: [event.shiftKey ? -1 : 1, 0], Tab: [0, event.shiftKey ? -1 : 1], Escape: [0, 0] };
    const step = steps[event.key];
    if (!step) return;
    event.preventDefault();
    const spot = leave(event.key !== "Escape");
    if (!spot) return;
    const next = [spot[0] + step[0], spot[1] + step[1]];
    go(...(cellAt(...next) ? next : spot), false);
  };
  typeInto(cellAt(row, column));
  if (first === undefined) field.select();
}

// Other rows or columns are there now: what is typed goes along with its cell. Where that is gone,
// the text is said, and nothing else is lost.
function rebuild(before, columnsBefore) {
  const named = ([row, column]) => [before[row]?.label, columnsBefore[column]];
  const [cell, end] = [named(at), named(from)];
  const marked = typing && [typing.field.selectionStart, typing.field.selectionEnd];
  if (typing) typing.isMoving = true;
  build();
  const again = ([label, column], [row, nth]) => {
    const found = grid.presets.findIndex((one) => one.label === label);
    return [found < 0 ? row : found, Math.max(0, columns.includes(column) ? columns.indexOf(column) : nth)];
  };
  [at, from] = [again(cell, at), again(end, from)];
  if (!typing) return;
  const spot = typedAt();
  if (spot) {
    typeInto(cellAt(...spot));
    typing.field.setSelectionRange(...marked);
    typing.isMoving = false;
    return;
  }
  const { label, column, field } = typing;
  typing = null;
  say(`Preset ${label} or its column ${column} was taken away meanwhile, so “${field.value}” has no place. Undo brings it back.`, true);
}

function spread(isDown) {
  const { top, bottom, left, right } = block();
  const texts = [...cellsOf({ top, bottom, left, right })]
    .map(([row, column]) => [row, column, isDown ? textAt(top, column) : textAt(row, left)])
    .filter(([, column]) => column > 0);
  put(texts);
}

const STEPS = { ArrowLeft: [0, -1], ArrowRight: [0, 1], ArrowUp: [-1, 0], ArrowDown: [1, 0], PageUp: [-12, 0], PageDown: [12, 0] };

function press(event) {
  if (!event.target.matches("td")) return;
  const [row, column] = at;
  const step = STEPS[event.key];
  const isControl = event.ctrlKey || event.metaKey;
  const inside = (value, most) => Math.min(most - 1, Math.max(0, value));
  if (step && !isControl) go(inside(row + step[0], grid.presets.length), inside(column + step[1], columns.length), event.shiftKey);
  else if (event.key === "Home") go(isControl ? 0 : row, 0, event.shiftKey);
  else if (event.key === "End") go(isControl ? grid.presets.length - 1 : row, columns.length - 1, event.shiftKey);
  else if (event.key === "Enter" || event.key === "F2") type();
  else if (event.key === "Delete" || event.key === "Backspace") put([...cellsOf(block())].filter(([, c]) => c > 0).map(([r, c]) => [r, c, ""]));
  else if (isControl && event.key.toLowerCase() === "d") spread(true);
  else if (isControl && event.key.toLowerCase() === "r") spread(false);
  else if (isControl && event.key.toLowerCase() === "f") pick("seek").focus();
  else if (event.key === "Escape") { wrong.delete(key(row, column)); delete event.target.dataset.shown; fill(event.target, row, column); note(); }
  else if (event.key.length === 1 && !isControl && !event.altKey) type(event.key);
  else return;
  event.preventDefault();
}

function copyOut(event) {
  if (!event.target.matches?.("td")) return;
  const { top, bottom, left, right } = block();
  const rows = [];
  for (let row = top; row <= bottom; row += 1) {
    const line = [];
    for (let column = left; column <= right; column += 1) line.push(textAt(row, column));
    rows.push(line.join("\t"));
  }
  event.clipboardData.setData("text/plain", rows.join("\n"));
  event.preventDefault();
  say(`${rows.length} × ${right - left + 1} cells copied.`);
}

function pasteIn(event) {
  if (!event.target.matches?.("td")) return;
  event.preventDefault();
  const rows = event.clipboardData.getData("text").replace(/\r/g, "").replace(/\n+$/, "").split("\n").map((one) => one.split("\t"));
  const [row, column] = at;
  const texts = [];
  const single = rows.length === 1 && rows[0].length === 1;
  if (single) for (const [r, c] of cellsOf(block())) texts.push([r, c, rows[0][0].trim()]);
  else rows.forEach((line, i) => line.forEach((text, j) => texts.push([row + i, column + j, text.trim()])));
  const fits = texts.filter(([r, c]) => cellAt(r, c));
  const rest = texts.length - fits.length;
  put(fits, { remark: rest ? `${rest} ${rest === 1 ? "cell of the block lies" : "cells of the block lie"} outside the sheet and ${rest === 1 ? "was" : "were"} left out; add presets first.` : "" });
}

function seek() {
  const sought = pick("seek").value.trim().toLowerCase();
  let count = 0;
  for (const [row] of grid.presets.entries()) {
    for (const [column] of columns.entries()) {
      const isMet = Boolean(sought) && textAt(row, column).toLowerCase().includes(sought);
      count += isMet;
      cellAt(row, column).classList.toggle("met", isMet);
    }
  }
  pick("seen").textContent = sought ? `${count} found` : "";
  return count;
}

function seekNext() {
  if (!seek()) return;
  const total = grid.presets.length * columns.length;
  const start = at[0] * columns.length + at[1];
  for (let step = 1; step <= total; step += 1) {
    const place = (start + step) % total;
    const [row, column] = [Math.floor(place / columns.length), place % columns.length];
    if (cellAt(row, column).classList.contains("met")) { go(row, column, false); return; }
  }
}

// What has changed since what is shown, or all of it. Gives the rows that may look different now.
async function fresh() {
  const next = await ask("presets", { have: grid?.mark ?? "" });
  if (!next.rows) {
    const isSame = grid && grid.presets.length === next.presets.length
      && grid.units.map((one) => one.id).join() === next.units.map((one) => one.id).join();
    const before = grid?.presets;
    grid = next;
    if (!before) build();
    else if (!isSame) rebuild(before, columns);
    return [...grid.presets.keys()];
  }
  grid.revision = next.revision;
  for (const [row, preset] of Object.entries(next.rows)) grid.presets[row] = preset;
  grid.mark = next.mark;
  return Object.keys(next.rows).map(Number);
}

let loading = Promise.resolve();

// One after the other: what has changed is told against what is shown.
function load(touched = []) {
  loading = loading.then(async () => {
    const hadFocus = pick("sheet").contains(document.activeElement);
    const rows = grid?.mark === now().mark ? [] : await fresh();
    paint([...new Set([...rows, ...touched])]);
    if (hadFocus && !typing && grid.presets.length) go(...at, true);
  }).catch((trouble) => say(trouble.message, true));
  return loading;
}

pick("sheet").addEventListener("keydown", press);
pick("sheet").addEventListener("copy", copyOut);
pick("sheet").addEventListener("paste", pasteIn);
const placeOf = (cell) => [cell.parentNode.sectionRowIndex, cell.cellIndex];
pick("sheet").addEventListener("pointerdown", (event) => {
  const cell = event.target.closest("tbody td");
  if (!cell || cell.firstElementChild) return;
  event.preventDefault();
  if (document.activeElement?.matches?.("td input")) document.activeElement.blur();
  go(...placeOf(cell), event.shiftKey);
});
pick("sheet").addEventListener("pointerover", (event) => {
  const cell = event.target.closest("tbody td");
  if (!cell) return;
  if (event.buttons === 1) { go(...placeOf(cell), true); return; }
  const [row, column] = placeOf(cell);
  cell.title = column ? [grid.presets[row].hints[column - 1], grid.presets[row].left[column - 1]].filter(Boolean).join("\n") : "";
});
pick("sheet").addEventListener("dblclick", (event) => {
  const cell = event.target.closest("tbody td");
  if (cell && !cell.firstElementChild) type();
});
pick("add").onclick = async () => {
  if (await attempt(() => act("add-preset"), "Added.")) { await load(); go(grid.presets.length - 1, 0, false); }
};
pick("copy").onclick = async () => {
  const like = grid.presets[at[0]].label;
  if (await attempt(() => act("add-preset", { like }), "Copied.")) { await load(); go(grid.presets.length - 1, 0, false); }
};
pick("drop").onclick = () =>
  attempt(() => edit(remove(`preset[${grid.presets[at[0]].label}]`)), "Removed; Undo brings it back.");
// The preset goes to another row, and the cell one is at goes with it.
async function shift(by) {
  const address = `preset[${grid.presets[at[0]].label}]`;
  const [row, column] = at;
  if (!(await attempt(() => act("move-fact", { address, by })))) return;
  await load();
  go(row + by, column, false);
}
pick("earlier").onclick = () => shift(-1);
pick("later").onclick = () => shift(1);
pick("sort").onclick = async () => {
  const { label } = grid.presets[at[0]];
  if (!(await attempt(() => act("sort-presets"), "Sorted; Undo brings the old order back."))) return;
  await load();
  go(grid.presets.findIndex((one) => one.label === label), at[1], false);
};
pick("more").ontoggle = () => grid?.presets.length && more();
pick("seek").oninput = seek;
pick("seek").onkeydown = (event) => { if (event.key === "Enter") { event.preventDefault(); seekNext(); } };

document.addEventListener("reach", (event) => { if (event.detail) sendUnkept(); });
follow((_status, changed) => changed && load());
load().then(() => { document.body.dataset.loaded = "yes"; });
