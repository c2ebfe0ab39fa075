// Every piece in the load path, as a rigger reads it; the gear list with its tables and its CSV; rule profiles.
import assert from "node:assert/strict";
import { AxeBuilder } from "@axe-core/playwright";
import { readFile } from "node:fs/promises";
import { open, shoot, test } from "./harness.mjs";

async function readsWithoutEyes(page) {
  const { violations } = await new AxeBuilder({ page }).analyze();
  assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join("\n")}`), []);
}

test("the load path runs from the hook to the picks and names its weakest piece", async ({ page, server }) => {
  await open(page, server, "#/rig/2");
  const path = page.locator(".load-path");
  await path.waitFor();
  // 11,856 lb on a pin of 14,000 lb
  assert.equal(await path.locator("p.weakest").innerText(), "Weakest: pin below the strap, kitchen end / south side (G11), 84.7 %");
  // by itself the weakest; the others when asked for
  const weakest = path.locator("table").first().locator("tbody tr");
  assert.equal(await weakest.count(), 1);
  await path.getByText("All 41 pieces and picks").click();
  const rows = path.locator("details tbody tr");
  assert.equal(await rows.count(), 41);
  assert.match(await rows.first().innerText(), /hook and block/);
  assert.equal(await path.locator("details tr.weakest").count(), 1);
  assert.match(await weakest.innerText(), /WEAKEST[\s\S]*G11[\s\S]*11,85[67] lb[\s\S]*14,000 lb[\s\S]*84\.7 %/);
  // apex 4 ft over the eave: 20,006 lb by the scenario's script, from 11,855.7 lb plumb
  assert.match(await page.locator(".eaves tbody tr").first().innerText(), /4\.00 ft[\s\S]*20,00\d lb/);
  await path.scrollIntoViewIfNeeded();
  await shoot(page, "load-path");
  await readsWithoutEyes(page);
});

test("a row of a published table becomes a piece; the list goes out as CSV and comes back", async ({ page, server }) => {
  await open(page, server, "#/edit/gear");
  await page.getByText("Tables of published standards to start from").click();
  await page.getByLabel("Search: what, size, grade, standard").fill("818-4 10 mm two legs");
  await page.getByRole("button", { name: /^Take Chain sling, two legs, 10 mm, grade 8: 4\.25 t for the set, legs down to 45°/ }).click();
  const row = page.locator("table tbody tr").last();
  assert.equal(await row.getByLabel(/Rating vertical/).first().inputValue(), "4.25 t");
  await shoot(page, "gear-tables");
  await readsWithoutEyes(page);
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the list as CSV" }).click()]);
  const csv = await readFile(await download.path(), "utf8");
  const lines = csv.trim().split("\n");
  assert.match(lines[0], /^Tag,What,Kind,On the truck,Rating vertical \(lb\),/);
  assert.equal(lines.length, 20);
  // the same file back in, behind what is there
  await page.getByRole("button", { name: "Paste a table" }).first().click();
  await page.getByLabel("Table to paste").fill(csv);
  await page.getByRole("button", { name: "Put 19 rows into the plan" }).click();
  await page.locator("table tbody tr").nth(37).waitFor();
});

test("a rule profile puts its figures with their sources into the limits", async ({ page, server }) => {
  await open(page, server, "#/edit/limits");
  await page.getByLabel("Profile", { exact: true }).selectOption("Alberta");
  await page.getByRole("button", { name: "Put its figures into the limits" }).click();
  const rule = page.locator(".rules li", { hasText: "Breaking load over rating" });
  await page.getByText("Rules in force, started from Alberta").waitFor();
  assert.match(await rule.innerText(), /5[\s\S]*Alberta OHS Code s\. 292/);
  await shoot(page, "rule-profile");
  await readsWithoutEyes(page);
});
