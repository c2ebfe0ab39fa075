// Ground, wind and wires of a lift: every figure of the scenario, the pictures, a crane out to a file and in again.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { open, test } from "./harness.mjs";

test("a lift's ground, wind and wires stand with figures, pictures and working", async ({ page, server }) => {
  await open(page, server, "#/lift/2");
  await page.getByRole("link", { name: "Ground, wind, wires" }).click();
  await page.getByRole("heading", { name: "Outriggers and ground" }).waitFor();
  await page.getByRole("button", { name: "Metres and tonnes" }).click();
  const text = await page.locator("article.lift").innerText();
  for (const figure of ["176 kPa", "180 kPa", "395 kPa", "58.00", "57.17", "VOLTAGE NOT CONFIRMED"]) {
    assert.ok(text.includes(figure), `${figure} in ${text}`);
  }
  assert.equal(await page.locator("article.lift figure.drawing svg").count(), 5);
  const wind = page.locator("table", { hasText: "What may still be lifted" });
  assert.match(await wind.locator("tr", { hasText: "box B1" }).innerText(), /4\.4/);
  const ground = page.locator(".verdict", { hasText: "pressure under the mats" }).first();
  await ground.locator("summary").click();
  assert.match(await ground.locator(".working").innerText(), /Shapiro/);
});

test("the 200 t crane is outside on ground at P1 and within at P3", async ({ page, server }) => {
  await open(page, server);
  await page.getByLabel("Crane", { exact: true }).selectOption("S200");
  await page.getByLabel("Configuration and chart").selectOption("S200-full");
  await page.goto(`${server.address}#/ground/5`);
  const ground = page.locator(".verdict", { hasText: "Ground" });
  await ground.first().waitFor();
  assert.ok((await ground.locator(".mark").allInnerTexts()).some((word) => /outside/i.test(word)));
});

test("a crane goes out as a file and comes in again", async ({ page, server }) => {
  await open(page, server, "#/edit/cranes");
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save as S90.crane.json" }).click();
  const path = await (await download).path();
  const crane = JSON.parse(await readFile(path, "utf8"));
  assert.equal(crane.format, "setday crane");
  crane.crane.id = "S91";
  const file = { name: "S91.crane.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(crane)) };
  await page.getByLabel("Take in a crane from its file").setInputFiles(file);
  await page.getByText("S91.crane.json: crane S91 with 3 charts is in the plan").waitFor();
  await page.getByLabel("Take in a crane from its file").setInputFiles({ ...file, name: "half.json", buffer: Buffer.from("{") });
  await page.getByText(/half\.json was not taken in: the file stops making sense/).waitFor();
});
