// Every screen of the invented bakery on a phone and at a desk, light and dark: axe finds nothing, nothing is wider than the window,
// things to press are 48 px high, what is written can be read; in the windows of the narrowest phone and of a desk at 200 % nothing is
// wider either, nor taken away by what sticks. On a phone nothing that stands open is below 1500 px; below it are only the title lines
// of what is folded, each with its key fact, and the whole is at most 600 px more.
// The better part of a minute: thirty screens, two windows, two colours.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { demo_screens } from "./demo_screens.mjs";
import { Bakery, desk, keeps_its_colours, keeps_its_measures, keeps_the_rules, phone, picture, pictures, settled } from "./house.mjs";

const open_until_px = 1500;
const all_until_px = 2100;

let bakery;
let screens;

before(async () => {
  bakery = await Bakery.open({ demo: true });
  await bakery.ask("DELETE", `/api/bakes/${(await bakery.bake("spirit-loaf")).id}`);
  const of_demo = await demo_screens(bakery);
  const { cultures } = await bakery.ask("GET", "/api/cultures");
  const taught = cultures.find(({ title }) => title.startsWith("Sluice"));
  screens = { ...of_demo, taught: [`#/culture/${taught.id}`], guide_page: ["#/guide/4"], more: ["#/more"], nowhere: ["#/no/such/place"] };
});
after(() => bakery?.close());

/** Opens what is folded, and what was folded in it. */
async function unfold(page) {
  for (let depth = 0; depth < 2; depth++) {
    await page.locator("main details:not([open])").evaluateAll((folded) => folded.slice(0, 6).forEach((one) => (one.open = true)));
    await settled(page);
  }
}

/** Where the last thing ends that stands open, and where the screen does. */
function ends() {
  const open = [...document.querySelectorAll("main *")].filter((node) => node.children.length === 0 && !node.closest("summary") && node.checkVisibility());
  return { open: Math.max(...open.map((node) => node.getBoundingClientRect().bottom + scrollY)), all: document.documentElement.scrollHeight };
}

async function is_short(page, name) {
  const { open, all } = await page.evaluate(ends);
  console.log(`${name}: open until ${Math.round(open)} px, ${all} px in all`);
  assert.ok(open > 60 && open <= open_until_px, `${name}: what stands open ends at ${Math.round(open)} px`);
  assert.ok(all <= all_until_px, `${name}: ${all} px in all`);
}

const narrowest = [{ width: 640, height: 450 }, { width: 320, height: 568 }];

async function goes_into_small_windows(page, name) {
  for (const size of narrowest) {
    await page.setViewportSize(size);
    await settled(page);
    const [wide, stuck] = await page.evaluate(() => [
      document.documentElement.scrollWidth - document.documentElement.clientWidth,
      [...document.querySelectorAll(".head-of-all, .places")].filter((e) => getComputedStyle(e).position === "sticky").reduce((sum, e) => sum + e.getBoundingClientRect().height, 0),
    ]);
    assert.ok(wide <= 0, `${name} at ${size.width}: ${wide} px wider than the window`);
    assert.ok(stuck < 0.5 * size.height, `${name} at ${size.width}: ${stuck} px stick`);
  }
}

// One house for both: what the server has worked out for the one it need not for the other. One page goes from screen to screen, as a
// baker does.
for (const [at, size] of [["phone", phone], ["desk", desk]]) {
  test(`every screen, ${at}, light and dark`, async (t) => {
    const visitor = await bakery.visit({ size, keeps: true });
    const page = await visitor.page();
    for (const [name, [hash, first]] of Object.entries(screens)) {
      // A day that is planned is walked at a desk where it is planned (day.test.mjs).
      const before = name === "day" && size === desk ? undefined : first;
      await t.test(name, async () => {
        await page.emulateMedia({ colorScheme: "light" });
        await page.goto(`${bakery.url}/${hash}`);
        await settled(page);
        await before?.(page);
        await settled(page);
        for (const theme of pictures === undefined ? [] : ["dark", "light"]) {
          await page.emulateMedia({ colorScheme: theme });
          await picture(page, `${name}-${at}-${theme}`);
        }
        await keeps_its_measures(page, `${name}, ${at}`);
        if (size === phone) await is_short(page, name);
        if (size === desk) {
          await goes_into_small_windows(page, name);
          await page.setViewportSize(size);
        }
        // What is folded away is held to the same rules; axe looks at all of it at once, in both.
        await unfold(page);
        await keeps_the_rules(page, `${name} unfolded, ${at}, light`);
        await page.emulateMedia({ colorScheme: "dark" });
        await keeps_its_colours(page, `${name} unfolded, ${at}, dark`);
      });
    }
    await visitor.leave();
  });
}
