// A crash covers the page and hands out the last kept plan.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { AxeBuilder } from "@axe-core/playwright";
import { DIST_WITH_PANIC, SHOTS, open, test, untilShelf } from "./harness.mjs";

const panicking = { folder: DIST_WITH_PANIC, mayComplain: /panic|unreachable/ };

/** Panics, with a plan on the shelf where one is wanted. */
async function panic(page, server, kept) {
  await open(page, server);
  if (kept) await page.getByRole("button", { name: /^P2/ }).click();
  const plans = kept ? await untilShelf(page, (plans) => plans.length === 1) : [];
  await page.evaluate(() => { location.hash = "#/panic"; });
  const overlay = page.getByRole("alertdialog");
  await overlay.waitFor();
  // the overlay looks on the shelf first
  await overlay.getByText(/(is still|was kept) on this device/).waitFor();
  return { overlay, plans };
}

test("a panic covers the page and the last kept plan can be saved", panicking, async ({ page, server }) => {
  const { overlay, plans } = await panic(page, server, true);
  assert.match(await overlay.textContent(), /numbers on the page behind this are not to be used/);
  assert.match(await overlay.textContent(), /Build development/);
  assert.match(await overlay.textContent(), /a panic that was asked for/);
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Setday has stopped");
  await page.screenshot({ path: join(SHOTS, "crash.png") });

  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save the last kept plan as a file" }).click(),
  ]);
  assert.equal(download.suggestedFilename(), "setday-last-kept-plan.json");
  assert.equal(readFileSync(await download.path(), "utf8"), plans[0].texts[1]);
  assert.match(plans[0].texts[1], /"-2 m"/, "the edit is in it");
  const { violations } = await new AxeBuilder({ page }).analyze();
  assert.deepEqual(violations.map(({ id }) => id), []);
});

test("the overlay stays, covers the whole page and prints alone", panicking, async ({ page, server }) => {
  const { overlay } = await panic(page, server, true);
  for (let i = 0; i < 3; i += 1) await page.keyboard.press("Escape");
  const box = await overlay.boundingBox();
  assert.deepEqual({ ...box }, { x: 0, y: 0, width: 1280, height: 800 });
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator("h1", { hasText: /^Setday$/ }).isVisible(), false);
  assert.equal(await overlay.isVisible(), true);
});

test("a crash with no plan kept says so", panicking, async ({ page, server }) => {
  const { overlay } = await panic(page, server, false);
  assert.match(await overlay.textContent(), /No plan was kept on this device/);
  assert.equal(await page.getByRole("button", { name: /Save/ }).count(), 0);
  await page.getByRole("button", { name: "Reload" }).click();
  await page.waitForLoadState();
});

test("a plan of an earlier build is offered too", panicking, async ({ page, server }) => {
  const text = '{"note":"as it was last kept, 12′-6″"}';
  await open(page, server);
  await page.evaluate((text) => {
    localStorage.setItem("setday.plan.last", text);
    location.hash = "#/panic";
  }, text);
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save the last kept plan as a file" }).click(),
  ]);
  assert.equal(readFileSync(await download.path(), "utf8"), text);
});

test("a program that does not load says so", { mayComplain: /./ }, async ({ page, server }) => {
  await page.route(/\.wasm$/, (route) => route.abort());
  await page.goto(server.address);
  const overlay = page.getByRole("alertdialog");
  await overlay.waitFor();
  assert.match(await overlay.textContent(), /did not start/);
});

test("an error that leaves the program running covers nothing", { mayComplain: /a mishap/ }, async ({ page, server }) => {
  await open(page, server);
  await page.waitForFunction(() => setdayStarted);
  await page.evaluate(() => { setTimeout(() => { throw new Error("a mishap"); }); });
  await page.waitForTimeout(200);
  assert.equal(await page.getByRole("alertdialog").count(), 0);
});

test("a program that runs out of stack covers the page", { mayComplain: /call stack/ }, async ({ page, server }) => {
  await open(page, server);
  await page.evaluate(() => { setTimeout(function deeper() { deeper(); }); });
  await page.getByRole("alertdialog").waitFor();
});
