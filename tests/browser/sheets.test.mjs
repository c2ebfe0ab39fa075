// Paper: lifts, rigging cards, the site, the truck's list, the issue of a plan, on Letter and A4, read back from the PDF.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { dragCrane, north, row, sentence, words } from "./day.mjs";
import { AxeBuilder } from "@axe-core/playwright";
import { SHOTS, open, shoot, test } from "./harness.mjs";

const PAPERS = { Letter: "612 x 792", A4: "594\\.96 x 841" };
const MM_HIGH = { Letter: 265, A4: 282.6 };
const PT = 96 / 72;

const choose = (page, name) => page.getByRole("button", { name, exact: true }).click();

/** Pages that are higher than the paper or whose contents are wider: number, height in mm, pixels too wide. */
async function spilled(page, paper) {
  await page.emulateMedia({ media: "print" });
  const pages = await page.locator(".page").evaluateAll((all) => all.map((sheet, i) => {
    const wide = [...sheet.querySelectorAll("*")].map((e) => e.getBoundingClientRect().right).reduce((a, b) => Math.max(a, b), 0);
    return [i + 1, sheet.getBoundingClientRect().height * 25.4 / 96, wide - sheet.getBoundingClientRect().right];
  }));
  await page.emulateMedia({ media: null });
  return pages.filter(([, high, wide]) => high > MM_HIGH[paper] + 0.3 || wide > 1);
}

/** Prints the sheets and gives the text of each page of the PDF. */
async function printed(page, name) {
  const path = join(SHOTS, `${name}.pdf`);
  await page.pdf({ path, preferCSSPageSize: true });
  const info = execFileSync("pdfinfo", [path], { encoding: "utf8" });
  const read = (...how) => execFileSync("pdftotext", [...how, path, "-"], { encoding: "utf8" }).split("\f").slice(0, -1);
  return { info, pages: read("-layout"), flowing: read() };
}

/** Words of each row of each page on screen: of tables, of entries and of lists. */
const rows = (page) => page.locator(".page").evaluateAll((all) => all.map((sheet) =>
  [...sheet.querySelectorAll("tr, dl > div, li")].map((row) => row.innerText.split(/[\s-]+/).filter(Boolean))));

/** Each row stands whole on the page of the PDF that it belongs to. */
async function noRowIsSplit(page, pages) {
  (await rows(page)).forEach((all, i) => {
    // a word with a hyphen may go on in the next line
    const there = new Set(pages[i].split(/[\s-]+/));
    for (const row of all) {
      for (const word of row) assert.ok(there.has(word), `page ${i + 1} of the PDF lacks "${word}" of "${row.join(" ")}"`);
    }
  });
}

/** The plan file of the scenario, changed. */
function changed(name, change) {
  const file = JSON.parse(readFileSync(new URL("../plans/v1/halden.json", import.meta.url), "utf8"));
  change(file.plan);
  const path = join(SHOTS, `${name}.json`);
  writeFileSync(path, JSON.stringify(file));
  return path;
}

async function openFile(page, server, path) {
  await open(page, server, "#/plans");
  const before = await page.locator("h1").innerText();
  await page.getByLabel("Open a plan file").setInputFiles(path);
  const accept = page.getByRole("button", { name: "I have read this" });
  await Promise.race([accept.waitFor(), page.waitForFunction((before) => document.querySelector("h1")?.innerText !== before, before)]).catch(() => {});
  if (await accept.isVisible()) await accept.click();
}

/** Title and number of the sheet on a page of the whole day. */
function expected(i) {
  if (i < 8) return [`Lift ${i + 1} of 8, `, `lift sheet ${i + 1} ?/ ?8`];
  if (i < 13) return [`Rigging card, lift ${i - 7}, `, `rigging card ${i - 7} ?/ ?5`];
  return [["Site", "site sheet 1 ?/ ?1"], ["Rigging list of the truck", "rigging list 1 ?/ ?1"], ["Sequence of the day", "sequence sheet 1 ?/ ?1"],
    ["Crane order", "crane order 1 ?/ ?1"], ["Hire of the crane", "hire page 1 ?/ ?1"]][i - 13];
}

