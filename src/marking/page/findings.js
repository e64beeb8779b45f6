// Findings put together by choosing: part, condition, signs, photos.
let draft = blankFinding(), changing = -1;

function blankFinding() {
  return { part: "", called: "", condition: "", signs: [], bearing: "", note: "", action: "", photos: [] };
}

const wordsOf = (list, name) => (list.find(one => one.name === name) || { words: name }).words;
const partOf = name => data.parts.find(part => part.name === name);
const isInNewFinding = photo => state.findings.some(finding => finding.photos.some(one => one.photo === photo));

// The marks of a photo that the sheet does not name yet; one that it names has its own there.
function marksOfFree(photo) {
  const own = state.items.find(one => one.photo === photo && one.isNew && !one.list);
  return own ? own.marks : [];
}

function fillForm() {
  const groups = [...new Set(data.parts.map(part => part.group))];
  const part = byId("part");
  part.append(new Option("Choose a part", ""));
  for (const group of groups) {
    const set = document.createElement("optgroup");
    set.label = group.replaceAll("-", " ");
    for (const one of data.parts.filter(own => own.group === group)) set.append(new Option(one.words, one.name));
    part.append(set);
  }
  for (const one of data.conditions) choice(byId("conditions"), "radio", "condition", one, () => { draft.condition = one.name; });
  byId("action").append(new Option("Nothing said yet", ""), ...data.actions.map(one => new Option(one.words, one.name)));
  data.photos.forEach((photo, at) => {
    const row = document.createElement("div"), label = document.createElement("label");
    const picture = document.createElement("img"), select = document.createElement("select");
    row.className = "photo-row";
    picture.src = photo.src;
    picture.alt = "";
    label.textContent = photo.file;
    select.append(new Option("not in this finding", ""), new Option("as found", "photos"), new Option("as left", "photos-after"));
    select.addEventListener("change", () => {
      draft.photos = draft.photos.filter(one => one.photo !== at);
      if (select.value) draft.photos.push({ photo: at, list: select.value });
    });
    label.append(select);
    row.append(picture, label);
    byId("finding-photos").append(row);
  });
  part.addEventListener("change", () => { draft.part = part.value; showForm(); });
  byId("find-sign").addEventListener("input", showSigns);
  for (const key of ["called", "bearing", "note", "action"]) byId(key).addEventListener("input", () => { draft[key] = byId(key).value; });
  byId("finding").addEventListener("submit", addFinding);
  byId("clear-finding").addEventListener("click", () => { draft = blankFinding(); changing = -1; showForm(); byId("part").focus(); });
  byId("opened").addEventListener("change", () => { remember(); state.opened = byId("opened").value; show(); });
}

function choice(parent, type, name, one, chosen) {
  const label = document.createElement("label"), input = document.createElement("input"), words = document.createElement("span");
  input.type = type;
  input.name = name;
  input.value = one.name;
  words.textContent = one.words;
  label.append(input, words);
  parent.append(label);
  input.addEventListener("change", () => chosen(input));
  return input;
}

// Signs that may be on the chosen part and have all the words that were typed.
function showSigns() {
  const sought = byId("find-sign").value.toLowerCase().split(/\s+/).filter(Boolean), part = partOf(draft.part);
  const list = byId("signs");
  list.replaceChildren();
  if (!part) return list.append(paragraph("Choose the part first: the signs that it can show come here."));
  const isOnPart = sign => part.name === "other" ? sign.on.some(place => place !== "unit") : sign.on.includes(part.group);
  const fits = data.signs.filter(sign => isOnPart(sign)
    && sought.every(word => `${sign.words} ${sign.trade} ${sign.name}`.toLowerCase().includes(word)));
  for (const sign of fits) {
    choice(list, "checkbox", "sign", sign, input => {
      draft.signs = input.checked ? [...draft.signs, sign.name] : draft.signs.filter(name => name !== sign.name);
      showChosenSigns();
    }).checked = draft.signs.includes(sign.name);
  }
  if (!fits.length) list.append(paragraph("No sign of the list fits these words. A sign in words of your own is typed into the sheet."));
}

