// Typing a real job in: the scenario's box of 29 components by keyboard from nothing, and pasted out of a file with all five boxes; assemblies, tickets, copies.
// 31,642 lb and 3.81 ft are the scenario's own figures (tests/oracles/scenario.txt), not this program's.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { open, ownTime, shoot, SHOTS, test } from "./harness.mjs";

const FILE = JSON.parse(readFileSync(new URL("../plans/v1/halden.json", import.meta.url), "utf8"));
const SAMPLE = FILE.plan;
const KITCHEN = SAMPLE.boxes.find((box) => box.id === "A1");

/** A row as it was typed: name, weight, x, y, z. */
const typed = ({ name, weight, shape }) => [name, weight.lump.mass, shape.point.at.x, shape.point.at.y, shape.point.at.z].map((cell) => cell.typed ?? cell);

async function emptyPlan(page, server) {
  await open(page, server, "#/plans");
  await page.getByRole("button", { name: "Start an empty plan" }).click();
  const accept = page.getByRole("button", { name: "I have read this" });
  await accept.or(page.getByRole("heading", { name: "Ledger of lifts" })).waitFor();
  if (await accept.isVisible()) await accept.click();
  await page.goto(`${server.address}#/edit/boxes`);
  await page.getByRole("heading", { name: "Boxes", exact: true }).waitFor();
}

/** A box with its size, by keyboard from its table's button on. */
async function typeBox(page) {
  await page.getByRole("button", { name: "Add box" }).focus();
  await page.keyboard.press("Enter");
  await nameAndSize(page);
}

async function nameAndSize(page) {
  await page.locator("[data-cell='0:0']").first().waitFor();
  for (const text of ["A1", "kitchen box", "52 ft", "13.5 ft", "10.5 ft"]) {
    await page.keyboard.type(text);
    await page.keyboard.press("Tab");
  }
  await page.getByRole("heading", { name: "Components" }).waitFor();
}

/** Goes on with Tab until what is in hand is called so. */
async function tabTo(page, name) {
  const inHand = () => page.evaluate(() => {
    const { activeElement: at } = document;
    return (at.ariaLabel ?? at.labels?.[0]?.textContent ?? at.textContent).trim();
  });
  for (let pressed = 0; pressed < 200; pressed += 1) {
    await page.keyboard.press("Tab");
    if (name.test(await inHand())) return;
  }
  throw new Error(`Tab does not come to ${name}`);
}

const enter = (page) => page.keyboard.press("Enter");
const totals = (page) => page.locator(".totals dl").innerText();

/** Weight and centre of gravity of box A1 in the text of a plan file, all digits. */
async function assessed(page, server, text) {
  await page.goto(`${server.address}#/rig/1`);
  await page.waitForFunction(() => performance.getEntriesByType("resource").some(({ name }) => /setday-desk_bg/.test(name)));
  return page.evaluate(async (text) => {
    const file = performance.getEntriesByType("resource").map(({ name }) => name).find((name) => /setday-desk\.js/.test(name));
    const { check } = await import(file);
    const [box] = check(text).boxes;
    return JSON.stringify([box.takeoff.total, box.cg_m]);
  }, text);
}

/** The text of the plan file that pressing the button in hand, or one that is given, saves. */
async function saved(page, press) {
  const download = page.waitForEvent("download");
  await press();
  return readFileSync(await (await download).path(), "utf8");
}

/** Opens a plan file under a name of its own, so that it is seen to be open. */
async function openFile(page, name, plan) {
  const file = join(SHOTS, "opened.json");
  writeFileSync(file, JSON.stringify({ ...FILE, plan: { ...plan, project: { ...SAMPLE.project, name } } }));
  await page.getByLabel("Open a plan file").setInputFiles(file);
  await page.getByRole("button", { name: "I have read this" }).click();
  await page.getByRole("heading", { name, level: 1 }).waitFor();
}

const SAMPLE_TEXT = JSON.stringify({ ...FILE, plan: { ...SAMPLE, boxes: [KITCHEN] } });

