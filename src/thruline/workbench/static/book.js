// Book: the papers as they print. A print is made on the workbench; its pages come as pictures.

import { say } from "./frame.js";
import { make, pick } from "./make.js";
import { HERE, answerOf, ask, follow, reach } from "./rig.js";

const SETTLED_MS = 600;
const PAPER = "thruline-paper";
const SIZES = { a4: "A4", letter: "Letter" };
let [waiting, timer] = [null, 0];

const boxes = () => [...pick("parts").querySelectorAll("input")];
const words = (name) => name[0].toUpperCase() + name.slice(1);

function wish() {
  const asked = new URLSearchParams({ paper: pick("paper").value });
  if (pick("sheet").value) asked.set("sheet", pick("sheet").value);
  else if (boxes().some((one) => !one.checked)) {
    for (const one of boxes()) if (one.checked) asked.append("part", one.value);
  }
  return asked;
}

// A page has its picture fetched when it comes near to what is seen: a book has forty of them.
const seen = new IntersectionObserver((pages) => {
  for (const { target, isIntersecting } of pages) if (isIntersecting) fetchPicture(target);
}, { rootMargin: "120px" });

function fetchPicture(picture) {
  seen.unobserve(picture);
  picture.src = `${HERE}/book/${picture.dataset.print}/${pick("large").checked ? "large" : "small"}/${picture.dataset.page}.png`;
}

function leaf(made, page, at) {
  const name = `Page ${at + 1} of ${made.pages.length}${page.part ? `: ${page.part}` : ""}`;
  const picture = make("img", { alt: name });
  picture.style.aspectRatio = `${page.width} / ${page.height}`;  // room for it, before it is there
  Object.assign(picture.dataset, { print: made.key, page: at + 1 });
  seen.observe(picture);
  return make("li", { id: `page-${at + 1}`, tabIndex: -1 }, picture,
    make("span", { className: "quiet" }, String(at + 1)));
}

function show(made) {
  const count = made.pages.length;
  pick("sum").textContent = `${count} ${count === 1 ? "page" : "pages"}, ${Math.ceil(made.bytes / 1000)} kB`;
  const place = scrollY;
  seen.disconnect();
  pick("pages").replaceChildren(...made.pages.map((page, at) => leaf(made, page, at)));
  pick("pages").removeAttribute("aria-busy");
  scrollTo(0, place);
  const starts = made.pages.map((page, at) => ({ part: page.part, at }))
    .filter(({ part, at }) => part && part !== made.pages[at - 1]?.part);
  pick("go").replaceChildren(make("option", { value: 0 }, "the first page"),
    ...starts.map(({ part, at }) => make("option", { value: at }, `${part}, page ${at + 1}`)));
  pick("go").closest("label").hidden = starts.length < 2;
  pick("view").hidden = false;
  document.body.dataset.loaded = made.key;
}

const rest = (says) => {
  waiting = null;
  pick("making").hidden = true;
  if (says) pick("sum").textContent = says;
};

async function print() {
  waiting?.abort();
  const mine = new AbortController();
  waiting = mine;
  pick("take").href = `${HERE}/book/print.pdf?${wish()}`;
  pick("parts").hidden = Boolean(pick("sheet").value);
  if (!pick("sheet").value && !boxes().some((one) => one.checked)) {
    rest("Choose at least one part.");
    pick("take").removeAttribute("href");
    pick("pages").replaceChildren();
    return;
  }
  pick("making").hidden = false;
  pick("pages").setAttribute("aria-busy", "true");
  pick("making-says").textContent = pick("pages").children.length
    ? "Being printed anew; the pages below are from before." : "Being printed; a large book takes some seconds.";
  try {
    const made = await answerOf(await reach(`${HERE}/book/made.json?${wish()}`, { signal: mine.signal }));
    if (waiting !== mine) return;
    rest();
    show(made);
  } catch (trouble) {
    if (waiting !== mine) return;
    rest("Not printed.");
    say(trouble.message, true);
  }
}

function later() {
  clearTimeout(timer);
  timer = setTimeout(print, SETTLED_MS);
}

function open(view) {
  pick("sheet").append(...view.sheets.map((one) => make("option", { value: one }, `only: ${one}`)));
  pick("paper").replaceChildren(...view.papers.map((one) => make("option", { value: one }, SIZES[one] ?? one)));
  const paper = localStorage.getItem(PAPER);
  if (view.papers.includes(paper)) pick("paper").value = paper;
  pick("parts").querySelector("div").replaceChildren(...view.parts.map((one) =>
    make("label", {}, make("input", { type: "checkbox", value: one, checked: true }), words(one))));
  print();
}

pick("choice").onsubmit = (event) => event.preventDefault();
pick("choice").onchange = () => {
  localStorage.setItem(PAPER, pick("paper").value);
  later();
};
pick("stop").onclick = () => {
  waiting?.abort();
  rest("Stopped. Choose anything to print again.");
};
pick("large").onchange = () => {
  pick("pages").classList.toggle("large", pick("large").checked);
  for (const picture of pick("pages").querySelectorAll("img")) seen.observe(picture);
};
pick("go").onchange = () => {
  const page = pick(`page-${Number(pick("go").value) + 1}`);
  page.scrollIntoView();
  page.focus({ preventScroll: true });
};
follow((_status, changed) => changed && later());
ask("book").then(open, (trouble) => say(trouble.message, true));
