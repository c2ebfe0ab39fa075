// What the tests read from the day's view and do in it.

export const HANDLE = ".handle";
export const sentence = (page) => page.locator(".sentence").innerText();
export const east = (page) => page.getByLabel("Slew centre east");
export const north = (page) => page.getByLabel("Slew centre north");

/** The words of the ledger's outcomes, in the order of its rows. */
export const words = (page) => page.locator(".ledger tbody .mark").allInnerTexts().then((all) => all.map((word) => word.toLowerCase()));

/** Cells of a ledger's row by their column. */
export async function row(page, title) {
  const cells = page.locator(".ledger tbody tr", { hasText: title }).first().locator("td.figure");
  return Object.fromEntries(await cells.evaluateAll((all) => all.map((cell) => [cell.dataset.label, cell.textContent])));
}

/** Pixels on screen for a metre of the plan, from the distance of two places the crane can be put at. */
export async function pixelsPerMetre(page) {
  const middle = () => page.locator(`${HANDLE} .ring`).boundingBox().then((box) => box.x + box.width / 2);
  const before = await middle();
  await page.locator(HANDLE).focus();
  await page.keyboard.press("Shift+ArrowRight");
  const scale = await middle() - before;
  await page.keyboard.press("Shift+ArrowLeft");
  return scale;
}

export async function dragCrane(page, eastM, northM, steps = 8) {
  const scale = await pixelsPerMetre(page);
  const box = await page.locator(`${HANDLE} .ring`).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + eastM * scale, y - northM * scale, { steps });
  await page.mouse.up();
}
