// The page opens from its own host alone, small enough for a phone on a site, and again without a network.
import assert from "node:assert/strict";
import { cpSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { AxeBuilder } from "@axe-core/playwright";
import { DIST, SHOTS, open, openFirst, test, untilKept, untilWhole } from "./harness.mjs";
import { serve } from "./serve.mjs";

/** All that is fetched before the day is shown, gzip -9. */
const FIRST_LOAD_BYTES = 450_000;

test("the page opens", async ({ page, server }) => {
  await open(page, server);
  assert.match(await page.title(), /Setday$/);
  await page.screenshot({ path: join(SHOTS, "page.png"), fullPage: true });
});

test("the page opens on a phone", { viewport: { width: 390, height: 844 } }, async ({ page, server }) => {
  await open(page, server);
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(overflow <= 0, `the page is ${overflow} px wider than the phone`);
  await page.screenshot({ path: join(SHOTS, "page-phone.png"), fullPage: true });
});

test("the page has no accessibility violations", async ({ page, server }) => {
  await open(page, server);
  const { violations } = await new AxeBuilder({ page }).analyze();
  assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" ")}`), []);
});

test("no request goes to another host", async ({ page, context, server }) => {
  const elsewhere = [];
  context.on("request", (request) => {
    const url = new URL(request.url());
    if (["http:", "https:", "ws:", "wss:"].includes(url.protocol) && url.origin !== new URL(server.address).origin) elsewhere.push(request.url());
  });
  await open(page, server);
  await untilKept(page);
  assert.deepEqual(elsewhere, []);
});

test("the policy stops a request to another host and an inline script", { mayComplain: /Content Security Policy/ }, async ({ page, server, complaints }) => {
  await open(page, server);
  const refused = await page.evaluate(() => fetch("http://127.0.0.2:9/").then(() => false, () => true));
  await page.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "window.inlineRan = true";
    document.body.append(script);
  });
  assert.equal(refused, true);
  assert.equal(await page.evaluate(() => "inlineRan" in window), false);
  assert.ok(complaints.length >= 2, complaints.join("\n"));
});

test("the first load is small", async ({ page, server }) => {
  // What the page itself asks for until the day is shown. The service worker fetches all files behind that, for the yard without a network.
  const rest = ["/setday-desk.js", "/setday-desk_bg.wasm", "/views.css", "/print.css"];
  const asked = new Set();
  let shown = false;
  await page.exposeFunction("dayIsShown", () => { shown = true; });
  await page.addInitScript(() => new MutationObserver((_, observer) => {
    if (document.querySelector("h1") === null) return;
    observer.disconnect();
    window.dayIsShown();
  }).observe(document, { childList: true, subtree: true }));
  page.on("request", (request) => {
    const { pathname } = new URL(request.url());
    if (request.serviceWorker() !== null || (shown && rest.includes(pathname))) return;
    asked.add(pathname);
  });
  await page.goto(server.address);
  await openFirst(page);
  await page.locator(".day").waitFor();
  const size = (file) => gzipSync(readFileSync(join(DIST, file)), { level: 9 }).length;
  let total = 0;
  for (const file of [...asked].map((file) => (file === "/" ? "/index.html" : file)).sort()) {
    total += size(file);
    console.log(`   ${String(size(file)).padStart(8)} bytes gzip  ${file}`);
  }
  console.log(`   ${String(total).padStart(8)} bytes gzip  in all, of ${FIRST_LOAD_BYTES}`);
  console.log(`   ${String(rest.map(size).reduce((a, b) => a + b)).padStart(8)} bytes gzip  later: the other views and checks`);
  assert.ok([...asked].some((file) => file.endsWith(".wasm")), "the wasm is among the files");
  assert.deepEqual(rest.filter((file) => asked.has(file)), [], "the second module waits until the day is shown");
  assert.ok(total <= FIRST_LOAD_BYTES, `first load ${total} bytes, at most ${FIRST_LOAD_BYTES}`);
});

test("behind the day the second module takes over quietly, with the checks that the first one lacks", { serviceWorkers: "block", mayComplain: /Service Worker registration blocked/ }, async ({ page, server }) => {
  let release;
  const held = new Promise((done) => { release = done; });
  await page.route("**/setday-desk.js*", async (route) => {
    await held;
    await route.continue();
  });
  await page.goto(server.address);
  await openFirst(page);
  const day = page.locator(".day");
  assert.match(await page.locator(".ledger").first().innerText(), /Held/);
  assert.match(await day.innerText(), /their part of the program is being loaded/);
  assert.equal(await page.locator("input, select").count(), 0, "nothing can be typed that would be lost");
  // a hand on the page: it is not exchanged under it
  await page.mouse.move(640, 400);
  await page.mouse.down();
  release();
  await page.waitForTimeout(1500);
  assert.equal(await page.evaluate(() => performance.getEntriesByName("whole").length), 0);
  await page.getByRole("link", { name: "Sheets", exact: true }).focus();
  await page.evaluate(() => scrollTo(0, 300));
  await page.mouse.up();
  await untilWhole(page);
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Sheets");
  await page.waitForFunction(() => Math.round(scrollY) === 300);
  assert.doesNotMatch(await day.innerText(), /being loaded/);
  assert.match(await day.innerText(), /voltage not confirmed/);
  assert.equal(await page.locator(".title-block").count(), 1, "one page is shown");
  assert.equal(await page.getByRole("button", { name: /I have read this/ }).count(), 0, "the cautions were accepted before");
});

test("a second module that does not come is told, and the day stays", { serviceWorkers: "block", mayComplain: /setday-desk|ERR_FAILED|Service Worker registration blocked/ }, async ({ page, server }) => {
  await page.route("**/setday-desk.js*", (route) => route.abort());
  await page.goto(server.address);
  await openFirst(page);
  await page.getByText("Nothing but a look at the day can be had").waitFor();
  await page.getByRole("link", { name: "Sheets", exact: true }).click();
  await page.getByText("Opening this view").waitFor();
  await page.getByRole("link", { name: "Day", exact: true }).click();
  await page.locator(".day").waitFor();
  await page.unroute("**/setday-desk.js*");
  await page.getByRole("link", { name: "Sheets", exact: true }).click();
  await page.locator(".sheets").first().waitFor();
});

test("the page opens again without a network", async ({ page, context, server }) => {
  await open(page, server);
  await untilKept(page);
  await server.stop();
  await context.setOffline(true);
  await page.reload();
  await page.locator("h1").first().waitFor();
  assert.match(await page.title(), /Setday$/);
});

test("a newer build takes the place of an untouched older one", async ({ page, server }) => {
  await open(page, server);
  await untilKept(page);
  await server.stop();
  const newer = mkdtempSync(join(tmpdir(), "setday-"));
  cpSync(DIST, newer, { recursive: true });
  const rewrite = (file, from, to) => writeFileSync(join(newer, file), readFileSync(join(newer, file), "utf8").replace(from, to));
  rewrite("sw.js", /"setday-[0-9a-f]{12}"/, '"setday-0123456789ab"');
  rewrite("index.html", /name="build" content="[0-9a-f]{12}"/, 'name="build" content="0123456789ab"');
  const second = await serve(newer, server.port);
  try {
    await page.reload();
    await page.waitForFunction(() => document.querySelector('meta[name="build"]').content === "0123456789ab");
  } finally {
    await second.stop();
  }
});
