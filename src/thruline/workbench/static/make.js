// Elements made from data; text is always text, never markup.

export function make(name, facts = {}, ...inside) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(facts)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (key in made && !key.includes("-") && key !== "list" && key !== "role") made[key] = value;
    else made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...inside.flat().filter((one) => one !== null && one !== undefined && one !== ""));
  return made;
}

const SVG = "http://www.w3.org/2000/svg";

export function draw(name, facts = {}, ...inside) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(facts)) {
    if (value === undefined || value === null) continue;
    made.setAttribute(key, value);
  }
  made.append(...inside.flat());
  return made;
}

export const pick = (id) => document.getElementById(id);
