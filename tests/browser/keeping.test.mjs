// Never losing it: every committed edit is on the disk at once, no window writes over another, and what cannot be kept is told.
import assert from "node:assert/strict";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { AxeBuilder } from "@axe-core/playwright";
import { launchToKill, open, shelf, shoot, test, untilShelf } from "./harness.mjs";

const SAMPLE = readFileSync(new URL("../plans/v1/halden.json", import.meta.url), "utf8");
const NEWER = SAMPLE.replace('"version": 1', '"version": 9');
const north = (page) => page.getByLabel("Slew centre north");
const named = (page, name) => page.getByRole("button", { name, exact: true });
const notice = (page, words) => page.locator(".notice", { hasText: words });
const rows = (page) => page.locator("section", { has: page.getByRole("heading", { name: "Plans on this device" }) }).locator("li");
const versions = (page) => page.locator("section", { has: page.getByRole("heading", { name: "Versions of this plan" }) }).locator("ol > li");

async function toPlans(page, server) {
  await page.goto(`${server.address}#/plans`);
  await page.getByRole("heading", { name: "Plans on this device" }).waitFor();
  await page.getByText("Looking at what is kept").waitFor({ state: "detached" });
}

/** Commits an edit: where the crane stands, in metres north. */
async function stand(page, metres) {
  await north(page).fill(`${metres} m`);
  await north(page).press("Enter");
}

/** The text of a download. */
async function downloaded(page, button) {
  const [download] = await Promise.all([page.waitForEvent("download"), button.click()]);
  return readFileSync(await download.path(), "utf8");
}

/** Puts a plan on the shelf past the program. */
function put(page, id, record, texts) {
  return page.evaluate(async ([id, record, texts]) => {
    const request = indexedDB.open("setday");
    await new Promise((done) => { request.onsuccess = done; });
    const work = request.result.transaction(["plans", "texts"], "readwrite");
    work.objectStore("plans").put(record, id);
    for (const [turn, text] of Object.entries(texts)) work.objectStore("texts").put(text, [id, Number(turn)]);
    await new Promise((done) => { work.oncomplete = done; });
    request.result.close();
  }, [id, record, texts]);
}

const record = (name) => JSON.stringify({ record: 1, name, turn: 1, versions: [{ turn: 1, at: 0, edit: "edit" }] });

/** A browser with its own profile, killed and started again in `body`. */
async function withProfile(body) {
  const profile = mkdtempSync(join(tmpdir(), "setday-"));
  let killed = async () => {};
  const start = async () => {
    const { page, kill } = await launchToKill(profile);
    killed = kill;
    return { page, kill };
  };
  try {
    await body(start);
  } finally {
    await killed();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

test("a browser that is killed has lost no edit that it had kept", async ({ server }) => {
  await withProfile(async (start) => {
    for (const [round, metres] of [-5, -4, -3].entries()) {
      const { page, kill } = await start();
      await open(page, server);
      if (round > 0) assert.equal(await north(page).inputValue(), `${metres - 1} m`);
      await stand(page, metres);
      // as soon as the browser says that it is on the disk
      await untilShelf(page, (plans) => plans[0]?.turn === round + 1);
      await kill();
    }
    const { page } = await start();
    await open(page, server);
    assert.equal(await north(page).inputValue(), "-3 m");
    const [plan] = await shelf(page);
    assert.deepEqual(plan.versions.map(({ edit }) => edit), Array(3).fill("slew centre north"));
  });
});

test("a browser that is killed between many edits opens with one of the last, whole", async ({ server }) => {
  await withProfile(async (start) => {
    const { page, kill } = await start();
    await open(page, server);
    // the program tells the other windows what is on the disk
    await page.evaluate(() => {
      window.heard = new BroadcastChannel("setday");
      window.onDisk = 0;
      window.heard.onmessage = ({ data }) => { if (data.startsWith("wrote")) window.onDisk += 1; };
    });
    let onDisk = 0;
    for (let i = 1; i <= 12; i += 1) {
      await stand(page, i);
      onDisk = await page.evaluate(() => window.onDisk);
    }
    await kill();
    const again = await start();
    await open(again.page, server);
    const metres = parseFloat(await north(again.page).inputValue());
    assert.ok(onDisk > 0 && metres >= onDisk, `${metres} of 12 edits is there, ${onDisk} writes were on the disk`);
    assert.equal(await again.page.locator(".notice").count(), 0);
  });
});

test("an edit that the store has not answered when the page is left is there afterwards", async ({ page, server }) => {
  await open(page, server);
  await stand(page, -5);
  await untilShelf(page, (plans) => plans[0]?.turn === 1);
  // a transaction that does not end holds every other one up
  await page.evaluate(async () => {
    const request = indexedDB.open("setday");
    await new Promise((done) => { request.onsuccess = done; });
    const table = request.result.transaction(["plans", "texts"], "readwrite").objectStore("plans");
    const again = () => { table.get("nothing").onsuccess = again; };
    again();
  });
  await stand(page, -4);
  await stand(page, -3);
  await page.reload();
  await page.locator(".title-block").waitFor();
  assert.equal(await north(page).inputValue(), "-3 m");
  const [plan, ...more] = await shelf(page);
  assert.deepEqual([plan.turn, more.length], [2, 0]);
  assert.deepEqual(await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("setday.unwritten"))), []);
});

