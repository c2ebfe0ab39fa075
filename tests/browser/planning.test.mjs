// Planning in the browser: the figures of the invented scenario, moving the crane, units, undo, files, paper.
// The expected figures are those of the scenario's own script, tests/oracles/scenario.txt, not of this program.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { HANDLE, dragCrane, east, north, pixelsPerMetre, row, sentence, words } from "./day.mjs";
import { open, ownTime, SHOTS, test } from "./harness.mjs";

const undo = (page) => page.getByRole("button", { name: /^Undo/ });
test("the day opens with box B1 at 84.4 %", async ({ page, server }) => {
  await open(page, server);
  assert.match(await sentence(page), /^Lift 5, box B1: 84\.4 % of the rating at the pick\. Your limit is 85\.0 %/);
  assert.equal(await page.locator(".ledger tbody tr").count(), 8);
  const b1 = await row(page, "box B1");
  assert.deepEqual([b1.Governs, b1["Use %"]], ["PICK", "84.4"]);
  assert.equal((await row(page, "box B2"))["With 0.3 m allowance %"], "88.5");
});

test("dragging the crane 0.3 m back puts box B2 outside, and it is one step of undo", async ({ page, server }) => {
  await open(page, server);
  await dragCrane(page, 0, -0.3);
  // a pixel of the screen is nearly 0.1 m of the plan
  assert.ok(Math.abs(parseFloat(await north(page).inputValue()) + 6.8) <= 0.06);
  assert.equal((await words(page))[3], "outside");
  assert.match(await sentence(page), /^Lift 4, box B2: 88\.\d % of the rating at the set/);
  await undo(page).click();
  assert.equal(await north(page).inputValue(), "-6.5 m");
  assert.ok(!(await words(page)).includes("outside"));
  await page.getByRole("button", { name: /^Redo/ }).click();
  assert.equal((await words(page))[3], "outside");
});

test("a finger drags the crane and the page still scrolls elsewhere", async ({ page, server }) => {
  await open(page, server);
  assert.equal(await page.locator(HANDLE).evaluate((handle) => getComputedStyle(handle).touchAction), "none");
  assert.equal(await page.locator(".drawing").first().evaluate((drawing) => getComputedStyle(drawing).touchAction), "auto");
  await page.locator(HANDLE).evaluate((handle) => {
    const box = handle.querySelector(".ring").getBoundingClientRect();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    // a pointer made by a script cannot be captured
    handle.setPointerCapture = () => {};
    const send = (kind, dy) => handle.dispatchEvent(new PointerEvent(kind, { pointerId: 7, pointerType: "touch", isPrimary: true, bubbles: true, cancelable: true, clientX: x, clientY: y + dy }));
    send("pointerdown", 0);
    send("pointermove", 40);
    send("pointerup", 40);
  });
  assert.notEqual(await north(page).inputValue(), "-6.5 m");
});

test("the keyboard moves the crane by 0.1 m and by 1 m", async ({ page, server }) => {
  await open(page, server);
  await page.locator(HANDLE).focus();
  await page.keyboard.press("ArrowDown");
  assert.equal(await north(page).inputValue(), "-6.6 m");
  await page.keyboard.press("Shift+ArrowRight");
  assert.equal(await east(page).inputValue(), "9 m");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  assert.deepEqual([await east(page).inputValue(), await north(page).inputValue()], ["8 m", "-6.5 m"]);
  await page.keyboard.press("Control+y");
  assert.equal(await north(page).inputValue(), "-6.6 m");
});

test("a place can be typed, and what is wrong keeps its text", async ({ page, server }) => {
  await open(page, server);
  await north(page).fill("-22 ft");
  await north(page).press("Enter");
  assert.match(await sentence(page), /box B2/);
  await north(page).fill("about six");
  await north(page).press("Enter");
  assert.equal(await north(page).inputValue(), "about six");
});