test("a box of 29 components typed by keyboard from nothing weighs what the scenario's file says, to the last bit", async ({ page, server }) => {
  await page.goto(server.address);
  await page.getByRole("button", { name: "I have read this" }).waitFor();
  await tabTo(page, /^I have read this/);
  await enter(page);
  await page.locator(".title-block").waitFor();
  await tabTo(page, /^Plans$/);
  await enter(page);
  await page.getByRole("button", { name: "Start an empty plan" }).waitFor();
  await tabTo(page, /^Start an empty plan$/);
  await enter(page);
  await page.getByRole("button", { name: "I have read this" }).waitFor();
  await tabTo(page, /^I have read this/);
  await enter(page);
  await page.locator(".title-block").waitFor();
  await tabTo(page, /^Edit$/);
  await enter(page);
  await page.getByRole("heading", { name: "Boxes", exact: true }).waitFor();
  await tabTo(page, /^Add box$/);
  await enter(page);
  await nameAndSize(page);
  await tabTo(page, /^Add row$/);
  await enter(page);
  for (const [at, component] of KITCHEN.components.entries()) {
    if (at > 0) await page.keyboard.press("Control+Enter");
    await page.waitForFunction((row) => document.activeElement.dataset.cell === `${row}:0`, at);
    if (at === 0) await page.keyboard.type("A1-01");
    const [name, ...figures] = typed(component);
    await page.keyboard.press("Tab");
    await page.keyboard.type(name);
    for (const [head, text] of ["Weight", "x", "y", "z"].map((head, nth) => [head, figures[nth]])) {
      await tabTo(page, new RegExp(`, ${head}$`));
      await page.keyboard.type(text);
    }
  }
  await enter(page);
  await page.getByText("31,642 lb").first().waitFor();
  assert.match(await totals(page), /Take-off\s+31,642 lb/);
  await shoot(page, "typed-components");
  await page.goto(`${server.address}#/plans`);
  await tabTo(page, /^Save .*\.json$/);
  const text = await saved(page, () => enter(page));
  assert.equal(await assessed(page, server, text), await assessed(page, server, SAMPLE_TEXT));
});

test("the same box pasted as lines with commas weighs the same, to the last bit", async ({ page, server }) => {
  await emptyPlan(page, server);
  await typeBox(page);
  const components = page.locator(".table", { has: page.getByText("Components of box A1") });
  await components.getByRole("button", { name: "Paste a table…" }).click();
  const quoted = (text) => `"${text.replaceAll('"', '""')}"`;
  const lines = SAMPLE.boxes.flatMap((box) => box.components.map((c) => [box.id, c.id, ...typed(c)].map(quoted).join(",")));
  await components.getByLabel("Table to paste").fill(["module,item,description,weight_lb,x_ft,y_ft,z_ft", ...lines].join("\n"));
  await components.getByLabel("x is measured from the").selectOption("0");
  const preview = components.locator(".preview");
  assert.match(await preview.innerText(), /A1-01 .*: 5,756 lb at x = 26\.00 ft/);
  await shoot(page, "paste-components");
  await preview.getByRole("button", { name: "Put 29 rows into the plan" }).click();
  assert.match(await totals(page), /Take-off\s+31,642 lb/);
  await page.goto(`${server.address}#/plans`);
  const text = await saved(page, () => page.getByRole("button", { name: /^Save .*\.json$/ }).click());
  assert.equal(await assessed(page, server, text), await assessed(page, server, SAMPLE_TEXT));
});

test("an estimate per area, then a copy turned end for end, then axle groups", async ({ page, server }) => {
  await emptyPlan(page, server);
  await typeBox(page);
  await page.getByLabel("Weight per floor area").fill("40");
  await page.getByLabel("Weight per floor area").press("Enter");
  // by hand: 52 × 13.5 × 40
  assert.match(await totals(page), /28,080 lb, estimated per floor area/);
  assert.match(await page.locator(".totals").innerText(), /held: weight estimated per area, taken to act at the middle of the box/);
  await page.getByRole("button", { name: "Copy as box A2, turned end for end" }).click();
  await page.getByRole("button", { name: "A2", exact: true }).click();
  await page.getByRole("button", { name: "Add a ticket" }).click();
  const scales = page.locator(".table", { has: page.getByText("Axle groups or load cells") });
  for (const [gross, tare, x] of [["24000", "13000", "-6"], ["38000", "17000", "42"]]) {
    await scales.getByRole("button", { name: "Add axle group" }).click();
    const cell = (head) => scales.getByLabel(new RegExp(`, ${head}$`)).last();
    for (const [head, text] of [["With the box on it", gross], ["Empty", tare], ["Along the box from the end at x = 0", x]]) {
      await cell(head).fill(text);
      await cell(head).press("Enter");
    }
  }
  // by hand: 11,000 + 21,000; 21,000 × 48/32,000 − 6
  assert.match(await totals(page), /By axle groups\s+32,000 lb, CG 25\.50 ft from the first end/);
  await page.locator(".library summary").click();
  await page.getByLabel("Search: material, size, source").fill("wall");
  await shoot(page, "box-weighed");
  // every step has a name and can be taken back, down to the empty plan
  const undo = page.getByRole("button", { name: /^Undo/ });
  const names = [];
  while (await undo.isEnabled()) {
    names.push((await undo.innerText()).replace(/^Undo\s*/, ""));
    await undo.click();
  }
  assert.ok(names.length > 12 && names.every((name) => name.length > 3), names.join("; "));
  assert.ok(names.includes("box A2 copied from A1, turned end for end"), names.join("; "));
  assert.equal(await page.locator(".table tbody tr").count(), 0);
});

