// The foreman's clock and the estimator's hour: an order, a price, a quick size, as a new user comes to them.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { open, test } from "./harness.mjs";

/** Seconds for a keystroke, average typist (Card, Moran and Newell 1983, from memory). */
const S_PER_KEY = 0.28;
/** Seconds to think before each field (the same). */
const S_TO_THINK = 1.35;

/** The scenario as a file, changed. */
function changed(change) {
  const file = JSON.parse(readFileSync(new URL("../plans/v1/halden.json", import.meta.url), "utf8"));
  change(file.plan);
  return { name: "changed.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(file)) };
}

/** Another plan's cautions are read anew. */
async function readCautions(page) {
  const accept = page.getByRole("button", { name: "I have read this" });
  await accept.or(page.locator(".title-block")).first().waitFor();
  if (await accept.isVisible()) await accept.click();
  await page.locator(".title-block").waitFor();
}

async function openPlan(page, server, plan, hash) {
  await open(page, server, "#/plans");
  await page.getByLabel("Open a plan file").setInputFiles(plan);
  await readCautions(page);
  await page.locator(".ledger").waitFor();
  await page.goto(server.address + hash);
  await page.locator("main h2").first().waitFor();
}

const text = (page) => page.locator("main").innerText();

test("from an empty plan to a quick size in two minutes of typing", async ({ page, server }) => {
  await open(page, server, "#/plans");
  await page.getByRole("button", { name: "Start an empty plan" }).click();
  await readCautions(page);
  await page.getByRole("link", { name: "Cost", exact: true }).first().click();
  await page.getByRole("link", { name: "Quick size" }).click();
  let keys = 0;
  const type = async (words) => { for (const letter of words) { await page.keyboard.press(letter === " " ? "Space" : letter); keys += 1; } };
  const press = async (key) => { await page.keyboard.press(key); keys += 1; };
  const field = (label) => page.getByLabel(label, { exact: true });
  await field("Boxes").focus();
  await field("Boxes").selectText();
  const five = [["Boxes", "5"], ["Floor area of all boxes", "3213"], ["Weight per floor area", "48"], ["Foundation along the road", "65.5"], ["Foundation away from the road", "30"], ["Foundation to the road's near edge", "42.7"]];
  for (const [label, number] of five) {
    for (let i = 0; i < 4; i += 1) {
      if (await field(label).evaluate((one) => one === document.activeElement)) break;
      await press("Tab");
    }
    await type(number);
  }
  await press("Enter");
  await page.getByText(/It needs a chart that says/).waitFor();
  assert.match(await text(page), /says 45,1\d\d lb at 45\.\d+ ft/);
  assert.match(await text(page), /No rating chart in this plan/);
  assert.doesNotMatch(await text(page), /USD|11,958/);
  const seconds = keys * S_PER_KEY + five.length * S_TO_THINK;
  console.log(`       ${keys} keystrokes, ${seconds.toFixed(0)} s`);
  assert.ok(keys <= 60 && seconds <= 120, `${keys} keystrokes, ${seconds} s`);
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.getByText(/It needs a chart that says/).isVisible(), false, "a quick size is not printed");
});

test("a rate without what it is for is asked about, and no price is shown until it is told", async ({ page, server }) => {
  await open(page, server, "#/edit/rates");
  const row = page.locator("tbody tr").nth(5);
  const rate = row.locator("input").nth(1);
  assert.equal(await rate.inputValue(), "415 per hour");
  await rate.fill("415");
  await rate.press("Enter");
  await page.getByText(/read "415": for an hour, for a day\?/).first().waitFor();
  await page.goto(`${server.address}#/hire`);
  await page.getByText("No price yet").waitFor();
  assert.match(await text(page), /read "415": for an hour, for a day\?/);
  await page.keyboard.press("Control+z");
  await page.getByText("11,958.19").first().waitFor();
});