function paragraph(text) {
  const element = document.createElement("p");
  element.textContent = text;
  return element;
}

function button(text, name, pressed) {
  const element = document.createElement("button");
  element.type = "button";
  element.textContent = text;
  if (name) element.setAttribute("aria-label", name);
  element.addEventListener("click", pressed);
  return element;
}

function showChosenSigns() {
  const list = byId("chosen-signs");
  list.replaceChildren(...draft.signs.map((name, at) => {
    const row = document.createElement("li"), words = document.createElement("span");
    const text = wordsOf(data.signs, name);
    words.textContent = text;
    const first = button("First", `Put first: ${text}`, () => {
      draft.signs = [name, ...draft.signs.filter(own => own !== name)];
      showChosenSigns();
      list.querySelector("button").focus();
    });
    first.disabled = at === 0;
    row.append(words, first, button("Take away", `Take away: ${text}`, () => {
      draft.signs = draft.signs.filter(own => own !== name);
      showForm();
      byId("find-sign").focus();
    }));
    return row;
  }));
}

function showForm() {
  byId("part").value = draft.part;
  for (const input of document.querySelectorAll("#conditions input")) input.checked = input.value === draft.condition;
  for (const key of ["called", "bearing", "note", "action"]) byId(key).value = draft[key];
  const part = partOf(draft.part);
  byId("called-row").hidden = draft.part !== "other";
  byId("bearing-row").hidden = !part || part.group !== "bearings";
  document.querySelectorAll("#finding-photos select").forEach((select, at) => {
    select.value = (draft.photos.find(one => one.photo === at) || { list: "" }).list;
  });
  byId("finding-title").textContent = changing < 0 ? "A new finding" : `Changing new finding ${changing + 1}`;
  byId("add-finding").textContent = changing < 0 ? "Add this finding" : "Keep this finding";
  byId("finding-help").textContent = "";
  showSigns();
  showChosenSigns();
}

function addFinding(event) {
  event.preventDefault();
  const missing = !draft.part ? ["part", "Choose a part."]
    : draft.part === "other" && !tidy(draft.called) ? ["called", "Say what the part is called."]
    : !draft.condition ? ["conditions", "Choose a condition."] : null;
  if (missing) {
    byId("finding-help").textContent = missing[1];
    return (byId(missing[0]).querySelector("input") || byId(missing[0])).focus();
  }
  remember();
  const part = partOf(draft.part);
  const own = { ...draft, bearing: part.group === "bearings" ? draft.bearing : "", photos: [...draft.photos].sort((a, b) => a.photo - b.photo) };
  if (changing < 0) state.findings.push(own);
  else state.findings[changing] = own;
  draft = blankFinding();
  changing = -1;
  showForm();
  show();
  say(`Finding on ${part.words} is kept.`);
  byId("part").focus();
}

function showFindings() {
  byId("own-findings").replaceChildren(...data.findings.map((own, at) => {
    const row = document.createElement("li");
    row.textContent = `${at + 1} ${own.words}, ${wordsOf(data.conditions, own.condition)}`;
    return row;
  }));
  byId("no-findings").hidden = data.findings.length > 0;
  byId("new-findings").replaceChildren(...state.findings.map((finding, at) => {
    const row = document.createElement("li"), words = finding.called || partOf(finding.part).words;
    row.append(paragraph(`${words}, ${wordsOf(data.conditions, finding.condition)}`));
    const buttons = document.createElement("div");
    buttons.className = "row";
    buttons.append(button("Change", `Change: ${words}`, () => {
      draft = { ...finding, signs: [...finding.signs], photos: [...finding.photos] };
      changing = at;
      showForm();
      byId("part").focus();
    }), button("Take away", `Take away: ${words}`, () => {
      remember();
      state.findings.splice(at, 1);
      if (changing >= 0) { draft = blankFinding(); changing = -1; showForm(); }
      show();
      byId("part").focus();
    }));
    row.append(buttons);
    return row;
  }));
  byId("none-new").hidden = state.findings.length > 0;
  byId("opened-row").hidden = data.opened;
  byId("opened").value = state.opened;
}
