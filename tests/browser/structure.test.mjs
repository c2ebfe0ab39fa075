// The box as a beam and the roof that is raised: the view, its way from the lift, what is said without a stiffness, the printed sheet.
import assert from "node:assert/strict";
import { open, shoot, test } from "./harness.mjs";

/** The figure under a name among the big ones. */
const big = (page, name) => page.locator(".key-figures div", { has: page.getByText(name, { exact: true }) }).locator("dd").innerText();

/** Literals: tests/oracles/kitchen_box.txt, 33,703 and 75,848 N·m printed up in kip·ft; shear 48.2 to 48.5 kN. */
test("the kitchen box hogs over its picks, and says what its stiffness is from", async ({ page, server }) => {
  await open(page, server, "#/lift/2");
  await page.getByRole("link", { name: "Box and roof" }).click();
  await page.locator(".structure svg").first().waitFor();
  assert.match(await big(page, "Sagging moment"), /^24\.9 kip·ft/);
  assert.match(await big(page, "Hogging moment"), /^56\.0 kip·ft/);
  assert.match(await big(page, "Compression"), /^0 lb/);
  const text = await page.locator("main").innerText();
  for (const words of ["bound: rims alone", "bound: walls as girders", "no more than", "no less than", "INVENTED", "0.2071 L and 0.2232 L", "judgement, not published",
    "frozen seal", "an open marriage side is no closed cell"]) {
    assert.ok(text.includes(words), words);
  }
  assert.equal(await page.locator(".structure figure svg").count(), 3);
  await shoot(page, "kitchen-box");
});

test("without a stiffness there are moments and no sag", async ({ page, server }) => {
  await open(page, server, "#/edit/boxes");
  for (const name of ["Stiffness against bending, EI", "EI of the rims alone, a bound", "EI of the walls as girders, a bound"]) {
    const field = page.getByLabel(name, { exact: true }).first();
    await field.fill("");
    await field.press("Enter");
  }
  await page.goto(`${server.address}#/structure/2`);
  await page.getByText("no stiffness is guessed").waitFor();
  assert.match(await big(page, "Hogging moment"), /^56\.0 kip·ft/);
  assert.equal(await page.locator(".structure figure svg").count(), 2);
  await page.getByText("Cannot be checked").first().waitFor();
});

test("a raise is a lift with its arc, its own sheet and its own cautions", async ({ page, server }) => {
  await open(page, server, "#/structure/6");
  await page.locator(".structure svg").first().waitFor();
  assert.match(await big(page, "Planned with"), /^3,588 lb/);
  // tests/oracles/kitchen_box.txt: 13,033.7 N at the end of the arc, radius 10.7067 to 11.0837 m
  assert.match(await big(page, "Largest pull"), /^2,931 lb/);
  assert.match(await big(page, "Radius"), /^35\.12 to 36\.37 ft/);
  assert.equal(await page.locator(".structure table.legs tbody tr").count(), 11);
  await page.getByText("Nobody under the panel until it is tied").first().waitFor();
  await page.getByText("flap passes its balance").first().waitFor();
  await shoot(page, "roof-raise");
  await page.getByRole("link", { name: "Sheet", exact: true }).click();
  await page.locator(".page").first().waitFor();
  const sheet = await page.locator(".page").first().innerText();
  for (const words of ["roof raise on B2", "Arc", "Held back by", "Knee walls and struts stand and are nailed before the sling goes slack", "Knee walls, struts, nails, hands named"]) {
    assert.ok(sheet.includes(words), words);
  }
});
