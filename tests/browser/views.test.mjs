// Every view: its picture on desk, tablet and phone, no sideways scroll, no accessibility violation.
import assert from "node:assert/strict";
import { AxeBuilder } from "@axe-core/playwright";
import { open, shoot, test } from "./harness.mjs";

const VIEWS = { day: "#/", lift: "#/lift/5", rig: "#/rig/2", sheets: "#/sheets", plans: "#/plans", cautions: "#/about" };

for (const [name, hash] of Object.entries(VIEWS)) {
  test(`view ${name} fits every screen and reads without eyes`, async ({ page, server }) => {
    await open(page, server, hash);
    await shoot(page, name);
    const { violations } = await new AxeBuilder({ page }).analyze();
    assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join("\n")}`), []);
  });
}

test("the first start fits every screen and reads without eyes", async ({ page, server }) => {
  await page.goto(server.address);
  await page.getByRole("button", { name: "I have read this" }).waitFor();
  await shoot(page, "first-start");
  const { violations } = await new AxeBuilder({ page }).analyze();
  assert.deepEqual(violations.map(({ id }) => id), []);
});