test("another crane fails, a named place moves it", async ({ page, server }) => {
  await open(page, server);
  await page.getByLabel("Crane", { exact: true }).selectOption("S60");
  // five by the chart, every one by the ground: 42 t on its mats is more than the yard bears
  assert.equal((await words(page)).filter((word) => word === "outside").length, 8);
  await page.getByLabel("Crane", { exact: true }).selectOption("S90");
  await page.getByRole("button", { name: /^P3/ }).click();
  assert.deepEqual([await east(page).inputValue(), await north(page).inputValue()], ["-8 m", "6 m"]);
  assert.ok((await words(page)).includes("outside"));
});

test("units switch everywhere", async ({ page, server }) => {
  await open(page, server);
  assert.equal((await row(page, "box B1"))["Gross load lb"], "31,817");
  await page.getByRole("button", { name: "Metres and tonnes" }).click();
  const b1 = await row(page, "box B1");
  assert.deepEqual([b1["Gross load t"], b1["Pick radius m"], b1["Row read m"]], ["14.44", "14.65", "15.00"]);
});

test("rows stand in set order or worst first", async ({ page, server }) => {
  await open(page, server);
  await page.getByRole("button", { name: "Worst first" }).click();
  const first = await page.locator(".ledger tbody tr").first().locator("a").innerText();
  assert.match(first, /5\s+box B1/);
});

test("the working is one tap away", async ({ page, server }) => {
  await open(page, server, "#/lift/5");
  const finding = page.locator(".verdict", { hasText: "Use of the chart, at the pick" });
  await finding.locator("summary").click();
  assert.match(await finding.locator(".working").innerText(), /=/);
});

test("back returns to the ledger where it was left", { viewport: { width: 390, height: 844 } }, async ({ page, server }) => {
  await open(page, server);
  const link = page.locator(".ledger a", { hasText: "box B1" });
  await link.scrollIntoViewIfNeeded();
  const before = await page.evaluate(() => scrollY);
  assert.ok(before > 0);
  await link.click();
  await page.getByRole("heading", { name: "Lift 5: box B1" }).waitFor();
  assert.equal(await page.evaluate(() => scrollY), 0);
  await page.goBack();
  await page.locator(".ledger").waitFor();
  assert.ok(Math.abs(await page.evaluate(() => scrollY) - before) <= 2);
});

test("an edit is there after a reload, at once and later", async ({ page, server }) => {
  await open(page, server);
  await page.getByRole("button", { name: /^P2/ }).click();
  await page.reload();
  await page.locator(".title-block").waitFor();
  assert.equal(await east(page).inputValue(), "-2 m");
});

test("a saved plan opens again as the same file", async ({ page, server }) => {
  await open(page, server);
  await page.locator(HANDLE).focus();
  await page.keyboard.press("ArrowDown");
  const save = async () => {
    await page.goto(`${server.address}#/plans`);
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save the-halden-rev-A.json" }).click();
    const file = await download;
    assert.equal(file.suggestedFilename(), "the-halden-rev-A.json");
    return file.path();
  };
  const first = readFileSync(await save());
  const kept = join(SHOTS, "kept-plan.json");
  writeFileSync(kept, first);
  await page.getByRole("button", { name: "Start an empty plan" }).click();
  await page.getByRole("button", { name: "I have read this" }).click();
  await page.goto(`${server.address}#/plans`);
  await page.getByLabel("Open a plan file").setInputFiles(kept);
  await page.getByRole("heading", { name: "The Halden" }).waitFor();
  assert.deepEqual(readFileSync(await save()), first);
});

test("a file that cannot be opened is told and changes nothing", async ({ page, server }) => {
  await open(page, server, "#/plans");
  const broken = join(SHOTS, "broken.json");
  writeFileSync(broken, '{"format": "setday plan", "version": 1, "plan": {');
  await page.getByLabel("Open a plan file").setInputFiles(broken);
  const notice = page.locator(".notice");
  await notice.waitFor();
  assert.match(await notice.innerText(), /broken\.json was not opened: the file stops making sense at line 1, column \d+.*unchanged/s);
  await notice.getByRole("button", { name: "Close" }).click();
  assert.equal(await notice.count(), 0);
  assert.equal(await page.locator("h1").innerText(), "The Halden");
});

