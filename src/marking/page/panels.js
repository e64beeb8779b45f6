// The lists and fields beside the photo.
const ICONS = {
  "": "M5 3l12 9-6 1-3 6z",
  ring: "M12 4a8 8 0 1 0 .01 0z",
  arrow: "M19 5L5 19M5 10v9h9",
  box: "M4 6h16v12H4z",
  label: "M5 6h14M12 6v13",
  length: "M3 12h18M3 7v10M21 7v10",
};

function fillPanels() {
  for (const kind of ["", ...Object.keys(KINDS)]) {
    const tool = button(kind ? KINDS[kind].name : "Move", "", event => arm(kind, event.detail === 0));
    tool.dataset.kind = kind;
    const icon = document.createElementNS(SVG, "svg");
    icon.setAttribute("viewBox", "0 0 24 24");
    icon.setAttribute("aria-hidden", "true");
    shape(icon, "path", { d: ICONS[kind] });
    tool.prepend(icon);
    byId("tools").append(tool);
  }
  byId("unit").append(...UNITS.map(unit => new Option(unit, unit)));
  const pad = [["\u2196", "left and up", -1, -1], ["\u2191", "up", 0, -1], ["\u2197", "right and up", 1, -1],
    ["\u2190", "left", -1, 0], null, ["\u2192", "right", 1, 0],
    ["\u2199", "left and down", -1, 1], ["\u2193", "down", 0, 1], ["\u2198", "right and down", 1, 1]];
  for (const step of pad) {
    byId("pad").append(step ? button(step[0], `Move ${step[1]}`, () => nudge(step[2], step[3])) : document.createElement("span"));
  }
  state.items.forEach((one, at) => {
    const row = document.createElement("li"), open = button("", "", () => openPhoto(at));
    const picture = document.createElement("img"), name = document.createElement("b"), words = document.createElement("span");
    picture.src = data.photos[one.photo].src;
    picture.alt = "";
    name.textContent = data.photos[one.photo].file;
    open.append(picture, name, words);
    row.append(open);
    byId("strip").append(row);
  });
  const belongs = byId("belongs");
  belongs.append(new Option("nothing yet", ""));
  for (const block of data.blocks) belongs.append(new Option(block === "arrival" ? "the arrival" : "the unit in exchange", `${block}.photos`));
  data.findings.forEach((own, at) => {
    belongs.append(new Option(`${at + 1} ${own.words}, as found`, `${at} photos`), new Option(`${at + 1} ${own.words}, as left`, `${at} photos-after`));
  });
  belongs.addEventListener("change", () => {
    remember();
    const [first, list] = belongs.value.split(" "), one = item();
    one.list = list || first || null;
    one.finding = list ? Number(first) + 1 : null;
    one.part = list ? data.findings[Number(first)].part : "";
    show();
  });
  field("text", "text", mark => byId("text").value.slice(0, 160));
  field("number", "number", () => byId("number").value);
  field("unit", "unit", () => byId("unit").value);
  field("size", "size", mark => {
    const size = Math.round(Number(byId("size").value) * 10) / 10;
    return size >= 0.5 && size <= 12 ? size : mark.size;
  });
  byId("end").addEventListener("change", () => chooseEnd(Number(byId("end").value)));
  byId("delete").addEventListener("click", () => removeMark());
  byId("details").addEventListener("submit", event => event.preventDefault());
}

// A field of the chosen mark: what is typed shows at once, and is one step to undo.
function field(id, key, read) {
  byId(id).addEventListener("input", () => {
    const mark = item().marks[state.chosen];
    if (!mark) return;
    remember(key + state.chosen);
    mark[key] = read(mark);
    show(byId(id));
  });
}

function arm(kind, byKey) {
  if (!item().marks) return;
  if (drag && drag.byKey) back(false);
  drag = null;
  state.tool = kind;
  cross = kind && byKey ? "F5" : "";
  if (kind) say(byKey ? `${KINDS[kind].name}: move the cross and press Enter. It is at F5.` : `${KINDS[kind].name}: tap its place, or drag from it.`);
  show();
  if (byKey && kind) stage.focus();
}

function openPhoto(at) {
  if (drag && drag.byKey) letGo();
  state.at = at;
  state.chosen = -1;
  state.tool = "";
  cross = "";
  show();
  byId("mark").scrollIntoView({ block: "start" });
  byId("mark").focus({ preventScroll: true });
}

