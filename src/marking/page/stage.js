// The photo under finger, pen, mouse and keys.
const stage = byId("stage"), over = byId("over");
let drag = null, cross = "";

const pointOf = event => {
  const box = over.getBoundingClientRect();
  const within = value => Math.min(0.9999, Math.max(0, value));
  return { x: within((event.clientX - box.left) / box.width), y: within((event.clientY - box.top) / box.height) };
};

// Sets an end of a mark, or a ring's size, to a point.
function setEnd(mark, end, point) {
  const photo = data.photos[item().photo];
  if (mark.kind === "ring" && end === 1) {
    const middle = fractions(mark.places[0]), ratio = photo.height / photo.width;
    const radius = Math.hypot(point.x - middle.x, (point.y - middle.y) * ratio);
    mark.size = Math.round(Math.min(12, Math.max(0.5, radius * 2 * COLUMNS)) * 10) / 10;
  } else {
    mark.places[end] = placeOf(point.x, point.y, digitsFor(photo));
  }
}

over.addEventListener("pointerdown", event => {
  if (!event.isPrimary || event.button > 0 || !item().marks) return;
  const target = event.target.dataset || {}, point = pointOf(event);
  if (state.tool) {
    remember();
    item().marks.push(newMark(state.tool, point.x, point.y, digitsFor(data.photos[item().photo])));
    state.chosen = item().marks.length - 1;
    // A drag goes on with the other end; where there is one end alone, with that.
    drag = { end: state.tool === "label" ? 0 : 1, isNew: true };
  } else if (target.mark !== undefined) {
    state.chosen = Number(target.mark);
    state.end = target.end === undefined ? lastEnd() : Number(target.end);
    drag = { end: target.end === undefined ? null : Number(target.end) };
  } else {
    state.chosen = -1;
    return show();
  }
  event.preventDefault();
  Object.assign(drag, { id: event.pointerId, at: point, x: event.clientX, y: event.clientY, from: null, moved: false });
  over.setPointerCapture(event.pointerId);
  stage.focus({ preventScroll: true });
  show();
});

over.addEventListener("pointermove", event => {
  if (!drag || event.pointerId !== drag.id) return;
  if (!drag.moved && Math.hypot(event.clientX - drag.x, event.clientY - drag.y) < 8) return;
  const mark = item().marks[state.chosen], point = pointOf(event);
  if (!drag.moved) {
    if (!drag.isNew) remember();
    drag.moved = true;
    drag.from = mark.places.map(fractions);
  }
  if (drag.end !== null) setEnd(mark, drag.end, point);
  else {
    const digits = digitsFor(data.photos[item().photo]);
    // The photo's edge stops all of a mark, so that its shape stays.
    const bounded = (by, values) => Math.min(0.9999 - Math.max(...values), Math.max(-Math.min(...values), by));
    const dx = bounded(point.x - drag.at.x, drag.from.map(end => end.x));
    const dy = bounded(point.y - drag.at.y, drag.from.map(end => end.y));
    mark.places = drag.from.map(end => placeOf(end.x + dx, end.y + dy, digits));
  }
  drawNow();
});

function endDrag(event) {
  if (!drag || event.pointerId !== drag.id) return;
  const { isNew } = drag;
  drag = null;
  if (isNew) placed();
  show();
}
over.addEventListener("pointerup", endDrag);
over.addEventListener("pointercancel", endDrag);

// What a finger does on the photo is no click on whatever has moved below it meanwhile.
let isHandled = false;
over.addEventListener("touchstart", event => { isHandled = Boolean(drag) && !drag.byKey; }, { passive: true });
over.addEventListener("touchend", event => { if (isHandled && event.cancelable) event.preventDefault(); }, { passive: false });

// After a mark was put down: what it still needs is asked for.
function placed() {
  const mark = item().marks[state.chosen];
  state.tool = "";
  state.end = 0;
  say(`${inWords(mark)}.`);
  show();
  if (mark.kind === "label") byId("text").focus();
  if (mark.kind === "length") byId("number").focus();
}

stage.addEventListener("keydown", event => {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  const by = event.shiftKey ? 9 : 1, marks = item().marks;
  if (!marks) return;
  const mark = marks[state.chosen];
  if (arrows[event.key]) {
    const [x, y] = arrows[event.key].map(step => step * by);
    if (state.tool) moveCross(x, y);
    else if (mark) nudge(x, y);
    else return;
  } else if ((event.key === "Enter" || event.key === " ") && state.tool) putByKey();
  else if (event.key === "Escape") letGo();
  else if (event.key === "Delete" && mark && !state.tool) removeMark();
  else if (event.key === "PageDown" && marks.length) choose((state.chosen + 1) % marks.length);
  else if (event.key === "PageUp" && marks.length) choose((state.chosen <= 0 ? marks.length : state.chosen) - 1);
  else if (event.key.toLowerCase() === "e" && mark) chooseEnd((state.end + 1) % ends(mark).length);
  else if ((event.key === "+" || event.key === "-") && mark && mark.kind === "ring") resize(event.key === "+" ? 0.1 : -0.1);
  else return;
  event.preventDefault();
});

// What of a mark can be moved by itself; the last choice is all of it.
const ends = mark => mark.kind === "ring" || mark.kind === "label" ? ["all of it"] : [...KINDS[mark.kind].ends, "all of it"];

const lastEnd = () => ends(item().marks[state.chosen]).length - 1;

function moveCross(x, y) {
  cross = moved(cross || "F5", x, y);
  const drawn = drag && drag.byKey;
  if (drawn) item().marks[state.chosen].places[1] = cross;
  say(cross);
  drawNow();
}

// Enter puts the first end; where there is a second one, Enter again puts that.
function putByKey() {
  const { x, y } = fractions(cross || "F5");
  if (drag && drag.byKey) {
    item().marks[state.chosen].places[1] = cross;
    drag = null;
    cross = "";
    return placed();
  }
  remember();
  const mark = newMark(state.tool, x, y, 2);
  item().marks.push(mark);
  state.chosen = item().marks.length - 1;
  if (mark.places.length === 1) {
    cross = "";
    return placed();
  }
  drag = { byKey: true };
  cross = mark.places[1];
  say(`${KINDS[mark.kind].ends[0]} is at ${mark.places[0]}. Now move to ${KINDS[mark.kind].ends[1]} and press Enter.`);
  show();
}

function letGo() {
  if (drag && drag.byKey) back(false);
  drag = null;
  cross = "";
  state.tool = "";
  state.chosen = -1;
  show();
}

function nudge(x, y) {
  remember("nudge" + state.chosen);
  const mark = item().marks[state.chosen];
  if (mark.places.length === 2 && state.end < 2) mark.places[state.end] = moved(mark.places[state.end], x, y);
  else shift(mark, x, y);
  say(inWords(mark));
  show();
}

function resize(by) {
  remember("size" + state.chosen);
  const mark = item().marks[state.chosen];
  mark.size = Math.round(Math.min(12, Math.max(0.5, mark.size + by)) * 10) / 10;
  say(inWords(mark));
  show();
}