test("a plan file dropped on the page is opened", async ({ page, server }) => {
  await open(page, server);
  const text = readFileSync(new URL("../plans/v1/halden.json", import.meta.url), "utf8").replace('"The Halden"', '"Dropped"');
  await page.evaluate((text) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([text], "dropped.json"));
    document.body.dispatchEvent(new DragEvent("drop", { bubbles: true, cancelable: true, dataTransfer }));
  }, text);
  await page.getByRole("button", { name: "I have read this" }).click();
  assert.equal(await page.locator("h1").innerText(), "Dropped");
});

test("a store that refuses is told", async ({ page, server }) => {
  await page.addInitScript(() => {
    IDBObjectStore.prototype.put = () => { throw new DOMException("The quota has been exceeded.", "QuotaExceededError"); };
  });
  await open(page, server);
  await page.getByRole("button", { name: /^P2/ }).click();
  await page.locator(".notice").waitFor();
  assert.match(await page.locator(".notice").innerText(), /The plan is not kept on this device: the browser's store refuses \(it is full\)/);
});

test("a kept plan that cannot be read is put aside, not lost", async ({ page, server }) => {
  await page.addInitScript(() => {
    if (!localStorage.getItem("setday.plan.last")) localStorage.setItem("setday.plan.last", "half a pl");
  });
  await open(page, server, "#/plans");
  assert.match(await page.locator(".notice").innerText(), /was not opened.*put aside/s);
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save as a file Plan that could not be read" }).click();
  assert.equal(readFileSync(await (await download).path(), "utf8"), "half a pl");
});

test("the cautions are accepted once a plan", async ({ page, server }) => {
  await page.goto(server.address);
  await page.getByRole("button", { name: "I have read this" }).click();
  await page.locator(".title-block").waitFor();
  await page.reload();
  await page.locator(".title-block").waitFor();
  await page.goto(`${server.address}#/plans`);
  await page.getByRole("button", { name: "Start an empty plan" }).click();
  await page.getByRole("button", { name: "I have read this" }).waitFor();
});

test("invented data say so on every screen and the planning aid too", async ({ page, server }) => {
  await open(page, server);
  for (const hash of ["#/", "#/lift/1", "#/rig/1", "#/edit/boxes", "#/sheets", "#/plans", "#/about"]) {
    await page.goto(server.address + hash);
    assert.match(await page.locator(".title-block").innerText(), /Invented sample[\s\S]*planning aid, not a permit/i, hash);
  }
});

/** Our own bound for the middle step: a frame of 60 a second. The aim is half of that for 95 of 100 on an idle machine. */
const DRAG_MS = 16;
const DRAG_STEPS = 200;

test("a step of a drag costs less than a frame", async ({ page, context, server }) => {
  await open(page, server);
  const client = await context.newCDPSession(page);
  const busy = await ownTime(client);
  // The pointer comes from the browser's own input, so that no script but the page's is counted.
  const pointer = (type, x, y) => client.send("Input.dispatchMouseEvent", { type, x, y, button: "left", buttons: 1, clickCount: 1 });
  const scale = await pixelsPerMetre(page);
  const box = await page.locator(`${HANDLE} .ring`).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await pointer("mousePressed", x, y);
  const costs = [];
  for (let i = 1; i <= DRAG_STEPS; i += 1) {
    const before = await busy();
    await pointer("mouseMoved", x + Math.sin(i / 10) * scale, y - Math.cos(i / 7) * scale);
    // two frames: the step's layout belongs to it
    await new Promise((done) => setTimeout(done, 40));
    costs.push(await busy() - before);
  }
  await pointer("mouseReleased", x, y);
  const ms = (value) => `${value.toFixed(1)} ms`;
  const first = costs.slice(0, 5).map(ms).join(", ");
  costs.sort((a, b) => a - b);
  const [median, p95] = [costs[DRAG_STEPS / 2], costs[DRAG_STEPS * 0.95]];
  console.log(`   ${DRAG_STEPS} steps of a drag: median ${ms(median)}, p95 ${ms(p95)} of script, style and layout; the first five ${first}`);
  assert.ok(costs[0] > 0, "every step was worked out");
  assert.ok(median <= DRAG_MS, `median ${ms(median)}, at most ${DRAG_MS}`);
});