function choose(at) {
  state.chosen = at;
  state.end = lastEnd();
  state.tool = "";
  say(inWords(item().marks[at]));
  show();
}

function chooseEnd(end) {
  state.end = end;
  say(`Moving ${ends(item().marks[state.chosen])[end]}.`);
  show();
}

function removeMark() {
  remember();
  const [gone] = item().marks.splice(state.chosen, 1);
  state.chosen = -1;
  say(`Taken away: ${inWords(gone)}.`);
  show();
  stage.focus({ preventScroll: true });
}

function showPanels(typing) {
  const one = item(), photo = data.photos[one.photo], marks = one.marks || [];
  document.querySelectorAll("#strip button").forEach((open, at) => {
    const own = state.items[at], n = (own.marks || []).length;
    open.setAttribute("aria-pressed", String(at === state.at));
    const where = placeWords(own) || (isInNewFinding(own.photo) ? "new finding" : "not on the sheet yet");
    open.querySelector("span").textContent = `${where}${n ? `, ${n} ${n === 1 ? "mark" : "marks"}` : ""}`;
  });
  if (byId("photo").dataset.photo !== String(one.photo)) {
    byId("photo").src = photo.src;
    byId("photo").width = photo.width;
    byId("photo").height = photo.height;
    byId("photo").dataset.photo = one.photo;
    // The whole of a tall photo fits the window.
    stage.style.maxWidth = `calc(max(85vh, 26rem) * ${photo.width / photo.height})`;
  }
  byId("mark-title").textContent = photo.file;
  byId("stage-name").textContent = `Photo ${photo.file} with ${marks.length} ${marks.length === 1 ? "mark" : "marks"}`;
  byId("where").textContent = !one.marks ? "The marks that the sheet has here cannot be read: mend the sheet, then make this page anew."
    : one.isNew ? "" : `On the sheet: ${placeWords(one)}.`;
  byId("belongs-row").hidden = !one.isNew || isInNewFinding(one.photo);
  byId("belongs").value = !one.list ? "" : one.finding ? `${one.finding - 1} ${one.list}` : one.list;
  for (const tool of document.querySelectorAll("#tools button")) {
    tool.setAttribute("aria-pressed", String(tool.dataset.kind === state.tool));
    tool.disabled = !one.marks;
  }
  stage.classList.toggle("arming", Boolean(state.tool));
  byId("no-marks").hidden = marks.length > 0;
  showMarkList(marks);
  const mark = marks[state.chosen];
  byId("details").hidden = !mark;
  if (mark) showDetails(mark, typing);
}

function showMarkList(marks) {
  const list = byId("marks");
  const focused = [...list.children].findIndex(row => row.contains(document.activeElement));
  while (list.children.length > marks.length) list.lastChild.remove();
  while (list.children.length < marks.length) {
    const row = document.createElement("li"), at = list.children.length;
    row.append(button("", "", () => choose(at)));
    list.append(row);
  }
  marks.forEach((mark, at) => {
    const open = list.children[at].firstChild;
    open.textContent = `${at + 1} ${inWords(mark)}${lacks(mark) ? ` (${lacks(mark)})` : ""}`;
    open.setAttribute("aria-pressed", String(at === state.chosen));
  });
  if (focused >= marks.length) stage.focus({ preventScroll: true });
}

function showDetails(mark, typing) {
  byId("details-title").textContent = `Mark ${state.chosen + 1}: ${KINDS[mark.kind].name}`;
  for (const key of ["text", "size", "number", "unit"]) if (byId(key) !== typing) byId(key).value = mark[key];
  byId("size-row").hidden = mark.kind !== "ring";
  byId("measure-row").hidden = mark.kind !== "length";
  const isOdd = mark.kind === "length" && mark.number.trim() && figure(mark.number) === null;
  byId("number-help").textContent = isOdd ? `Write a number such as ${data.comma ? "12,5" : "12.5"}, thousands ungrouped.` : "";
  byId("number").setAttribute("aria-invalid", String(Boolean(isOdd)));
  const choices = ends(mark), select = byId("end");
  byId("end-row").hidden = choices.length < 2;
  select.replaceChildren(...choices.map((words, at) => new Option(words, at)));
  select.value = String(Math.min(state.end, choices.length - 1));
}