for (const paper of Object.keys(PAPERS)) {
  test(`every sheet prints one a page on ${paper}`, async ({ page, server }) => {
    await open(page, server, "#/sheets");
    await choose(page, "All");
    await choose(page, paper);
    assert.deepEqual(await spilled(page, paper), []);
    const { info, pages, flowing } = await printed(page, `sheets-${paper}`);
    assert.match(info, new RegExp(`Pages:\\s+18\\n[\\s\\S]*Page size:\\s+${PAPERS[paper]}`));
    assert.equal(await page.locator(".page").count(), pages.length);
    pages.forEach((text, i) => {
      const [title, number] = expected(i);
      assert.match(text, new RegExp(title));
      assert.match(text, new RegExp(`${number}\\s*$`));
      assert.match(text, /Planning aid, not a permit\. A qualified lift planner, the operator and the rules where you are decide\./);
      assert.match(text, /INVENTED SAMPLE, never use it for a lift/);
      assert.match(text, /revision A 2027-05-05/);
      assert.doesNotMatch(text, /continued|VOID/);
    });
    // the list is for loading the truck
    flowing.slice(0, 14).forEach((text) => assert.match(text, /Anyone\s+may\s+stop\s+the\s+lift/));
    // where the drawing stands on the site sheet it is as large as its scale says
    const scaled = await page.locator(".page").nth(13).locator("svg").evaluate((svg) => [svg.getBoundingClientRect().width * 25.4 / 96, svg.viewBox.baseVal.width]);
    assert.ok(Math.abs(scaled[0] - scaled[1]) < 0.05, `${scaled}`);
    const drawn = await page.locator(".page").evaluateAll((all) => all.map((sheet) => [...sheet.querySelectorAll("svg text:not([transform])")].map((text) => text.textContent)));
    assert.ok(drawn[13].some((text) => /^scale 1 : \d+/.test(text)) && drawn[13].some((text) => /^farthest radius \d+\.\d\d ft$/.test(text)));
    // what is written on the drawings, but for what is turned, is read back from the PDF too; its halo sets each word twice
    drawn.forEach((texts, i) => {
      const there = new Set(flowing[i].split(/\s+/));
      for (const text of texts) for (const word of text.split(/\s+/).filter((word) => /\w{2}/.test(word))) assert.ok(there.has(word), `page ${i + 1} of the PDF lacks "${word}" of "${text}"`);
    });
    assert.match(flowing[14], /Rating as\s+entered/);
    await noRowIsSplit(page, pages);
  });
}

test("nothing on paper is set smaller than 8.5 points", async ({ page, server }) => {
  await open(page, server, "#/sheets");
  await choose(page, "All");
  await page.emulateMedia({ media: "print" });
  const small = await page.locator(".page").evaluateAll((all) => all.flatMap((sheet) => [...sheet.querySelectorAll("*")]
    .filter((e) => [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.data.trim()) && !e.closest("title, desc"))
    .map((e) => {
      const scale = e.ownerSVGElement ? e.ownerSVGElement.getBoundingClientRect().width / e.ownerSVGElement.viewBox.baseVal.width : 1;
      return [e.textContent, parseFloat(getComputedStyle(e).fontSize) * scale];
    })));
  assert.ok(small.length > 1000);
  assert.deepEqual(small.filter(([, px]) => px < 8.49 * PT), []);
});

const VARIANTS = {
  "the crane 0.3 m back": (plan) => { plan.set_up.at.north = { typed: "-6.8 m", unit: "m" }; },
  "the old 9 ft legs": (plan) => {
    for (const rig of plan.rigs) {
      for (const leg of rig.arrangement.bar_and_cross_bars?.bridles.flat() ?? []) Object.assign(leg, { sling: "G06a", links: 0, shortener: "" });
    }
  },
};

