// Marks: their kinds, how one begins, and what it lacks.
const KINDS = {
  ring: { name: "Ring", ends: ["its middle"] },
  arrow: { name: "Arrow", ends: ["its tip", "its tail"] },
  box: { name: "Box", ends: ["its first corner", "its other corner"] },
  label: { name: "Label", ends: ["its place"] },
  length: { name: "Length", ends: ["its first end", "its other end"] },
};
const OTHER_KEY = { arrow: "from", box: "to", length: "to" };
const UNITS = ["mm", "µm", "cm", "m", "in"];

// A mark at a point, with a second end that is sensible until it is dragged.
function newMark(kind, x, y, digits) {
  const away = { arrow: [2, -1.5], box: [2, 2], length: [3, 0] }[kind];
  const mark = { kind, places: [placeOf(x, y, digits)], size: 2, number: "", unit: "mm", text: "" };
  if (away) {
    const turned = (value, by, parts) => value + by / parts > 1 || value + by / parts < 0 ? value - by / parts : value + by / parts;
    mark.places.push(placeOf(turned(x, away[0], COLUMNS), turned(y, away[1], ROWS), digits));
  }
  return mark;
}

// A figure as the sheet writes it, or null where it is none or could mean two things.
function figure(typed) {
  const text = typed.trim();
  if (!/^\d{1,6}([.,]\d{1,4})?$/.test(text)) return null;
  const own = data.comma ? "," : ".", other = data.comma ? "." : ",";
  if (text.includes(other) && text.split(other)[1].length === 3) return null;
  return text.replace(other, own);
}

// What a mark lacks to be a line of the sheet.
function lacks(mark) {
  if (mark.kind === "label" && !mark.text.trim()) return "it has no words yet";
  if (mark.kind === "length" && figure(mark.number) === null) return "it has no figure yet";
  return "";
}

// A mark in words, for lists and for those who hear the page.
function inWords(mark) {
  const places = mark.places.join(" to ");
  const more = mark.kind === "ring" ? `, ${mark.size} cells` : mark.kind === "length" ? `, ${mark.number || "?"} ${mark.unit}` : "";
  return `${KINDS[mark.kind].name} at ${places}${more}${mark.text ? ": " + mark.text : ""}`;
}

// All of a mark moved by steps, as far as the photo goes: its shape stays.
function shift(mark, stepsX, stepsY) {
  const ends = mark.places.map(fractions);
  const bounded = (steps, values, parts) => Math.min(
    Math.max(steps, Math.ceil(-Math.min(...values) * parts + 0.01)),
    Math.floor((1 - Math.max(...values)) * parts - 0.01));
  const acrossX = bounded(stepsX, ends.map(end => end.x), COLUMNS * 9);
  const downY = bounded(stepsY, ends.map(end => end.y), ROWS * 9);
  mark.places = mark.places.map(place => moved(place, acrossX, downY));
}
