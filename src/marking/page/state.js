// The state of the page, its steps back, and what is shown of it.
const data = JSON.parse(document.getElementById("job-data").textContent);
const byId = id => document.getElementById(id);
const state = { items: itemsOf(data), at: 0, chosen: -1, end: 0, tool: "", grid: false, findings: [], opened: "" };
const past = [], future = [];
let lastTag = "", isSaved = true;

// What can be marked: every place of the sheet that names a photo, then the photos that it does not name.
function itemsOf({ uses, photos }) {
  const items = uses.map(use => ({ ...use, isNew: false }));
  photos.forEach((_, photo) => {
    if (!items.some(one => one.photo === photo)) items.push({ photo, list: null, finding: null, part: "", marks: [], isNew: true });
  });
  return items;
}

const item = () => state.items[state.at];
const say = text => { byId("said").textContent = text; };
const kept = () => JSON.stringify({ items: state.items.map(({ marks, list, finding, part }) => ({ marks, list, finding, part })), findings: state.findings, opened: state.opened });

// Keeps the state for a step back; steps of one tag in a row are one.
function remember(tag = "") {
  isSaved = false;
  if (tag && tag === lastTag) return;
  lastTag = tag;
  past.push(kept());
  if (past.length > 500) past.shift();
  future.length = 0;
}

function restore(text) {
  const was = JSON.parse(text);
  was.items.forEach((own, at) => Object.assign(state.items[at], own));
  state.findings = was.findings;
  state.opened = was.opened;
  state.chosen = -1;
  state.tool = "";
  lastTag = "";
}

// One step back; what is left then can be done again unless it was only begun.
function back(again = true) {
  if (!past.length) return;
  if (again) future.push(kept());
  restore(past.pop());
}

function undo() {
  if (drag && drag.byKey) return letGo();
  back();
  isSaved = false;
  say("Undone.");
  show();
}

function redo() {
  if (!future.length) return;
  past.push(kept());
  restore(future.pop());
  isSaved = false;
  say("Done again.");
  show();
}
