// Which crane, and where: the search over the lot in its worker, its map, and the crane as it was taped.
import assert from "node:assert/strict";
import { AxeBuilder } from "@axe-core/playwright";
import { ownTime, open, shoot, test } from "./harness.mjs";

/** Searches the lot of the plan that is open and waits for the end. */
async function searched(page) {
  await page.getByRole("button", { name: "Search the lot" }).click();
  await page.getByRole("status").filter({ hasText: "Done" }).waitFor({ timeout: 120_000 });
  return page.getByRole("status").filter({ hasText: "Done" }).innerText();
}

const row = (page, words) => page.getByRole("row").filter({ has: page.getByRole("rowheader", { name: words }) });

test("the search over the lot names the cranes that can stand and why the others cannot", async ({ page, server }) => {
  await open(page, server, "#/places");
  console.log(`   ${await searched(page)}`);
  // the scenario's figures: the 90 t crane in one patch of 7 places of 0.25 m; part counterweight, half outriggers and the 60 t crane nowhere
  assert.match(await row(page, /^S90, counterweight 22.5 t, outriggers 100/).innerText(), /7 places, 0.4 m²/);
  for (const words of [/^S60, counterweight 10.5/, /^S60, counterweight 3 t/, /^S90, counterweight 9.5/, /^S90, .*outriggers 50 %/, /^S200, counterweight 22 t/]) {
    assert.match(await row(page, words).innerText(), /nowhere/);
  }
  assert.match(await row(page, /^S60, counterweight 10.5/).innerText(), /use of the chart 9\d %/);
  await shoot(page, "places");
  const { violations } = await new AxeBuilder({ page }).withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]).analyze();
  assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" ")}`), []);
  // stood there, every crane-side check is within
  await row(page, /^S90, counterweight 22.5 t, outriggers 100/).getByRole("button", { name: /Stand it there/ }).click();
  await page.getByRole("link", { name: "Day", exact: true }).click();
  assert.match(await page.locator(".sentence").innerText(), /crane's checks are within the limits entered/);
  await page.getByRole("button", { name: /Undo.*stand the crane where the search found/ }).waitFor();
});

test("a search can be stopped, and a change of the plan puts away what it found", async ({ page, server }) => {
  await open(page, server, "#/places");
  await page.getByRole("button", { name: "Search the lot" }).click();
  await page.getByRole("status").filter({ hasText: "Searching: " }).waitFor({ timeout: 60_000 });
  await page.getByRole("button", { name: "Stop" }).click();
  await page.getByRole("status").filter({ hasText: "Stopped" }).waitFor();
  assert.equal(await page.getByRole("table").count(), 1);
  await page.getByRole("button", { name: "Metres and tonnes" }).click();
  await page.getByRole("status").filter({ hasText: "what was found is put away" }).waitFor();
  assert.equal(await page.locator(".places .map").count(), 0);
});

test("a worker of another build is told and nothing of it is shown", { serviceWorkers: "block", mayComplain: /Service Worker registration blocked/ }, async ({ page, server }) => {
  await page.route("**/search.js*", async (route) => {
    const answer = await route.fetch();
    await route.fulfill({ response: answer, body: (await answer.text()).replace(/const BUILD = "[^"]*"/, 'const BUILD = "0123456789ab"') });
  });
  await open(page, server, "#/places");
  await page.getByRole("button", { name: "Search the lot" }).click();
  await page.getByRole("alert").filter({ hasText: "is of another build (0123456789ab)" }).waitFor();
  assert.equal(await page.locator(".places .map").count(), 0);
});

test("two tapes give the crane as set, with every lift again", async ({ page, server }) => {
  await open(page, server, "#/places");
  await page.getByRole("button", { name: "Metres and tonnes" }).click();
  // by hand: the crane at (8.00, -6.80) is √(8.00² + 6.80²) = 10.50 m from the corner at the origin; the second corner is east of it
  const options = await page.getByLabel("Tape 2 from").locator("option").allInnerTexts();
  const [, east] = options.map((words) => /\((-?[\d.]+) m east, (-?[\d.]+) m north/.exec(words)).find((found) => found && Number(found[1]) > 1 && Number(found[2]) === 0);
  await page.getByLabel("Tape 2 from").selectOption({ label: options.find((words) => words.includes(`(${east} m east, 0.00 m north`)) });
  const second = Math.hypot(8.0 - Number(east), 6.8);
  await page.getByLabel("Tape 1 to the slew centre").fill("10.50 m");
  await page.getByLabel("Tape 1 to the slew centre").press("Enter");
  await page.getByLabel("Tape 2 to the slew centre").fill(`${second.toFixed(3)} m`);
  await page.getByLabel("Tape 2 to the slew centre").press("Enter");
  const text = await page.locator(".as-set").innerText();
  assert.match(text, /The slew centre is (7.99|8.00|8.01) m east, [−-]6.(79|80) m north/);
  // 0.3 m back: the lift of box B2 fails
  assert.match(text, /1 of 8 lifts come out worse/);
  assert.match(await row(page, /box B2/).innerText(), /Within\s+Outside/);
  await page.getByLabel("Tape 2 to the slew centre").fill("1 m");
  await page.getByLabel("Tape 2 to the slew centre").press("Enter");
  await page.getByText("do not meet over corners").waitFor();
});

test("dragging stays quick while the lot is searched", async ({ page, context, server }) => {
  await open(page, server, "#/places");
  const client = await context.newCDPSession(page);
  const spent = await ownTime(client);
  await page.getByRole("button", { name: "Search the lot" }).click();
  await page.getByRole("status").filter({ hasText: "Searching: " }).waitFor({ timeout: 60_000 });
  const before = await spent();
  await page.waitForTimeout(1000);
  const took = (await spent()) - before;
  console.log(`   a second of the search takes ${took.toFixed(0)} ms of the page's own time`);
  assert.ok(took < 500);
});
