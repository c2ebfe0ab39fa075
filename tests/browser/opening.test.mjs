// The page opens from its own host alone, small enough for a phone on a site, and again without a network.
import assert from "node:assert/strict";
import { cpSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { AxeBuilder } from "@axe-core/playwright";
import { DIST, SHOTS, open, test, untilKept } from "./harness.mjs";
import { serve } from "./serve.mjs";

/** All that a first load fetches, gzip -9. The aim is 450 KB; this is where it stands, and it may only come down. */
const FIRST_LOAD_BYTES = 690_000;

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
  await open(page, server);
  await untilKept(page);
  let total = 0;
  for (const file of [...new Set(server.requests)].sort()) {
    const size = gzipSync(readFileSync(join(DIST, file)), { level: 9 }).length;
    total += size;
    console.log(`   ${String(size).padStart(8)} bytes gzip  ${file}`);
  }
  console.log(`   ${String(total).padStart(8)} bytes gzip  in all, of ${FIRST_LOAD_BYTES}`);
  assert.ok(server.requests.some((file) => file.endsWith(".wasm")), "the wasm is among the files");
  assert.ok(total <= FIRST_LOAD_BYTES, `first load ${total} bytes, at most ${FIRST_LOAD_BYTES}`);
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