test("an assembly is built from the library and changes the box that uses it", async ({ page, server }) => {
  await emptyPlan(page, server);
  await page.goto(`${server.address}#/edit/assemblies`);
  await page.getByRole("button", { name: "Add assembly" }).click();
  await page.keyboard.type("W1");
  await page.keyboard.press("Enter");
  await page.locator(".library summary").click();
  const search = page.getByLabel("Search: material, size, source");
  await search.fill("osb 7/16");
  await page.getByRole("button", { name: "Take OSB, 7/16 in" }).click();
  await search.fill("2x4 spf");
  await page.getByRole("button", { name: /^Take 2x4 SPF/ }).click();
  await page.getByLabel("layer 2, From one to the next").fill("16");
  await page.getByLabel("layer 2, From one to the next").press("Enter");
  // by hand: 1.4 + 1.06/1.3333 = 2.195, shown to a tenth, rounded up
  assert.match(await page.locator(".table", { has: page.getByText("Assemblies", { exact: true }) }).innerText(), /2\.2 psf/);
  await shoot(page, "assembly");
});

test("a box without a weight leaves its lift and its rigging with a reason and without a figure", async ({ page, server }) => {
  await open(page, server, "#/plans");
  const boxes = SAMPLE.boxes.map((box) => (box.id === "A1" ? { ...box, components: [], ticket: null } : box));
  await openFile(page, "Without a weight", { ...SAMPLE, boxes });
  await page.goto(`${server.address}#/lift/2`);
  await page.getByRole("heading", { name: /Lift 2: box A1/ }).waitFor();
  const lift = await page.locator("main").innerText();
  assert.match(lift, /cannot be checked/i);
  assert.match(lift, /no weight yet: enter the components of the box/);
  await page.goto(`${server.address}#/rig/2`);
  await page.getByRole("heading", { name: /Rigging/ }).first().waitFor();
  const rigging = await page.locator("main").innerText();
  assert.match(rigging, /cannot be|no weight yet/i);
  for (const text of [lift, rigging]) assert.doesNotMatch(text, /NaN|Infinity|undefined/);
});

/** 40 boxes of 40 components out of the scenario's. */
function fortyBoxes() {
  const rows = SAMPLE.boxes.flatMap((box) => box.components).slice(0, 40);
  return Array.from({ length: 40 }, (_, at) => {
    const box = structuredClone(SAMPLE.boxes[at % SAMPLE.boxes.length]);
    const id = at < SAMPLE.boxes.length ? box.id : `N${at}`;
    return { ...box, id, components: rows.map((row, nth) => ({ ...structuredClone(row), id: `${id}-${nth + 1}` })) };
  });
}

/** Our own bounds, ms: for 95 of 100 typed characters, and for the middle one of the Enters, each of which commits a figure, works the day out, draws
 * and writes the plan to the shelf. */
const [CHARACTER_MS, ENTER_MS] = [8, 40];

test("a keystroke costs less than 8 ms with 40 boxes of 40 components", async ({ page, context, server }) => {
  await open(page, server, "#/plans");
  await openFile(page, "Forty boxes", { ...SAMPLE, boxes: fortyBoxes() });
  await page.goto(`${server.address}#/edit/boxes`);
  await page.getByRole("button", { name: "N39", exact: true }).waitFor();
  const client = await context.newCDPSession(page);
  // the page's own time: what the machine does beside it is not counted
  const busy = await ownTime(client);
  const cost = async (key) => {
    const before = await busy();
    await page.keyboard.press(key);
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => setTimeout(done))));
    return await busy() - before;
  };
  const share = (costs, part) => costs.toSorted((a, b) => a - b)[Math.floor(costs.length * part)];
  await page.locator(".table", { has: page.getByText("Components of box A1") }).getByLabel(/, Weight$/).first().focus();
  const least = { character: Infinity, enter: Infinity };
  // the machine does other things too, which only adds: the quietest of three rounds counts
  for (let round = 0; round < 3; round += 1) {
    const [characters, enters] = [[], []];
    for (let row = 0; row < 12; row += 1) {
      await page.keyboard.press("Control+a");
      for (const key of `${1200 + 100 * round + row}`) characters.push(await cost(key));
      enters.push(await cost("Enter"));
      await page.waitForTimeout(60);
    }
    const [p50, p95, enter50, enter95] = [share(characters, 0.5), share(characters, 0.95), share(enters, 0.5), share(enters, 0.95)];
    console.log(`   a character: median ${p50.toFixed(1)} ms, p95 ${p95.toFixed(1)} ms; an Enter that commits: median ${enter50.toFixed(1)} ms, p95 ${enter95.toFixed(1)} ms of script, style and layout`);
    least.character = Math.min(least.character, p95);
    least.enter = Math.min(least.enter, enter50);
  }
  assert.ok(least.character <= CHARACTER_MS, `p95 of a character ${least.character.toFixed(1)} ms, at most ${CHARACTER_MS}`);
  assert.ok(least.enter <= ENTER_MS, `median of an Enter ${least.enter.toFixed(1)} ms, at most ${ENTER_MS}`);
});
