// Writes the pictures of docs/sheets.md and docs/day-and-hire.md anew from the built page: `node tests/browser/pictures.mjs`. Needs poppler-utils.
import { execFileSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { SHOTS, open, runAll, test } from "./harness.mjs";

const DOCS = fileURLToPath(new URL("../../docs/sheets/", import.meta.url));
mkdirSync(DOCS, { recursive: true });
/** Sheets: which of the view's buttons, which of its pages. */
const SHEETS = { "lift-sheet": ["Lift sheets", 5], "rigging-card": ["Rigging cards", 2], "site-sheet": ["Site sheet", 1], "rigging-list": ["Rigging list", 1] };
const DOTS_PER_INCH = "75";

for (const [name, [kind, nth]] of Object.entries(SHEETS)) {
  test(`docs/sheets/${name}.png`, async ({ page, server }) => {
    await open(page, server, "#/sheets");
    await page.getByRole("button", { name: kind, exact: true }).click();
    const path = join(SHOTS, `${name}.pdf`);
    await page.pdf({ path, preferCSSPageSize: true });
    execFileSync("pdftoppm", ["-r", DOTS_PER_INCH, "-gray", "-png", "-singlefile", "-f", `${nth}`, "-l", `${nth}`, path, join(DOCS, name)]);
  });
}

const PHONE = { viewport: { width: 390, height: 844 } };

test("docs/sheets/phone.png and sun.png", PHONE, async ({ page, server }) => {
  await open(page, server, "#/rig/2");
  await page.locator(".rig .key-figures").scrollIntoViewIfNeeded();
  await page.screenshot({ path: join(DOCS, "phone.png") });
  await page.emulateMedia({ reducedMotion: "reduce" });
  await page.getByRole("button", { name: "Sun" }).click();
  await page.screenshot({ path: join(DOCS, "sun.png") });
});

const DAY = fileURLToPath(new URL("../../docs/day-and-hire/", import.meta.url));
mkdirSync(DAY, { recursive: true });

for (const [name, kind] of Object.entries({ "sequence-sheet": "Sequence", "crane-order": "Crane order", "hire-page": "Hire page" })) {
  test(`docs/day-and-hire/${name}.png`, async ({ page, server }) => {
    await open(page, server, "#/sheets");
    await page.getByRole("button", { name: kind, exact: true }).click();
    await page.locator(".page").first().waitFor();
    const path = join(SHOTS, `${name}.pdf`);
    await page.pdf({ path, preferCSSPageSize: true });
    execFileSync("pdftoppm", ["-r", DOTS_PER_INCH, "-gray", "-png", "-singlefile", path, join(DAY, name)]);
  });
}

for (const [name, [hash, first]] of Object.entries({ clock: ["#/clock", ".estimate figure"], cost: ["#/hire", ".offer-card"], quick: ["#/quick", ".sentence"] })) {
  test(`docs/day-and-hire/${name}.png`, { viewport: { width: 1100, height: 900 } }, async ({ page, server }) => {
    await open(page, server, hash);
    await page.locator(first).first().waitFor();
    await page.screenshot({ path: join(DAY, `${name}.png`) });
  });
}

process.exitCode = (await runAll("")) ? 0 : 1;