test("the last twenty versions are listed, looked at and brought back", async ({ page, server }) => {
  await open(page, server);
  for (let i = 1; i <= 22; i += 1) {
    await stand(page, -i);
    await untilShelf(page, (plans) => plans[0]?.turn === i);
  }
  const [plan] = await shelf(page);
  assert.deepEqual(Object.keys(plan.texts).map(Number), Array.from({ length: 20 }, (_, i) => i + 3));
  await toPlans(page, server);
  assert.equal(await versions(page).count(), 20);
  assert.match(await versions(page).first().innerText(), /^slew centre north\n\d{4}-\d\d-\d\d \d\d:\d\d:\d\d\s+On the page/);
  const oldest = versions(page).last();
  await oldest.getByRole("button", { name: /^Look at it/ }).click();
  const look = oldest.locator(".look");
  assert.match(await look.innerText(), /8 lifts: .*set up \/ at \/ north: -3 m → -22 m/s);
  await shoot(page, "plans-versions");
  await oldest.getByRole("button", { name: /^Bring it back/ }).click();
  await page.getByRole("button", { name: /^Undo bring back the version of / }).waitFor();
  await untilShelf(page, (plans) => plans[0].turn === 23);
  assert.match(await versions(page).first().innerText(), /^bring back the version of/);
  assert.equal(await versions(page).count(), 20);
  await page.goto(`${server.address}#/`);
  assert.equal(await north(page).inputValue(), "-3 m");
  await page.getByRole("button", { name: /^Undo/ }).click();
  assert.equal(await north(page).inputValue(), "-22 m");
  const plans = await untilShelf(page, (plans) => plans[0].turn === 24);
  assert.match(plans[0].versions.at(-1).edit, /^undo: bring back/);
});

test("a drag is one version", async ({ page, server }) => {
  await open(page, server);
  const box = await page.locator(".handle .ring").boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + 60, box.y + 60, { steps: 12 });
  await page.waitForTimeout(100);
  assert.deepEqual(await shelf(page), [], "a drag is committed when it lets go");
  await page.mouse.up();
  const [plan] = await untilShelf(page, (plans) => plans.length === 1);
  const at = await north(page).inputValue();
  assert.deepEqual([plan.turn, plan.versions.length], [1, 1]);
  assert.equal(JSON.parse(plan.texts[1]).plan.set_up.at.north.typed, at);
});