test("only cranes within their limits show a price, and the table is copied and saved", async ({ page, context, server }) => {
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  await open(page, server, "#/hire");
  await page.locator(".offer-card").first().waitFor();
  const cards = await page.locator(".offer-card").evaluateAll((all) => all.map((card) => card.innerText));
  for (const [name, has] of [["S90, pad P1", /11,958\.19/], ["S60, pad P1", /No price: not within/], ["S200, pad P1", /No price: not within/]]) {
    assert.match(cards.find((card) => card.startsWith(name)), has, name);
  }
  assert.match(await text(page), /All amounts in USD\. Taxes: not included\./);
  await page.getByRole("button", { name: "Copy the table: Cost line by line" }).click();
  await page.getByText("copied", { exact: true }).waitFor();
  const copied = await page.evaluate(() => navigator.clipboard.readText());
  assert.match(copied, /Crane with operator\t4668\.75/);
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the table as CSV: Cost line by line" }).click()]);
  assert.equal(download.suggestedFilename(), "cost-line-by-line.csv");
  const saved = readFileSync(await download.path(), "utf8");
  // the first crane's column: amounts without thousands, so no cell of it is quoted
  const column = saved.trim().split("\r\n").slice(1).map((line) => /^("[^"]*"|[^,]*),([^,]*)/.exec(line).slice(1));
  const total = column.findIndex(([name]) => name.includes("Total, likely"));
  const cents = (amount) => Math.round(100 * Number(amount === "—" ? 0 : amount));
  assert.equal(column.slice(0, total).map(([, amount]) => cents(amount)).reduce((a, b) => a + b, 0), cents(column[total][1]));
  assert.equal(column[total][1], "11958.19");
});

test("lifts are put into an order with fewer changes of the rig, and undo takes it back", async ({ page, server }) => {
  const plan = changed((plan) => {
    // the lower boxes hang on two rigs by turns
    for (const [at, rig] of ["A2", "A1", "A2"].entries()) plan.lifts[at].rig = plan.lifts.find((lift) => lift.load.box?.id === rig)?.rig ?? plan.lifts[at].rig;
  });
  await openPlan(page, server, plan, "#/clock");
  const before = Number(/The rig changes (\d+) times/.exec(await text(page))[1]);
  await page.getByRole("button", { name: "Put the lifts into that order" }).click();
  await page.getByText(/no order that keeps what must come first has fewer/).waitFor();
  const after = Number(/The rig changes (\d+) times/.exec(await text(page))[1]);
  assert.ok(after < before, `${before} then ${after}`);
  assert.doesNotMatch(await text(page), /The order cannot be/);
  await page.getByRole("button", { name: /^Undo/ }).click();
  await page.getByRole("button", { name: "Put the lifts into that order" }).waitFor();
});

test("an order that cannot be is listed and its sequence sheet is not made", async ({ page, server }) => {
  const plan = changed((plan) => { [plan.lifts[0], plan.lifts[4]] = [plan.lifts[4], plan.lifts[0]]; });
  await openPlan(page, server, plan, "#/clock");
  assert.match(await text(page), /box B1 stands on box A1; move it down/);
  await page.goto(`${server.address}#/sheets`);
  await page.getByRole("button", { name: "Sequence" }).click();
  await page.getByText("No sequence sheet", { exact: true }).waitFor();
  assert.equal(await page.locator(".page").count(), 0);
});

test("sequence sheet, crane order and hire page are a page each", async ({ page, server }) => {
  await open(page, server, "#/sheets");
  for (const paper of ["Letter", "A4"]) {
    await page.getByRole("button", { name: paper, exact: true }).click();
    for (const [kind, has] of [["Sequence", /Crane done by/], ["Crane order", /confirm each line in writing/], ["Hire page", /11,958\.19[\s\S]*Left out/i]]) {
      await page.getByRole("button", { name: kind, exact: true }).click();
      await page.locator(".page").first().waitFor();
      const sheets = await page.locator(".page").evaluateAll((all) => all.map((sheet) => sheet.innerText));
      assert.equal(sheets.length, 1, `${kind}, ${paper}`);
      assert.match(sheets[0], has, kind);
      assert.match(sheets[0], /INVENTED/i);
      const cut = await page.locator(".page").first().evaluate((sheet) => sheet.scrollHeight - sheet.clientHeight);
      assert.ok(cut <= 1, `${kind} on ${paper} is ${cut} px longer than its page`);
    }
  }
});

test("a quote is kept and laid beside the invoice", async ({ page, server }) => {
  await open(page, server, "#/hire");
  await page.getByRole("button", { name: "Keep these lines as the quote" }).first().click();
  await page.getByText("These lines are kept as the quote").waitFor();
  await page.goto(`${server.address}#/edit/rates`);
  await page.getByRole("button", { name: "Add line" }).last().click();
  const invoice = page.locator(".table").last();
  await invoice.locator("select").first().selectOption("Crane with operator");
  await invoice.locator("tbody input").last().fill("5,083.75");
  await invoice.locator("tbody input").last().press("Enter");
  await page.goto(`${server.address}#/hire`);
  await page.getByText("Quote against invoice").first().waitFor();
  const row = page.locator("tr", { hasText: "Crane with operator" }).last();
  assert.match(await row.innerText(), /4,668\.75\s+5,083\.75\s+415\.00/);
});

test("minutes as lifted become the plan's", async ({ page, server }) => {
  const plan = changed((plan) => {
    const minutes = (typed) => ({ typed, unit: "min" });
    plan.day.lifted = [["L1", "62 min"], ["L2", "48 min"], ["L3", "51 min"]].map(([lift, took]) => ({ lift, took: minutes(took), reading: { typed: "31,000 lb", unit: "lb" } }));
  });
  await openPlan(page, server, plan, "#/clock");
  assert.match(await text(page), /a box is set: 48 to 62 min, the middle one 51, of 3/);
  assert.match(await text(page), /lift 1, box A2: read 31,000 lb, planned gross load/);
  await page.getByRole("button", { name: /Take these minutes/ }).click();
  await page.locator("tr", { hasText: "lift 2, box A1" }).filter({ hasText: "48 / 51 / 62" }).waitFor();
});
