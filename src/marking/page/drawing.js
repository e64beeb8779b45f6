// Marks as lines over the photo: white casing below, ink above, as on the papers.
const SVG = "http://www.w3.org/2000/svg";

function shape(parent, name, attributes, className) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (className) element.setAttribute("class", className);
  parent.append(element);
  return element;
}

// Draws all marks of an item; lengths are in screen pixels, so that lines are as wide on any photo.
function drawMarks(over, item, chosen, end, cross) {
  const box = over.getBoundingClientRect();
  const w = box.width || 1, h = box.height || 1;
  over.setAttribute("viewBox", `0 0 ${w} ${h}`);
  over.replaceChildren();
  if (state.grid) drawGrid(over, w, h);
  (item.marks || []).forEach((mark, at) => drawMark(over, mark, at, at === chosen, end, w, h));
  if (cross) {
    const { x, y } = fractions(cross);
    for (const name of ["casing", "line"]) {
      const width = name === "casing" ? 5 : 2;
      shape(over, "path", { d: `M${x * w - 18} ${y * h}h36M${x * w} ${y * h - 18}v36`, "stroke-width": width }, name);
    }
  }
}

function outline(mark, w, h) {
  const ends = mark.places.map(fractions).map(({ x, y }) => [x * w, y * h]);
  const [[ax, ay], [bx, by] = []] = ends;
  if (mark.kind === "ring") {
    const r = mark.size / 2 / COLUMNS * w;
    return { ends, d: `M${ax - r} ${ay}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0` };
  }
  if (mark.kind === "box") return { ends, d: `M${ax} ${ay}H${bx}V${by}H${ax}Z` };
  if (mark.kind === "label") return { ends, d: `M${ax} ${ay}h0` };
  const angle = Math.atan2(by - ay, bx - ax);
  const ray = (x, y, turn, length) => `M${x} ${y}L${x + length * Math.cos(angle + turn)} ${y + length * Math.sin(angle + turn)}`;
  const line = `M${ax} ${ay}L${bx} ${by}`;
  if (mark.kind === "arrow") return { ends, d: line + ray(ax, ay, 0.5, 16) + ray(ax, ay, -0.5, 16) };
  const tick = (x, y) => ray(x, y, Math.PI / 2, 8) + ray(x, y, -Math.PI / 2, 8);
  return { ends, d: line + tick(ax, ay) + tick(bx, by) };
}

function drawMark(over, mark, at, isChosen, end, w, h) {
  const { ends, d } = outline(mark, w, h);
  const open = lacks(mark) ? " open-end" : "";
  shape(over, "path", { d, "stroke-width": 6 }, "casing");
  shape(over, "path", { d, "stroke-width": 2.6 }, "line" + open);
  if (mark.kind === "label") shape(over, "circle", { cx: ends[0][0], cy: ends[0][1], r: 5, "stroke-width": 2 }, "dot");
  const words = [mark.text, mark.kind === "length" ? `${mark.number || "?"} ${mark.unit}` : ""].filter(Boolean).join(", ");
  if (words) {
    const middle = mark.kind === "length" ? [(ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2 - 12]
      : mark.kind === "arrow" ? [ends[1][0], ends[1][1] - 10]
      : mark.kind === "ring" ? [ends[0][0], ends[0][1] - mark.size / 2 / COLUMNS * w - 10]
      : mark.kind === "box" ? [(ends[0][0] + ends[1][0]) / 2, Math.min(ends[0][1], ends[1][1]) - 10]
      : [ends[0][0], ends[0][1] - 12];
    const text = shape(over, "text", { y: Math.max(18, middle[1]), "font-size": 16, "stroke-width": 5, "text-anchor": "middle" });
    text.textContent = words;
    const half = Math.min(w / 2, text.getComputedTextLength() / 2 + 4);
    text.setAttribute("x", Math.min(w - half, Math.max(half, middle[0])));
  }
  const grab = shape(over, "path", { d, "stroke-width": 44, "data-mark": at }, "grab");
  if (mark.kind === "ring" || mark.kind === "box") grab.classList.add("full");
  if (!isChosen) return;
  const knobs = mark.kind === "ring" ? [...ends, [ends[0][0] + mark.size / 2 / COLUMNS * w, ends[0][1]]] : ends;
  knobs.forEach(([x, y], nth) => {
    shape(over, "circle", { cx: x, cy: y, r: 10, "stroke-width": 3 }, "knob" + (nth === end ? " chosen" : ""));
    shape(over, "circle", { cx: x, cy: y, r: 24, "data-mark": at, "data-end": nth }, "handle hit");
  });
}

function drawGrid(over, w, h) {
  let d = "";
  for (let i = 1; i < COLUMNS; i++) d += `M${i * w / COLUMNS} 0V${h}`;
  for (let j = 1; j < ROWS; j++) d += `M0 ${j * h / ROWS}H${w}`;
  shape(over, "path", { d, "stroke-width": 3 }, "rule-casing");
  shape(over, "path", { d, "stroke-width": 1 }, "rule");
  const name = (text, x, y) => {
    shape(over, "text", { x, y, "font-size": 14, "stroke-width": 4, "text-anchor": "middle" }).textContent = text;
  };
  for (let i = 0; i < COLUMNS; i++) name(String.fromCharCode(65 + i), (i + 0.5) * w / COLUMNS, 15);
  for (let j = 0; j < ROWS; j++) name(String(j + 1), 9, (j + 0.5) * h / ROWS + 5);
}
