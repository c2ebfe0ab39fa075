// The rigger's try-out: a leg longer than nominal, live, beside the plan.
import assert from "node:assert/strict";
import { open, shoot, test } from "./harness.mjs";

/** A stiff box on four legs, one of them 30 mm long: statics by hand, 12 t on a diagonal, (5² + 2² + 7²)^½ m legs; see docs/hang.md. */
async function fourLegs(page, server) {
  await open(page, server, "#/plans");
  await page.getByRole("button", { name: "Open the invented example: four legs, one long" }).click();
  await page.locator(".day").or(page.getByRole("button", { name: "I have read this" })).first().waitFor();
  const accept = page.getByRole("button", { name: "I have read this" });
  if (await accept.isVisible()) await accept.click();
  await page.goto(server.address + "#/rig/1");
  await page.locator(".try-out").waitFor();
}

const carried = (page) => page.locator(".try-out table.legs tbody tr").evaluateAll((rows) => rows.map((row) => row.querySelectorAll("td")[0].textContent));

async function slide(page, mm) {
  const slider = page.getByLabel("Longer than nominal");
  await slider.focus();
  for (let i = 0; i < Math.abs(mm); i += 1) await page.keyboard.press(mm > 0 ? "ArrowRight" : "ArrowLeft");
}

test("one leg of four 30 mm long: one diagonal carries 71.1 kN a leg, the other 3.1", async ({ page, server }) => {
  await fourLegs(page, server);
  assert.deepEqual(new Set(await carried(page)), new Set(["37.1 kN"]));
  await slide(page, 30);
  assert.equal(await page.locator(".try-out output").innerText(), "30 mm longer");
  const four = await carried(page);
  assert.deepEqual([...four].sort(), ["3.1 kN", "3.1 kN", "71.1 kN", "71.1 kN"]);
  await shoot(page, "try-out");
  // a box that gives evens out
  await page.getByLabel("Box", { exact: true }).selectOption("soft");
  const most = Math.max(...(await carried(page)).map(Number.parseFloat));
  assert.ok(most < 71 && most > 37.1, `${most} kN`);
  // and one end over the hook evens out altogether
  await page.getByLabel("Box", { exact: true }).selectOption("rigid");
  await page.getByLabel("Legs", { exact: true }).selectOption("0");
  const equal = await carried(page);
  assert.equal(equal[0], equal[1]);
  await page.getByRole("button", { name: "Back to nominal" }).click();
  assert.equal(await page.locator(".try-out output").innerText(), "as nominal");
  assert.equal(await page.getByRole("button", { name: /^Undo/ }).isDisabled(), true);
});

test("a step of the slider costs less than a frame", async ({ page, context, server }) => {
  await open(page, server, "#/rig/2");
  await page.locator(".try-out").waitFor();
  const client = await context.newCDPSession(page);
  await client.send("Performance.enable");
  const busy = async () => {
    const { metrics } = await client.send("Performance.getMetrics");
    return 1000 * ["ScriptDuration", "LayoutDuration", "RecalcStyleDuration"].map((name) => metrics.find((metric) => metric.name === name).value).reduce((a, b) => a + b);
  };
  await page.getByLabel("Longer than nominal").focus();
  const costs = [];
  for (let i = 0; i < 40; i += 1) {
    const before = await busy();
    await page.keyboard.press("ArrowRight");
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => setTimeout(done))));
    costs.push(await busy() - before);
  }
  costs.sort((a, b) => a - b);
  console.log(`   one step of the slider: median ${costs[20].toFixed(1)} ms, p95 ${costs[37].toFixed(1)} ms of script, style and layout`);
  assert.ok(costs[20] <= 16, `median ${costs[20].toFixed(1)} ms`);
  await shoot(page, "try-out-a1");
});

test("worst case, level from the truck and trial lift are worked out when asked for", async ({ page, server }) => {
  await open(page, server, "#/rig/2");
  await page.getByRole("button", { name: "Work out the worst case" }).click();
  const worst = page.locator(".asked", { hasText: "Worst case" }).locator("table.legs tbody tr");
  await worst.first().waitFor();
  const figures = await worst.evaluateAll((rows) => rows.map((row) => [...row.querySelectorAll("td.figure")].map((cell) => Number.parseFloat(cell.textContent.replace(/[^0-9.]/g, "")))));
  assert.equal(figures.length, 10);
  for (const [nominal, most] of figures) assert.ok(most >= nominal && nominal > 0, `${nominal} ${most}`);

  await page.getByRole("button", { name: "Look for set-ups that hang level" }).click();
  await page.locator(".set-ups li").first().waitFor();
  assert.ok(await page.locator(".set-ups li").count() <= 3);

  await page.getByRole("button", { name: "Find the centre of gravity and new legs" }).click();
  await page.getByText("cannot be checked: the height over the length is blank").waitFor();
  await page.getByLabel("Lower over the length by").fill("2 in");
  await page.getByLabel("Lower over the length by").press("Enter");
  await page.getByLabel("Lower over the width by").fill("0");
  await page.getByLabel("Lower over the width by").press("Enter");
  await page.getByRole("button", { name: "Find the centre of gravity and new legs" }).click();
  await page.getByText(/centre of gravity .* of where the take-off has it/).first().waitFor();
  await shoot(page, "asked");

  // a set-up is put into the rig as one step of undo; the answers are for the plan as it was, so they go
  await page.getByRole("button", { name: "Put it into the rig" }).first().click();
  await page.locator(".set-ups").first().waitFor({ state: "detached" });
  await page.getByRole("button", { name: /^Undo rig .* legs that hang level/ }).click();
});
