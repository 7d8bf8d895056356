// Things that can be carried about in a drawing: by a pointer, or step by step with the arrow keys.

const ARROWS = new Map([
  ["ArrowUp", { x: 0, y: -1 }],
  ["ArrowDown", { x: 0, y: 1 }],
  ["ArrowLeft", { x: -1, y: 0 }],
  ["ArrowRight", { x: 1, y: 0 }],
]);
const WITH_SHIFT = 10;

// `things.which` is their selector; `things.spot(thing)` says where one is, in units of the drawing;
// `things.show(thing, spot)` draws it elsewhere on the way; `things.settle(thing)` hears once that it
// was put down somewhere else; `things.stride(thing)` is how far one arrow key carries it each way.
export function carry(drawing, things) {
  let carried = null;

  const thingAt = (event) => event.target.closest(things.which);
  const isElsewhere = (thing, than) => {
    const { x, y } = things.spot(thing);
    return x !== than.x || y !== than.y;
  };

  function pointed(event) {
    const toDrawing = drawing.getScreenCTM().inverse();
    const { clientX, clientY } = event;
    return {
      x: toDrawing.a * clientX + toDrawing.c * clientY + toDrawing.e,
      y: toDrawing.b * clientX + toDrawing.d * clientY + toDrawing.f,
    };
  }

  function lift(event) {
    const thing = event.button === 0 ? thingAt(event) : null;
    if (thing === null) return;
    thing.setPointerCapture(event.pointerId);
    carried = { thing, from: things.spot(thing), grip: pointed(event) };
  }

  function move(event) {
    if (carried === null) return;
    const { thing, from, grip } = carried;
    const now = pointed(event);
    things.show(thing, { x: from.x + now.x - grip.x, y: from.y + now.y - grip.y });
  }

  function putDown() {
    const last = carried;
    carried = null;
    if (last !== null && isElsewhere(last.thing, last.from)) things.settle(last.thing);
  }

  function putBack() {
    if (carried !== null) things.show(carried.thing, carried.from);
    carried = null;
  }

  function nudge(event) {
    const thing = thingAt(event);
    const arrow = ARROWS.get(event.key);
    const isCommand = event.ctrlKey || event.metaKey || event.altKey;
    if (thing === null || arrow === undefined || isCommand) return;
    event.preventDefault();
    const times = event.shiftKey ? WITH_SHIFT : 1;
    const from = things.spot(thing);
    const stride = things.stride(thing);
    things.show(thing, { x: from.x + arrow.x * times * stride.x, y: from.y + arrow.y * times * stride.y });
    things.settle(thing);
  }

  drawing.addEventListener("pointerdown", lift);
  drawing.addEventListener("pointermove", move);
  drawing.addEventListener("pointerup", putDown);
  drawing.addEventListener("pointercancel", putBack);
  drawing.addEventListener("keydown", nudge);
}
