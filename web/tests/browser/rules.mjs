// What every screen must keep, and its picture.
import assert from "node:assert/strict";
import { mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** Where pictures are kept: BARM_PICTURES=DIR, for who wants to look at them; else nowhere. */
export const pictures = process.env.BARM_PICTURES;
const axe = readFileSync(fileURLToPath(new URL("../../node_modules/axe-core/axe.min.js", import.meta.url)), "utf8");

/** What every screen keeps: nothing wider than the window, no violation that axe finds, things to press large enough. */
export async function keeps_the_rules(page, name) {
  await keeps_its_measures(page, name);
  await axe_finds_nothing(page, name);
}

/** Those of them that axe knows nothing of. */
export async function keeps_its_measures(page, name) {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(wide <= 0, `${name}: ${wide} px wider than the window`);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("main button, main a.button, main select, main input:not([type=checkbox]):not([type=radio]), nav a")]
      .filter((e) => e.offsetParent !== null)
      .map((e) => ({ what: e.getAttribute("aria-label") || e.textContent?.trim() || e.getAttribute("type") || e.tagName, size: Math.round(e.getBoundingClientRect().height) }))
      .filter(({ size }) => size < 48),
  );
  assert.deepEqual(small, [], `${name}: lower than 48 px`);
  const unreadable = await page.evaluate(written_smaller_than, 11.5);
  assert.deepEqual(unreadable, [], `${name}: written too small to read`);
  const main = await page.evaluate(() =>
    [...document.querySelectorAll("main .main:not(:disabled)")].filter((e) => e.offsetParent !== null && !e.closest("details, dialog")).map((e) => e.textContent?.trim()),
  );
  assert.ok(main.length <= 1, `${name}: more than one primary button: ${main.join("; ")}`);
}

/** What is written smaller than that as it is seen [px]: a picture shrinks with its window, and its words with it. */
function written_smaller_than(least_px) {
  const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const found = [];
  while (words.nextNode()) {
    const { parentElement: of, data } = words.currentNode;
    if (data.trim() === "" || !of.checkVisibility() || of.closest(".unseen")) continue;
    const shrunk = of instanceof SVGElement ? Math.abs(of.getScreenCTM().a) : 1;
    const seen_px = shrunk * parseFloat(getComputedStyle(of).fontSize);
    if (seen_px < least_px) found.push(`${data.trim().slice(0, 40)}: ${seen_px.toFixed(1)} px`);
  }
  return found.slice(0, 5);
}

/** The same of a screen that kept the rules a moment ago in the other light: only its colours are others. */
export const keeps_its_colours = (page, name) => axe_finds_nothing(page, name, { runOnly: ["cat.color"] });

async function axe_finds_nothing(page, name, which = {}) {
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe);
  const { violations, passes } = await page.evaluate((options) => globalThis.axe.run(options), { resultTypes: ["violations"], ...which });
  assert.ok(passes.length > 0, `${name}: axe looked at nothing`);
  assert.deepEqual(
    violations.map((v) => ({ id: v.id, help: v.help, where: v.nodes.map((n) => `${n.target} ${n.failureSummary}`).slice(0, 3) })),
    [],
    `${name}: axe`,
  );
}

export async function picture(page, name) {
  if (pictures === undefined) return;
  mkdirSync(pictures, { recursive: true });
  await page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true });
}