for (const [name, change] of Object.entries(VARIANTS)) {
  test(`a page a lift with ${name}, on both papers and in both units`, async ({ page, server }) => {
    await openFile(page, server, changed("variant", change));
    for (const units of ["Metres and tonnes", "Feet and pounds"]) {
      await choose(page, units);
      await page.goto(`${server.address}#/sheets`);
      for (const paper of Object.keys(PAPERS)) {
        await choose(page, paper);
        assert.equal(await page.locator(".page").count(), 8, `${units}, ${paper}`);
        assert.deepEqual(await spilled(page, paper), [], `${units}, ${paper}`);
        const { pages } = await printed(page, "variant");
        assert.equal(pages.length, 8);
        await noRowIsSplit(page, pages);
        assert.ok(pages.some((text) => /OUTSIDE/.test(text)));
      }
      await page.goto(`${server.address}#/`);
    }
  });
}

test("what does not fit a page goes on, row by row", async ({ page, server }) => {
  await openFile(page, server, changed("many-lines", (plan) => {
    const [line] = plan.site.power_lines;
    for (let n = 0; n < 60; n += 1) plan.site.power_lines.push({ ...line, name: `line ${String(n).padStart(2, "0")}` });
  }));
  await page.goto(`${server.address}#/sheets/5`);
  const sheets = await page.locator(".page").count();
  assert.ok(sheets > 1);
  assert.deepEqual(await spilled(page, "Letter"), []);
  const { pages } = await printed(page, "many-lines");
  assert.equal(pages.length, sheets);
  pages.forEach((text, i) => {
    assert.match(text, i === 0 ? /lift sheet 5 ?\/ ?8\s*$/ : /lift sheet 5 ?\/ ?8, continued\s*$/);
    assert.match(text, i === 0 ? /Lift 5 of 8, box B1/ : /Lift 5 of 8, box B1, continued/);
    assert.match(text, /Planning aid, not a permit/);
    if (i > 0) assert.match(text, /(Checks|Entries), continued/);
  });
  await noRowIsSplit(page, pages);
});

test("sheets are void once the plan has changed", async ({ page, server }) => {
  await open(page, server, "#/sheets/5");
  assert.equal(await page.locator(".page").count(), 1);
  assert.equal(await page.locator(".void-notice").count(), 0);
  await choose(page, "Metres and tonnes");
  assert.match(await page.locator(".void-notice").innerText(), /VOID/);
  assert.deepEqual(await spilled(page, "Letter"), []);
  const { pages } = await printed(page, "sheet-void");
  assert.equal(pages.length, 1);
  assert.match(pages[0], /VOID: the plan has changed since this sheet was made/);
  await choose(page, "Make the sheets anew");
  assert.equal(await page.locator(".void-notice").count(), 0);
});

/** Our own bound: all sheets of the day from the button to the file. */
const PRINT_MS = 3000;

test("a full print of the day takes less than 3 s", async ({ page, server }) => {
  await open(page, server, "#/sheets");
  await page.locator(".page").first().waitFor();
  const times = [];
  for (const paper of ["A4", "Letter"]) {
    const start = performance.now();
    await choose(page, paper);
    await choose(page, "All");
    const path = join(SHOTS, "full-print.pdf");
    await page.pdf({ path, preferCSSPageSize: true });
    times.push(performance.now() - start);
    assert.match(execFileSync("pdfinfo", [path], { encoding: "utf8" }), /Pages:\s+18\n/);
    await choose(page, "Site sheet");
  }
  console.log(`   18 sheets laid out and printed: A4 ${times[0].toFixed(0)} ms, Letter ${times[1].toFixed(0)} ms`);
  assert.ok(Math.max(...times) <= PRINT_MS, `${times}`);
});

test("one sheet alone is printed, of its kind or of a lift", async ({ page, server }) => {
  await open(page, server, "#/sheets");
  await page.getByLabel("Which of them").selectOption("Lift 5 of 8, box B1");
  assert.deepEqual((await printed(page, "one")).pages.length, 1);
  await choose(page, "Rigging cards");
  assert.equal(await page.locator(".page").count(), 5);
  await choose(page, "Rigging list");
  const { pages } = await printed(page, "rigging-list");
  assert.equal(pages.length, 1);
  // each piece of the plan file once, its rating as typed
  const { plan } = JSON.parse(readFileSync(new URL("../plans/v1/halden.json", import.meta.url), "utf8"));
  const rows = await page.locator(".page tbody tr").evaluateAll((all) => all.map((row) => [...row.cells].map((cell) => cell.innerText)));
  assert.deepEqual(rows.map(([id]) => id), plan.gear.map(({ id }) => id));
  plan.gear.forEach((item, i) => assert.ok(rows[i][2].startsWith(item.rating.typed || "—"), `${rows[i]}`));
});

