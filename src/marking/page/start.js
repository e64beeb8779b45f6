// Puts the page together and shows it.
function drawNow() {
  drawMarks(over, item(), state.chosen, state.end, cross);
}

function show(typing) {
  if (!state.items.length) return;
  showPanels(typing);
  showFindings();
  byId("undo").disabled = !past.length;
  byId("redo").disabled = !future.length;
  byId("text-lines").value = sheetLines();
  byId("open-ends").textContent = openEnds().join(" ");
  drawNow();
}

function save() {
  const text = savedFile(), changed = state.items.filter(isChanged);
  const said = byId("save-said");
  if (!changed.length && !state.findings.length) {
    said.textContent = "There is nothing to save yet.";
    return;
  }
  if (state.findings.length && !data.opened && !state.opened) {
    said.textContent = "Choose the day of the strip-down first.";
    return byId("opened").focus();
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/yaml" }));
  link.download = `marks${data.job ? "-" + data.job : ""}.yaml`;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  for (const one of changed) {
    const line = marksLine(one.marks);
    if (!one.before.includes(line)) one.before.push(line);
  }
  isSaved = true;
  said.textContent = `Saved as ${link.download}, in the folder where the browser puts files.`;
}

async function copy() {
  const lines = byId("text-lines");
  try {
    await navigator.clipboard.writeText(lines.value);
  } catch {
    lines.select();
    document.execCommand("copy");
  }
  byId("save-said").textContent = "Copied.";
}

function start() {
  const title = data.job ? `Marks and findings of job ${data.job}` : "Marks and findings";
  // A job's number is never broken at its hyphen.
  byId("title").textContent = title.replaceAll("-", "\u2011");
  byId("command").textContent = `splitcase mark JOB --take marks${data.job ? "-" + data.job : ""}.yaml`;
  for (const one of state.items) one.before = one.marks ? [marksLine(one.marks)] : [];
  fillPanels();
  fillForm();
  showForm();
  byId("undo").addEventListener("click", undo);
  byId("redo").addEventListener("click", redo);
  byId("save").addEventListener("click", save);
  byId("copy").addEventListener("click", copy);
  byId("grid").addEventListener("click", () => {
    state.grid = !state.grid;
    byId("grid").setAttribute("aria-pressed", String(state.grid));
    drawNow();
  });
  document.addEventListener("keydown", event => {
    const isText = /^(INPUT|TEXTAREA)$/.test(event.target.tagName);
    if (!(event.ctrlKey || event.metaKey) || isText) return;
    const key = event.key.toLowerCase();
    if (key === "z" && !event.shiftKey) undo();
    else if (key === "y" || (key === "z" && event.shiftKey)) redo();
    else return;
    event.preventDefault();
  });
  window.addEventListener("beforeunload", event => { if (!isSaved) event.preventDefault(); });
  window.addEventListener("resize", drawNow);
  byId("photo").addEventListener("load", drawNow);
  if (state.items.length) show();
  else {
    showFindings();
    for (const id of ["photos", "mark", "one"]) byId(id).hidden = true;
  }
}
start();
