// Places on the lettered grid: text such as `F4.27` <-> fractions of the upright photo.
const COLUMNS = 12, ROWS = 9;

// The middle of a place, as fractions of width and height.
function fractions(place) {
  const [cell, digits = ""] = place.toUpperCase().split(".");
  let x = cell.charCodeAt(0) - 65, y = cell.charCodeAt(1) - 49, across = COLUMNS, down = ROWS;
  for (const digit of digits) {
    const ninth = digit.charCodeAt(0) - 49;
    x = 3 * x + ninth % 3;
    y = 3 * y + Math.floor(ninth / 3);
    across *= 3;
    down *= 3;
  }
  return { x: (x + 0.5) / across, y: (y + 0.5) / down };
}

// The place that holds a point, with at most this many digits; digits that say "the middle" are left out.
function placeOf(x, y, digits) {
  const fine = 3 ** digits;
  const within = (value, parts) => Math.min(parts - 1, Math.max(0, Math.floor(value * parts)));
  let column = within(x, COLUMNS * fine), row = within(y, ROWS * fine), text = "";
  for (let digit = 0; digit < digits; digit++) {
    text = String(row % 3 * 3 + column % 3 + 1) + text;
    column = Math.floor(column / 3);
    row = Math.floor(row / 3);
  }
  text = text.replace(/5+$/, "");
  return String.fromCharCode(65 + column) + (row + 1) + (text && "." + text);
}

// Two digits are within 0.8 % of a wide photo's width, but a tall one needs a third.
const digitsFor = photo => photo.height > photo.width ? 3 : 2;

// A place moved by steps of the second digit: never stuck, whatever the photo's shape.
function moved(place, stepsX, stepsY) {
  const at = fractions(place);
  return placeOf(at.x + stepsX / (COLUMNS * 9), at.y + stepsY / (ROWS * 9), 2);
}
