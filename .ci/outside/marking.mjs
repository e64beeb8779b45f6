// Works on marking pages as people do, in a real browser: by mouse, by touch, by keys alone.
//
// usage: node marking.mjs ORDERS.json     (NODE_PATH-like: run in the folder with node_modules)
// in:    orders: {page, hostile, out, marks: [{photo, kind, way, at: [[x, y], ...], text, number}],
//        move: {photo, from, to}, finding}; places are fractions of the upright photo
// out:   OUT/mouse.yaml, OUT/touch.yaml, OUT/keys.yaml as the page saves them; on stdout one JSON
//        object {problems: [[check, subject, [problem, ...]], ...]}
import { createRequire } from "node:module";
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
const require = createRequire(`${process.cwd()}/`);
const { chromium } = require("playwright-core");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

const orders = JSON.parse(readFileSync(process.argv[2], "utf8"));
const problems = [];
const record = (check, subject, found) => problems.push([check, subject, found.map(String)]);
const browser = await chromium.launch({
  executablePath: "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync"],
});

// Opens a page and notes whatever it asks for or complains of.
async function opened(file, options) {
  const context = await browser.newContext({ acceptDownloads: true, ...options });
  const page = await context.newPage();
  page.complaints = [];
  const own = pathToFileURL(file).href;
  page.on("request", request => {
    if (request.url() !== own && !/^(data|blob):/.test(request.url())) page.complaints.push(`asks for ${request.url()}`);
  });
  page.on("pageerror", error => page.complaints.push(error.message));
  page.on("console", message => { if (message.type() === "error") page.complaints.push(message.text()); });
  page.on("dialog", dialog => { page.complaints.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
  await page.goto(own);
  await page.waitForSelector("#strip button");
  return page;
}

const openPhoto = async (page, name) => {
  const button = page.locator("#strip button").filter({ has: page.getByText(name, { exact: true }) }).first();
  await button.click();
  await page.locator("#stage").scrollIntoViewIfNeeded();
};

// A place on the screen by its fractions of the photo.
const onScreen = async (page, [x, y]) => {
  const box = await page.locator("#over").boundingBox();
  return { x: box.x + x * box.width, y: box.y + y * box.height };
};

async function mouseDrag(page, from, to) {
  const a = await onScreen(page, from), b = await onScreen(page, to);
  await page.mouse.move(a.x, a.y);
  await page.mouse.down();
  if (to !== from) await page.mouse.move((a.x + b.x) / 2, (a.y + b.y) / 2);
  if (to !== from) await page.mouse.move(b.x, b.y, { steps: 4 });
  await page.mouse.up();
}

async function touchDrag(page, from, to) {
  const a = await onScreen(page, from), b = await onScreen(page, to);
  const session = await page.context().newCDPSession(page);
  const send = (type, points) => session.send("Input.dispatchTouchEvent", { type, touchPoints: points });
  await send("touchStart", [a]);
  if (to !== from) {
    for (const share of [0.3, 0.6, 1]) await send("touchMove", [{ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }]);
  }
  await send("touchEnd", []);
  await session.detach();
}

// Goes on by the Tab key until the focus is on what is wanted.
async function tabTo(page, selector, text) {
  for (let n = 0; n < 400; n++) {
    const isThere = await page.evaluate(([selector, text]) => {
      const at = document.activeElement;
      return Boolean(at && at.matches(selector) && (!text || at.textContent.includes(text)));
    }, [selector, text]);
    if (isThere) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`the Tab key does not reach ${selector} ${text || ""}`);
}

// Moves the cross from the photo's upper left corner; places are middles of 108 by 81 parts.
async function crossTo(page, [x, y]) {
  for (let n = 0; n < 13; n++) await page.keyboard.press("Shift+ArrowLeft");
  for (let n = 0; n < 10; n++) await page.keyboard.press("Shift+ArrowUp");
  for (const [key, parts] of [["ArrowRight", Math.floor(x * 108)], ["ArrowDown", Math.floor(y * 81)]]) {
    for (let n = 0; n < Math.floor(parts / 9); n++) await page.keyboard.press(`Shift+${key}`);
    for (let n = 0; n < parts % 9; n++) await page.keyboard.press(key);
  }
}

async function byKeys(page, mark) {
  await tabTo(page, "#strip button", mark.photo);
  await page.keyboard.press("Enter");
  await tabTo(page, `#tools button[data-kind="${mark.kind}"]`);
  await page.keyboard.press("Space");
  await crossTo(page, mark.at[0]);
  await page.keyboard.press("Enter");
  if (mark.kind === "ring") {
    for (let n = 0; n < 5; n++) await page.keyboard.press("+");
  } else if (mark.at.length > 1) {
    await crossTo(page, mark.at[1]);
    await page.keyboard.press("Enter");
  }
  if (mark.number) await page.keyboard.type(mark.number);
  else if (mark.text) {
    await tabTo(page, "#text");
    await page.keyboard.type(mark.text);
  }
}

async function byPointer(page, mark, drag) {
  await openPhoto(page, mark.photo);
  await page.locator(`#tools button[data-kind="${mark.kind}"]`).click();
  await page.locator("#stage").scrollIntoViewIfNeeded();
  await drag(page, mark.at[0], mark.at[1] || mark.at[0]);
  if (mark.number) await page.fill("#number", mark.number);
  if (mark.text) await page.fill("#text", mark.text);
}

async function save(page, name) {
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#save")]);
  await download.saveAs(`${orders.out}/${name}.yaml`);
}

async function judged(page, subject) {
  // The policy of the page forbids added scripts; the debugger's own evaluation is not bound by it.
  await page.evaluate(`${axe}; undefined`);
  const { violations } = await page.evaluate(() => window.axe.run(document, {
    runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
  }));
  record("axe-core", subject, violations.map(one => `${one.id}: ${one.help}: ${one.nodes.map(node => node.target).join(" ")}`));
  const wide = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  record("no sideways scrolling", subject, wide[0] > wide[1] ? [`${wide[0]} of ${wide[1]} pixels`] : []);
  const small = await page.evaluate(() => [...document.querySelectorAll("button, select, input, summary, .choices label")]
    .filter(one => one.offsetParent && !(one.matches("input") && one.closest("label")))
    .filter(one => { const box = one.getBoundingClientRect(); return box.height < 44 || box.width < 44; })
    .map(one => one.id || one.textContent));
  record("targets of 44 pixels", subject, small);
}

async function ways() {
  const wide = { viewport: { width: 1280, height: 900 } }, phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
  for (const [way, options] of [["mouse", wide], ["touch", phone], ["keys", wide]]) {
    const page = await opened(orders.page, options);
    for (const mark of orders.marks.filter(mark => mark.way === way)) {
      if (way === "keys") await byKeys(page, mark);
      else await byPointer(page, mark, way === "mouse" ? mouseDrag : touchDrag);
    }
    if (way === "mouse") {
      await openPhoto(page, orders.move.photo);
      await mouseDrag(page, orders.move.from, orders.move.to);
      await finding(page, orders.finding);
      await backAndForth(page);
    }
    if (way === "keys") {
      await tabTo(page, "#save");
    }
    await save(page, way);
    record("asks for nothing, complains of nothing", way, page.complaints);
    await page.context().close();
  }
}

async function finding(page, wanted) {
  await page.selectOption("#part", wanted.part);
  await page.check(`#conditions input[value="${wanted.condition}"]`);
  for (const sign of wanted.signs) {
    await page.fill("#find-sign", sign.sought);
    await page.check(`#signs input[value="${sign.name}"]`);
  }
  await page.fill("#note", wanted.note);
  await page.locator(".photo-row").filter({ hasText: wanted.photo }).locator("select").selectOption("photos");
  await page.selectOption("#action", wanted.action);
  await page.click("#add-finding");
}

// Every step back and again gives the same lines.
async function backAndForth(page) {
  const lines = () => page.inputValue("#text-lines");
  const whole = await lines(), found = [];
  let steps = 0;
  while (await page.locator("#undo").isEnabled()) {
    await page.click("#undo");
    steps += 1;
  }
  if (await lines() !== "") found.push("something is left after every step back");
  for (let n = 0; n < steps; n++) await page.click("#redo");
  if (await lines() !== whole) found.push("the lines differ after all steps were done again");
  record("undo and redo", `${steps} steps`, steps < 8 ? [...found, "too few steps"] : found);
}

async function looks() {
  for (const width of [390, 1280]) {
    for (const colorScheme of ["light", "dark"]) {
      const subject = `${width} pixels, ${colorScheme}`;
      const page = await opened(orders.page, { viewport: { width, height: 844 }, colorScheme });
      await judged(page, subject);
      await openPhoto(page, orders.move.photo);
      await page.locator("#marks button").first().click();
      await page.selectOption("#part", "main-bearing-drive-side");
      await page.check("#signs input >> nth=0");
      await page.click("summary");
      await page.click("#grid");
      await judged(page, `${subject}, a mark chosen`);
      await page.click('#tools button[data-kind="length"]');
      await mouseDrag(page, [0.2, 0.2], [0.5, 0.4]);
      await page.fill("#number", "1,2,3");
      await page.click("#add-finding");
      await judged(page, `${subject}, with mistakes`);
      await page.screenshot({ path: `${orders.out}/page-${width}-${colorScheme}.png`, fullPage: true });
      await page.context().close();
    }
  }
}

async function hostile() {
  const page = await opened(orders.page, { viewport: { width: 1280, height: 900 } });
  for (const name of orders.hostile) {
    const shown = await page.getByText(name, { exact: true }).count();
    record("a hostile name is text", name, shown ? [] : ["it is not shown as it is"]);
  }
  // The check can fail: the policy keeps scripts and requests out that a page without it would let in.
  const outcome = await page.evaluate(async () => {
    const broken = [];
    document.addEventListener("securitypolicyviolation", event => broken.push(event.effectiveDirective));
    document.body.insertAdjacentHTML("beforeend", "<img src=\"file:///none.png\" onerror=\"window.harm = 1\">");
    const script = document.createElement("script");
    script.textContent = "window.harm = 2";
    document.body.append(script);
    let fetched = "refused";
    await fetch("file:///etc/hostname").then(() => { fetched = "answered"; }, () => {});
    await new Promise(done => setTimeout(done, 200));
    return { broken, fetched, harm: window.harm };
  });
  const found = ["img-src", "script-src-elem", "connect-src"].filter(one => !outcome.broken.includes(one)).map(one => `${one} is not refused`);
  if (outcome.harm || outcome.fetched !== "refused") found.push(`harm: ${outcome.harm}, fetch: ${outcome.fetched}`);
  record("the policy refuses scripts and requests", "page", found);
  await page.context().close();
}

try {
  await ways();
  await looks();
  await hostile();
} catch (error) {
  record("works by mouse, touch and keys", "browser", [error.stack]);
}
await browser.close();
writeFileSync(1, JSON.stringify({ problems }) + "\n");
