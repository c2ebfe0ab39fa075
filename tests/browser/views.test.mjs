// Every view: its picture on desk, tablet and phone, no sideways scroll, no accessibility violation.
import assert from "node:assert/strict";
import { AxeBuilder } from "@axe-core/playwright";
import { open, shoot, test } from "./harness.mjs";

const VIEWS = { day: "#/", lift: "#/lift/5", rig: "#/rig/2", ground: "#/ground/5", sheets: "#/sheets", plans: "#/plans", cautions: "#/about" };

/** Parts of the plan that are edited, each a view of its own. */
const PARTS = ["boxes", "assemblies", "gear", "rigs", "cranes", "charts", "lifts", "limits", "site", "project"];
for (const part of PARTS) VIEWS[`edit ${part}`] = `#/edit/${part}`;

for (const [name, hash] of Object.entries(VIEWS)) {
  test(`view ${name} fits every screen and reads without eyes`, async ({ page, server }) => {
    await open(page, server, hash);
    await page.locator("main h2").first().waitFor();
    await shoot(page, name.replace(" ", "-"));
    // the last shot is the phone's; the desk has what a phone leaves out
    for (const width of [390, 1440]) {
      await page.setViewportSize({ width, height: 900 });
      const { violations } = await new AxeBuilder({ page }).analyze();
      assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join("\n")}`), [], `${width} px`);
    }
  });
}

test("the first start fits every screen and reads without eyes", async ({ page, server }) => {
  await page.goto(server.address);
  await page.getByRole("button", { name: "I have read this" }).waitFor();
  await shoot(page, "first-start");
  const { violations } = await new AxeBuilder({ page }).analyze();
  assert.deepEqual(violations.map(({ id }) => id), []);
});