test("a plan is issued, any change makes its sheets void, and the next issue says what changed", async ({ page, server }) => {
  await open(page, server, "#/sheets/5");
  const panel = page.locator(".issue");
  await panel.locator("summary").first().click();
  assert.match(await panel.innerText(), /not issued yet: sheets printed now are a draft/);
  await page.getByLabel("Revision", { exact: true }).fill("");
  await choose(page, "Issue revision");
  assert.match(await panel.getByRole("alert").innerText(), /Revision: read nothing, expected a letter/);
  await page.getByLabel("Revision", { exact: true }).fill("B");
  await page.getByLabel("Date", { exact: true }).fill("2027-05-06");
  await page.getByLabel(/^Reviewed by/).fill("J. Example");
  await choose(page, "Issue revision B");
  const status = () => page.locator(".title-block .cell", { hasText: "Status" }).innerText();
  assert.match(await status(), /Issued 2027-05-06, reviewed, name entered: J\. Example/);
  assert.equal(await page.locator(".void-notice").count(), 0);
  assert.match(await page.locator(".page-cells").innerText(), /Revision\s+B 2027-05-06/);
  const checksum = (await page.locator(".page-foot").innerText()).match(/plan ([0-9A-F]{8})/)[1];
  assert.match(await panel.innerText(), new RegExp(`revision B of 2027-05-06, inputs unchanged, plan ${checksum}`));
  assert.doesNotMatch((await printed(page, "issued")).pages[0], /VOID/);
  // it is kept, also in the file
  await page.reload();
  await page.locator(".page").first().waitFor();
  assert.match(await status(), /Issued 2027-05-06/);

  await page.goto(`${server.address}#/`);
  await dragCrane(page, 0, -0.3);
  assert.match(await status(), /VOID: changed since issue B of 2027-05-06/);
  await page.goto(`${server.address}#/sheets/5`);
  assert.match(await page.locator(".void-notice").innerText(), /VOID/);
  assert.match(await panel.innerText(), /Changed since revision B:\s+set up \/ at \/ north: -6\.5 m → -6\.\d+ m/);
  await choose(page, "Both");
  const { pages } = await printed(page, "void-since-issue");
  assert.equal(pages.length, 2);
  pages.forEach((text) => assert.match(text.replace(/\s+/g, " "), /VOID: the plan has changed since revision B was issued on 2027-05-06/));
  assert.deepEqual(await spilled(page, "Letter"), []);
  await shoot(page, "void");

  // the same letter is refused, the next one is offered
  assert.equal(await page.getByLabel("Revision", { exact: true }).inputValue(), "C");
  await page.getByLabel("Revision", { exact: true }).fill("B");
  await choose(page, "Issue revision B");
  assert.match(await panel.getByRole("alert").innerText(), /read "B", which went out on 2027-05-06: give this issue another letter/);
  await page.getByLabel("Revision", { exact: true }).fill("C");
  await choose(page, "Issue revision C");
  assert.equal(await page.locator(".void-notice").count(), 0);
  await panel.evaluate((details) => { details.open = true; });
  await panel.getByText("Changed from revision B: 1 input").click();
  assert.match(await panel.innerText(), /set up \/ at \/ north: -6\.5 m → -6\.\d+ m/);
  // the plan file of another revision
  await panel.getByLabel("Compare with the plan file of another revision").setInputFiles(changed("compared", (plan) => { plan.project.name = "The Halder"; }));
  await panel.getByText(/^From compared\.json to the plan on the page: \d+ inputs$/).waitFor();
  assert.match(await panel.innerText(), /project \/ name: The Halder → The Halden/);
  await shoot(page, "issued");
  const { violations } = await new AxeBuilder({ page }).analyze();
  assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join("\n")}`), []);
});

test("a name under the plan is printed as entered and any change clears it", async ({ page, server }) => {
  const status = () => page.locator(".title-block .cell", { hasText: "Status" }).innerText();
  await open(page, server, "#/edit/project");
  assert.match(await status(), /Draft, not reviewed/);
  await page.getByLabel(/^Reviewed by/).click();
  await page.keyboard.type("J. Example");
  await page.keyboard.press("Enter");
  assert.match(await status(), /Reviewed, name entered: J\. Example/);
  await page.goto(`${server.address}#/sheets/5`);
  assert.match(await page.locator(".page-cells").innerText(), /Reviewed, name entered: J\. Example/);
  await page.goto(`${server.address}#/`);
  await page.getByRole("button", { name: /^P2/ }).click();
  assert.match(await status(), /Draft, not reviewed/);
});

