// The sheet's lines: marks, photos and findings as YAML, and the file that is saved.

// A scalar that reads back as the same text, also between brackets.
function scalar(text) {
  const plain = /^[\p{L}\p{N}][\p{L}\p{N} _.\/()'-]*$/u.test(text) && !/ $/.test(text) && !/^null$/i.test(text);
  return plain ? text : '"' + text.replace(/[\\"]/g, "\\$&") + '"';
}

// Words as the sheet takes them: one line, nothing unseen.
const tidy = text => text.replace(/[\p{Cc}\p{Zl}\p{Zp}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/gu, " ").replace(/\s+/g, " ").trim();

function markLine(mark) {
  const parts = [`${mark.kind}: ${mark.places[0]}`];
  if (OTHER_KEY[mark.kind]) parts.push(`${OTHER_KEY[mark.kind]}: ${mark.places[1]}`);
  if (mark.kind === "ring") parts.push(`size: ${mark.size}`);
  if (mark.kind === "length") parts.push(`measures: ${scalar(figure(mark.number) + " " + mark.unit)}`);
  if (tidy(mark.text)) parts.push(`text: ${scalar(tidy(mark.text))}`);
  return `{${parts.join(", ")}}`;
}

const marksLine = marks => `[${marks.filter(mark => !lacks(mark)).map(markLine).join(", ")}]`;

function photoLine(file, marks) {
  const line = marksLine(marks);
  return line === "[]" ? scalar(file) : `{file: ${scalar(file)}, marks: ${line}}`;
}

// The lines of a finding, from behind its dash.
function findingLines(finding) {
  const photos = list => finding.photos.filter(one => one.list === list)
    .map(one => photoLine(data.photos[one.photo].file, marksOfFree(one.photo)));
  const lines = [`part: ${finding.part}`];
  const put = (key, text) => tidy(text || "") && lines.push(`${key}: ${scalar(tidy(text))}`);
  if (finding.part === "other") put("called", finding.called);
  lines.push(`condition: ${finding.condition}`);
  if (finding.signs.length) lines.push(`signs: [${finding.signs.join(", ")}]`);
  put("bearing", finding.bearing);
  put("note", finding.note);
  if (photos("photos").length) lines.push(`photos: [${photos("photos").join(", ")}]`);
  if (finding.action) lines.push(`action: ${finding.action}`);
  if (photos("photos-after").length) lines.push(`photos-after: [${photos("photos-after").join(", ")}]`);
  return lines;
}

// Where a photo goes, in words and as keys of the saved file.
function placeWords(item) {
  if (item.list === "arrival.photos") return "arrival";
  if (item.list === "exchange.photos") return "exchange";
  if (!item.list) return "";
  const own = data.findings[item.finding - 1];
  return `finding ${item.finding}, ${own.words}, ${item.list === "photos" ? "as found" : "as left"}`;
}

// True for an item that the sheet is to have otherwise than it was when the page was made.
const isChanged = item => item.list && item.marks && (item.isNew || item.before.length > 1 || marksLine(item.marks) !== item.before[0]);

// What the sheet's lines are now, for reading and copying.
function sheetLines() {
  const lines = [];
  for (const item of state.items.filter(isChanged)) {
    const where = item.list.includes(".") ? item.list : `strip-down, finding ${item.finding} (${item.part}), ${item.list}`;
    lines.push(`# ${where}`, `- ${photoLine(data.photos[item.photo].file, item.marks)}`);
  }
  if (state.findings.length) lines.push("# strip-down, findings");
  for (const finding of state.findings) {
    findingLines(finding).forEach((line, at) => lines.push((at ? "  " : "- ") + line));
  }
  return lines.join("\n");
}

// The file for `splitcase mark JOB --take FILE`.
function savedFile() {
  const lines = ["# Saved by the marking page. It goes into the sheet by: splitcase mark JOB --take FILE"];
  if (data.job) lines.push(`job: ${data.job}`);
  const changed = state.items.filter(isChanged);
  if (changed.length) lines.push("photos:");
  for (const item of changed) {
    lines.push(`  - list: ${item.list}`);
    if (!item.list.includes(".")) {
      lines.push(`    finding: ${item.finding}`);
      if (item.part) lines.push(`    part: ${scalar(item.part)}`);
    }
    const file = scalar(data.photos[item.photo].file);
    lines.push(`    photo: {file: ${file}, marks: ${marksLine(item.marks)}}`);
    lines.push(`    replaces: [${item.before.map(marks => `{marks: ${marks}}`).join(", ")}]`);
  }
  if (state.findings.length) {
    if (!data.opened && state.opened) lines.push(`opened: ${state.opened}`);
    const shown = data.findings.filter(own => own.part).map(own => scalar(own.part));
    if (shown.length) lines.push(`shown: [${shown.join(", ")}]`);
    lines.push("findings:");
  }
  for (const finding of state.findings) {
    findingLines(finding).forEach((line, at) => lines.push((at ? "    " : "  - ") + line));
  }
  return lines.join("\n") + "\n";
}

// What keeps something from becoming a line.
function openEnds() {
  const open = [];
  for (const item of state.items) {
    const file = data.photos[item.photo].file;
    if (!item.marks) continue;
    const n = item.marks.filter(lacks).length;
    if (n) open.push(`${file}: ${n === 1 ? "a mark lacks" : n + " marks lack"} its words or its figure and is left out.`);
    if (!item.list && item.marks.length && !isInNewFinding(item.photo)) open.push(`${file} has marks and belongs nowhere yet: choose where.`);
  }
  if (state.findings.length && !data.opened && !state.opened) open.push("The strip-down has no day yet: choose it under Findings.");
  return open;
}
