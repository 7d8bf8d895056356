// Dragging inside an SVG: pointer and keyboard report the same way.

const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const FAST = 10;

// `place(element, x, y)` shows it somewhere, `done(element, x, y)` is told once where it was put;
// `at(element)` gives where it is; `step` is how far an arrow key goes.
export function draggable(svg, selector, { at, place, done, step = 1 }) {
  let held = null;
  const inside = (event) =>
    new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  svg.addEventListener("pointerdown", (event) => {
    const element = event.target.closest(selector);
    if (!element || event.button) return;
    element.setPointerCapture(event.pointerId);
    const point = inside(event);
    const [x, y] = at(element);
    held = { element, dx: point.x - x, dy: point.y - y, x, y };
  });
  svg.addEventListener("pointermove", (event) => {
    if (!held) return;
    const point = inside(event);
    place(held.element, point.x - held.dx, point.y - held.dy);
  });
  svg.addEventListener("pointerup", () => {
    if (!held) return;
    const { element, x, y } = held;
    held = null;
    const [newX, newY] = at(element);
    if (newX !== x || newY !== y) done(element, newX, newY);
  });
  svg.addEventListener("pointercancel", () => {
    if (held) place(held.element, held.x, held.y);
    held = null;
  });
  svg.addEventListener("keydown", (event) => {
    const element = event.target.closest(selector);
    const way = STEPS[event.key];
    if (!element || !way || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const far = step * (event.shiftKey ? FAST : 1);
    const [x, y] = at(element);
    place(element, x + way[0] * far, y + way[1] * far);
    done(element, ...at(element));
  });
}