test("plans are duplicated, deleted, put back and opened", async ({ page, server }) => {
  await open(page, server);
  await stand(page, -5);
  await untilShelf(page, (plans) => plans.length === 1);
  await toPlans(page, server);
  assert.equal(await rows(page).getByRole("button", { name: /^Delete/ }).count(), 0, "the plan on the page is not deleted");
  await named(page, "Duplicate The Halden").click();
  await rows(page).nth(1).waitFor();
  assert.match(await rows(page).first().innerText(), /^The Halden \(copy\)[\s\S]*duplicate of The Halden/);
  const before = await shelf(page);
  assert.equal(before.find(({ note }) => note === "copy").texts[1], before.find(({ note }) => note === "").texts[1]);

  await named(page, "Delete The Halden (copy)").click();
  assert.equal(await page.evaluate(() => document.activeElement.id), "keep-it");
  await named(page, "Keep it The Halden (copy)").click();
  assert.equal((await shelf(page)).length, 2);
  await named(page, "Delete The Halden (copy)").click();
  await shoot(page, "plans-delete");
  const { violations } = await new AxeBuilder({ page }).analyze();
  assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join("\n")}`), []);
  await named(page, "Delete it The Halden (copy)").click();
  await untilShelf(page, (plans) => plans.length === 1);
  await page.getByText("Deleted. Until the page is left").waitFor();
  // it outlasts a look at another view
  await page.getByRole("link", { name: "Day", exact: true }).click();
  await page.getByRole("link", { name: "Plans", exact: true }).click();
  await named(page, "Undo deleting The Halden (copy)").click();
  assert.deepEqual(await untilShelf(page, (plans) => plans.length === 2), before);

  await named(page, "Open The Halden (copy)").click();
  await page.locator(".day").waitFor();
  assert.equal(await north(page).inputValue(), "-5 m");
  await stand(page, -4);
  const after = await untilShelf(page, (plans) => plans.some(({ turn }) => turn === 2));
  assert.deepEqual(after.find(({ note }) => note === ""), before.find(({ note }) => note === ""), "the other plan is as it was");
  await page.reload();
  await page.locator(".title-block").waitFor();
  assert.equal(await north(page).inputValue(), "-4 m");
  await toPlans(page, server);
  await named(page, "Delete The Halden").click();
  await named(page, "Delete it The Halden").click();
  await page.getByText("Deleted. Until the page is left").waitFor();
  await page.reload();
  await rows(page).first().waitFor();
  assert.equal(await rows(page).count(), 1);
});

test("the next job starts from the last one", async ({ page, server }) => {
  await open(page, server);
  await stand(page, -5);
  await untilShelf(page, (plans) => plans.length === 1);
  await toPlans(page, server);
  await named(page, "Start from the last job: The Halden").click();
  await page.getByRole("button", { name: "I have read this" }).click();
  await notice(page, "Started from The Halden").waitFor();
  assert.match(await notice(page, "Started from").innerText(), /3 cranes with their charts, the limits.*Left blank: the project's name, place, set day and notes, the site, where the crane stands, boxes, sling set-ups, lifts/s);
  const plans = await untilShelf(page, (plans) => plans.length === 2);
  const { plan } = JSON.parse(plans.find(({ name }) => name === "").texts[1]);
  const last = JSON.parse(SAMPLE).plan;
  assert.deepEqual([plan.gear, plan.cranes, plan.limits], [last.gear, last.cranes, last.limits]);
  assert.equal(plan.project.prepared_by, last.project.prepared_by);
  assert.deepEqual([plan.boxes, plan.lifts, plan.rigs, plan.site.pads], [[], [], [], []]);
});

test("two windows on one plan are told, and neither writes over the other", async ({ page, context, server }) => {
  await open(page, server);
  await stand(page, -5);
  await untilShelf(page, (plans) => plans.length === 1);
  const other = await context.newPage();
  await open(other, server);
  assert.equal(await north(other).inputValue(), "-5 m");
  for (const window of [page, other]) await notice(window, "also open in another window").waitFor();

  await stand(page, -4);
  await notice(other, "was edited in another window").waitFor();
  await stand(other, -9);
  await notice(other, "Nothing was overwritten").waitFor();
  assert.match(await notice(other, "Nothing was overwritten").innerText(), /kept on its own as "The Halden \(this window's copy\)"/);
  assert.equal(await notice(other, "also open in another window").count(), 0);
  await stand(page, -3);
  await stand(other, -8);
  const plans = await untilShelf(page, (plans) => plans.length === 2 && plans.every(({ texts }) => Object.values(texts).some((text) => /"-[38] m"/.test(text))));
  const places = (note) => Object.values(plans.find((plan) => plan.note === note).texts).map((text) => JSON.parse(text).plan.set_up.at.north.typed);
  assert.deepEqual(places(""), ["-5 m", "-4 m", "-3 m"]);
  assert.deepEqual(places("this window's copy"), ["-9 m", "-8 m"]);

  // each window comes back to its own
  for (const [window, metres] of [[page, -3], [other, -8]]) {
    await window.reload();
    await window.locator(".title-block").waitFor();
    assert.equal(await north(window).inputValue(), `${metres} m`);
    assert.equal(await window.locator(".notice").count(), 0, "two windows on two plans are no matter");
  }
});

test("a plan that was deleted in another window is kept by the next edit here", async ({ page, context, server }) => {
  await open(page, server);
  await stand(page, -5);
  await untilShelf(page, (plans) => plans.length === 1);
  const other = await context.newPage();
  await open(other, server, "#/plans");
  await named(other, "Open the invented sample").click();
  await other.locator(".day").waitFor();
  await toPlans(other, server);
  await named(other, "Delete The Halden").click();
  await named(other, "Delete it The Halden").click();
  await notice(page, "was deleted in another window").waitFor();
  await stand(page, -4);
  const [plan] = await untilShelf(page, (plans) => plans.length === 1);
  assert.match(plan.texts[1], /"-4 m"/);
});

test("a full store is told with the plan as a file, and the next edit that fits is kept", async ({ page, context, server }) => {
  const client = await context.newCDPSession(page);
  const { origin } = new URL(server.address);
  // before the first write: the browser reckons with the room it has seen for a while
  await client.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 3 * SAMPLE.length });
  await open(page, server);
  const told = notice(page, "The plan is not kept on this device");
  let metres = 0;
  for (let turn = 0; turn === metres; turn = (await shelf(page))[0]?.turn ?? 0) {
    metres += 1;
    await stand(page, metres);
    await Promise.race([told.waitFor(), untilShelf(page, (plans) => plans[0]?.turn === metres)]);
  }
  assert.ok(metres > 1, "the first edit fits");
  assert.match(await told.innerText(), /the browser's store refuses \(it is full\)\. Save the plan as a file/);
  const file = JSON.parse(await downloaded(page, told.getByRole("button", { name: "Save the-halden-rev-A.json" })));
  assert.equal(file.plan.set_up.at.north.typed, `${metres} m`);
  const [kept] = await shelf(page);
  assert.equal(JSON.parse(kept.texts[kept.turn]).plan.set_up.at.north.typed, `${metres - 1} m`, "what was kept stays");
  // the second module goes on with what is not kept
  await page.getByRole("link", { name: "Plans", exact: true }).click();
  await page.getByRole("heading", { name: "Versions of this plan" }).waitFor();
  await notice(page, "The plan is not kept").waitFor();
  assert.equal(await versions(page).getByText("On the page").count(), 0, "the plan on the page is none of the versions");
  await shoot(page, "plans-full");
  // left all the same: the edit waits where there is still room for one
  page.once("dialog", (dialog) => dialog.accept());
  await page.reload();
  await notice(page, "The plan is not kept").waitFor();
  await page.goto(`${server.address}#/`);
  assert.equal(await north(page).inputValue(), `${metres} m`);
  await client.send("Storage.overrideQuotaForOrigin", { origin });
  await stand(page, -3);
  const [plan, ...more] = await untilShelf(page, (plans) => plans[0].turn > kept.turn);
  assert.equal(JSON.parse(plan.texts[plan.turn]).plan.set_up.at.north.typed, "-3 m");
  assert.deepEqual(more, []);
  await told.waitFor({ state: "detached" });
  assert.deepEqual(await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("setday.unwritten"))), []);
});

