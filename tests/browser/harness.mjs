// What every end-to-end test stands on: `test(name, body)`, pages that fail on any complaint of the browser, folders.
import { spawn } from "node:child_process";
import { existsSync, mkdirSync } from "node:fs";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import { serve } from "./serve.mjs";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
/** The release page. */
export const DIST = join(ROOT, "dist");
/** The same with a panic button: `#/panic`. */
export const DIST_WITH_PANIC = join(ROOT, "target/dist-panic");
/** Where screenshots go. */
export const SHOTS = join(ROOT, "target/shots");
mkdirSync(SHOTS, { recursive: true });

const tests = [];

/** Declares a test. Its body gets `{ page, context, server, complaints }`; options: `folder`, `viewport`, `serviceWorkers`, `mayComplain`. */
export function test(name, options, body = options) {
  tests.push({ name, options: body === options ? {} : options, body });
}

/** Runs the tests whose name contains the filter. Prints each and a last line of counts. */
export async function runAll(filter) {
  const browser = await launch();
  let passed = 0;
  const failed = [];
  for (const { name, options, body } of tests.filter((test) => test.name.includes(filter))) {
    try {
      await runOne(browser, options, body);
      passed += 1;
      console.log(`ok ${name}`);
    } catch (error) {
      failed.push(name);
      console.log(`FAILED ${name}\n${error.stack}`);
    }
  }
  await browser.close();
  if (passed + failed.length === 0) console.log(`No test's name contains: ${filter}`);
  console.log(`\n${passed} passed, ${failed.length} failed`);
  return failed.length === 0 && passed > 0;
}

async function runOne(browser, { folder = DIST, viewport = { width: 1280, height: 800 }, serviceWorkers = "allow", mayComplain }, body) {
  if (!existsSync(join(folder, "index.html"))) throw new Error(`no page in ${folder}: build it with cargo verify`);
  const server = await serve(folder);
  const context = await browser.newContext({ viewport, serviceWorkers });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  const reload = page.reload.bind(page);
  page.reload = async () => {
    await reload();
    await untilWhole(page);
  };
  const complaints = [];
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) complaints.push(`${message.type()}: ${message.text()}`);
  });
  page.on("pageerror", (error) => complaints.push(`uncaught: ${error.message}`));
  try {
    await body({ page, context, server, complaints });
    const unexpected = complaints.filter((complaint) => !mayComplain?.test(complaint));
    if (unexpected.length > 0) throw new Error(`the browser complains:\n${unexpected.join("\n")}`);
  } finally {
    await context.close();
    await server.stop();
  }
}

const SWITCHES = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run"];

function launch() {
  return chromium.launch({ executablePath: process.env.CHROMIUM ?? onPath("chromium"), args: SWITCHES });
}

/** A browser of its own with a profile that outlives it: `kill` ends all its processes at once, as a dead battery does. */
export async function launchToKill(profile) {
  const words = [...SWITCHES, "--headless=new", "--remote-debugging-port=0", `--user-data-dir=${profile}`, "about:blank"];
  // a process group of its own, so that its helpers end with it
  const child = spawn(process.env.CHROMIUM ?? onPath("chromium"), words, { detached: true, stdio: ["ignore", "ignore", "pipe"] });
  const ended = new Promise((done) => child.on("close", done));
  const kill = async () => {
    try { process.kill(-child.pid, "SIGKILL"); } catch (error) { if (error.code !== "ESRCH") throw error; }
    await ended;
  };
  const address = await new Promise((resolve, reject) => {
    let said = "";
    child.stderr.on("data", (text) => {
      said += text;
      const found = /DevTools listening on (\S+)/.exec(said);
      if (found) resolve(found[1]);
    });
    ended.then(() => reject(new Error(`the browser ended: ${said}`)));
  });
  const browser = await chromium.connectOverCDP(address);
  const page = await browser.contexts()[0].newPage();
  page.setDefaultTimeout(15_000);
  return { page, kill };
}

function onPath(program) {
  const found = process.env.PATH.split(delimiter).map((folder) => join(folder, program)).find(existsSync);
  if (!found) throw new Error(`no ${program} on the path: install it, or set the variable CHROMIUM to where it is`);
  return found;
}

/** Waits until the second module has taken the page over. */
export function untilWhole(page) {
  return page.waitForFunction(() => performance.getEntriesByName("whole").length > 0 || document.querySelector("dialog.crash"));
}

/** Opens the page, waits until it is whole, and reads the cautions where they are still to be accepted. */
export async function open(page, server, hash = "") {
  await page.goto(server.address + hash);
  await untilWhole(page);
  await openFirst(page);
}

/** The same without waiting for the second module. */
export async function openFirst(page) {
  await page.locator("h1").first().waitFor();
  const accept = page.getByRole("button", { name: "I have read this" });
  if (await accept.isVisible()) await accept.click();
  await page.locator(".title-block").waitFor();
}

/** What is kept on this device: `plans` by key, each record with its `texts` by turn. */
export function shelf(page) {
  return page.evaluate(async () => {
    const done = (request) => new Promise((resolve, reject) => { request.onsuccess = () => resolve(request.result); request.onerror = () => reject(request.error); });
    const database = await done(indexedDB.open("setday"));
    if (database.objectStoreNames.length === 0) throw new Error("there is no shelf yet");
    const tables = database.transaction(["plans", "texts"]);
    const [ids, records, keys, texts] = await Promise.all(["plans", "texts"].flatMap((name) => {
      const table = tables.objectStore(name);
      return [done(table.getAllKeys()), done(table.getAll())];
    }));
    database.close();
    return ids.map((id, at) => {
      const own = keys.map(([plan, turn], nth) => [plan, turn, texts[nth]]).filter(([plan]) => plan === id);
      let record = {};
      try { record = JSON.parse(records[at]); } catch { /* a damaged one has a key and texts only */ }
      return { id, ...record, texts: Object.fromEntries(own.map(([, turn, text]) => [turn, text])) };
    });
  });
}

/** Waits until the shelf is as `holds` wants it, and gives it. */
export async function untilShelf(page, holds) {
  let plans;
  for (let i = 0; i < 500; i += 1) {
    plans = await shelf(page);
    if (holds(plans)) return plans;
    await page.waitForTimeout(10);
  }
  throw new Error(`the shelf does not come to that: ${JSON.stringify(plans.map(({ texts, ...record }) => ({ ...record, texts: Object.keys(texts) })))}`);
}

/** Screenshots of a view as it is on a desk, on a tablet and on a phone. */
export async function shoot(page, name) {
  for (const [width, height] of [[1440, 900], [820, 1180], [390, 844]]) {
    await page.setViewportSize({ width, height });
    await page.screenshot({ path: join(SHOTS, `${name}-${width}.png`), fullPage: true });
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    if (overflow > 0) throw new Error(`${name} is ${overflow} px wider than a screen of ${width} px`);
  }
}

/** Waits until the service worker answers for the page. */
export async function untilKept(page) {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (!navigator.serviceWorker.controller) {
      await new Promise((done) => navigator.serviceWorker.addEventListener("controllerchange", done, { once: true }));
    }
  });
}

/** What a page has spent so far on script, style and layout, ms: its own time on the processor, without what the machine does beside it. */
export async function ownTime(client) {
  await client.send("Performance.enable", { timeDomain: "threadTicks" });
  return async () => {
    const { metrics } = await client.send("Performance.getMetrics");
    const of = (name) => metrics.find((metric) => metric.name === name).value;
    return 1000 * (of("ScriptDuration") + of("LayoutDuration") + of("RecalcStyleDuration"));
  };
}