/**
 * By hand for box B1 at a ticket of 27,400 lb: the scenario's script has 14.432 t on the hook with 26,180 lb × 1.03 = 12.231 t in it, so
 * 27,400 lb × 1.03 + 2.201 t = 15.002 t; of 17.1 t that is 87.73 %. B2 at the 14 m row: 88.4 % (the script), 88.5 % as a demand is printed.
 */
test("the day from end to end: drag, type a weight, save, open again, print", async ({ page, server }) => {
  await open(page, server);
  assert.match(await sentence(page), /^Lift 5, box B1: 84\.4 %/);
  await dragCrane(page, 0, -0.3);
  assert.ok(Math.abs(parseFloat(await north(page).inputValue()) + 6.8) <= 0.06);
  assert.deepEqual((await words(page)).slice(3, 5), ["outside", "held"]);
  assert.equal((await row(page, "box B2"))["Use %"], "88.5");

  await page.getByRole("link", { name: "Edit", exact: true }).click();
  await page.getByRole("button", { name: "B1", exact: true }).click();
  const weight = page.getByLabel("Weight of the box alone");
  await weight.click();
  await page.keyboard.press("Control+a");
  await page.keyboard.type("27,400 lb");
  await page.keyboard.press("Enter");
  await page.getByRole("link", { name: "Day", exact: true }).click();
  assert.deepEqual((await words(page)).slice(3, 5), ["outside", "outside"]);
  const heavier = await row(page, "box B1");
  assert.equal(heavier["Use %"], "87.8");

  const figures = async () => [await sentence(page), await words(page), await row(page, "box B1"), await row(page, "box B2")];
  const before = await figures();
  await page.getByRole("link", { name: "Plans", exact: true }).click();
  const save = page.getByRole("button", { name: "Save the-halden-rev-A.json" }).click();
  const [download] = await Promise.all([page.waitForEvent("download"), save]);
  const saved = join(SHOTS, "end-to-end.json");
  writeFileSync(saved, readFileSync(await download.path()));
  assert.match(readFileSync(saved, "utf8"), /"typed": "27,400 lb"/);
  await page.getByRole("button", { name: "Start an empty plan" }).click();
  const accept = page.getByRole("button", { name: "I have read this" });
  await accept.click();
  await page.goto(`${server.address}#/plans`);
  await page.getByLabel("Open a plan file").setInputFiles(saved);
  await page.getByRole("heading", { name: "The Halden" }).waitFor();
  await page.goto(`${server.address}#/`);
  await page.locator(".ledger tbody tr").first().waitFor();
  assert.deepEqual(await figures(), before);

  await page.getByRole("link", { name: "Sheets", exact: true }).click();
  await page.locator(".page").first().waitFor();
  const { pages } = await printed(page, "end-to-end");
  assert.equal(pages.length, 8);
  assert.match(pages[3], /OUTSIDE\s+Lift 4, box B2: outside the limits entered: use of the chart/);
  assert.match(pages[3], /88\.5 %/);
  assert.match(pages[4], /OUTSIDE\s+Lift 5, box B1: outside the limits entered: use of the chart/);
  assert.match(pages[4], /87\.8 %/);
  assert.match(pages[4], /27,400 lb \+ 3\.0 %/);
  assert.match(pages[0], /HELD\s+Lift 1, box A2: within the limits entered, held: line voltage not confirmed/);
});