test("a forbidden store is told at once with the plan as a file", async ({ page, server }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, "indexedDB", { get: () => { throw new DOMException("Access is denied for this document.", "SecurityError"); } });
  });
  await open(page, server);
  const told = notice(page, "The plan is not kept on this device");
  assert.match(await told.innerText(), /the browser does not allow it: Access is denied/);
  await stand(page, -4);
  const file = JSON.parse(await downloaded(page, told.getByRole("button", { name: /^Save the-/ })));
  assert.equal(file.plan.set_up.at.north.typed, "-4 m");
  await page.getByRole("link", { name: "Plans", exact: true }).click();
  await page.getByText("The plans on this device cannot be read: the browser does not allow it").waitFor();
  assert.equal(await told.count(), 1);
  // leaving would lose the edit: the browser asks
  const asked = page.waitForEvent("dialog");
  await page.close({ runBeforeUnload: true });
  assert.equal((await asked).type(), "beforeunload");
  await (await asked).dismiss();
});

test("a store that never answers is told, and the page opens", async ({ page, server }) => {
  await page.addInitScript(() => {
    const { open } = IDBFactory.prototype;
    // a request for a database that another page holds back
    IDBFactory.prototype.open = function wait() {
      const request = open.call(this, "another");
      for (const name of ["onsuccess", "onerror", "onupgradeneeded"]) Object.defineProperty(request, name, { set: () => {} });
      return request;
    };
  });
  await open(page, server);
  assert.match(await notice(page, "not kept").innerText(), /it has not answered for 5 s/);
});

test("a plan of a newer build and a half-written one are refused, stay as they are and are given as files", async ({ page, server }) => {
  await open(page, server);
  await put(page, "newer", record("Newer"), { 1: NEWER });
  const half = SAMPLE.slice(0, 5000);
  await put(page, "half", record("Half"), { 1: half });
  await put(page, "damaged", '{"record": 1, "na', { 1: "the text of it" });
  await put(page, "later", '{"record": 2, "turn": 1}', { 1: SAMPLE });
  const before = await shelf(page);
  await toPlans(page, server);
  await named(page, "Open Newer").click();
  assert.match(await notice(page, "Newer was not opened").innerText(), /the file is version 9, this build reads up to version 1.*It stays as it is/s);
  await named(page, "Open Half").click();
  const lines = half.split("\n");
  assert.match(await notice(page, "Half was not opened").innerText(), new RegExp(`at line ${lines.length}, column \\d+`));
  assert.equal(await page.locator("h1").innerText(), "The Halden");
  assert.match(await rows(page).nth(2).innerText() + await rows(page).nth(3).innerText(), /the record is version 2, this build reads version 1/);
  assert.equal(await downloaded(page, named(page, "Save as a file Newer")), NEWER);
  assert.equal(await downloaded(page, named(page, "Save as a file Half")), half);
  const damaged = rows(page).filter({ hasText: "EOF while parsing" });
  assert.equal(await downloaded(page, damaged.getByRole("button", { name: /^Save as a file/ })), "the text of it");
  await shoot(page, "plans-damaged");
  assert.deepEqual(await shelf(page), before);
});

