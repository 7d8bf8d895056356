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

// Make these the children of an element; those that stand where they stood are not touched.
export function arrange(parent, children) {
  const stays = new Set(children);
  for (const one of [...parent.childNodes]) if (!stays.has(one)) one.remove();
  let place = parent.firstChild;
  for (const child of children) {
    if (child === place) place = place.nextSibling;
    else parent.insertBefore(typeof child === "string" ? document.createTextNode(child) : child, place);
  }
}

export const pick = (id) => document.getElementById(id);