test("a kept plan of a newer build is not opened and not written over", async ({ page, server }) => {
  await open(page, server);
  await put(page, "newer", record("Newer"), { 1: NEWER });
  await page.evaluate(() => { for (const store of [localStorage, sessionStorage]) store.setItem("setday.open", "newer"); });
  await page.reload();
  assert.match(await page.locator(".notice").innerText(), /was not opened: the file is version 9, this build reads up to version 1.*put aside/s);
  await stand(page, -5);
  const plans = await untilShelf(page, (plans) => plans.length === 2);
  assert.deepEqual(plans.find(({ id }) => id === "newer").texts, { 1: NEWER });
});

test("a store set up by a newer build is left alone", async ({ page, server }) => {
  await open(page, server);
  await page.evaluate(async () => {
    const request = indexedDB.open("setday", 2);
    request.onupgradeneeded = () => request.result.createObjectStore("other");
    await new Promise((done) => { request.onsuccess = done; });
    request.result.close();
  });
  await page.reload();
  await page.locator(".title-block").waitFor();
  assert.match(await notice(page, "not kept").innerText(), /set up by a newer Setday.*requested version \(1\).*existing version \(2\)/s);
});

test("the plan of an earlier build is taken over once", async ({ page, server }) => {
  await open(page, server);
  await page.evaluate((text) => localStorage.setItem("setday.plan.last", text), SAMPLE.replace('"The Halden"', '"Earlier"'));
  await page.reload();
  await page.getByRole("button", { name: "I have read this" }).click();
  await page.locator(".title-block").waitFor();
  assert.equal(await page.locator("h1").innerText(), "Earlier");
  assert.equal(await page.evaluate(() => localStorage.getItem("setday.plan.last")), null);
  await stand(page, -5);
  const [plan] = await untilShelf(page, (plans) => plans[0].turn === 2);
  assert.deepEqual(plan.versions.map(({ edit }) => edit), ["kept by an earlier build", "slew centre north"]);
  await page.reload();
  await page.locator(".title-block").waitFor();
  assert.equal(await north(page).inputValue(), "-5 m");
  assert.equal((await shelf(page)).length, 1);
});

test("the second module goes on in the same record, without a write of its own", async ({ page, server }) => {
  await open(page, server);
  await stand(page, -5);
  await page.getByRole("link", { name: "Edit", exact: true }).click();
  await page.locator(".editor").waitFor();
  await page.getByRole("button", { name: "Metres and tonnes" }).click();
  await page.getByRole("link", { name: "Day", exact: true }).click();
  await stand(page, -4);
  const plans = await untilShelf(page, (plans) => plans[0]?.turn === 3);
  assert.equal(plans.length, 1);
  assert.deepEqual(plans[0].versions.map(({ edit }) => edit), ["slew centre north", "units", "slew centre north"]);
  assert.equal(await page.locator(".notice").count(), 0);
});

test("the plans view says whether the browser may clear the plans, and asks once", async ({ page, server }) => {
  await page.addInitScript(() => {
    window.asked = 0;
    const granted = () => localStorage.getItem("test.granted") === "yes";
    StorageManager.prototype.persist = async () => { window.asked += 1; localStorage.setItem("test.granted", "yes"); return true; };
    StorageManager.prototype.persisted = async () => granted();
  });
  await open(page, server, "#/plans");
  await page.getByText("This browser may clear them when the device runs short of room").waitFor();
  await page.goto(`${server.address}#/`);
  await stand(page, -5);
  await page.waitForFunction(() => window.asked === 1);
  await toPlans(page, server);
  await page.getByText("This browser will not clear them by itself").waitFor();
  await page.reload();
  await page.goto(`${server.address}#/`);
  await stand(page, -4);
  await untilShelf(page, (plans) => plans[0].turn === 2);
  assert.equal(await page.evaluate(() => window.asked), 0);
});
