// On a phone nothing that stands open is below 1500 px, on any screen of the invented bakery; below it are only the title lines of
// what is folded, each with its key fact, and the whole is at most 600 px more.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { demo_screens } from "./demo_screens.mjs";
import { Bakery, phone, settled } from "./house.mjs";

const open_until_px = 1500;
const all_until_px = 2100;

let bakery;
before(async () => (bakery = await Bakery.open({ demo: true })));
after(() => bakery?.close());

/** Where the last thing ends that stands open, and where the screen does. */
function ends() {
  const open = [...document.querySelectorAll("main *")].filter((node) => node.children.length === 0 && !node.closest("summary") && node.checkVisibility());
  return { open: Math.max(...open.map((node) => node.getBoundingClientRect().bottom + scrollY)), all: document.documentElement.scrollHeight };
}

test("no screen of a phone is long", async (t) => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page();
  for (const [name, [hash, before]] of Object.entries(await demo_screens(bakery))) {
    await t.test(name, async () => {
      await page.goto(`${bakery.url}/${hash}`);
      await settled(page);
      await before?.(page);
      await settled(page);
      const { open, all } = await page.evaluate(ends);
      console.log(`${name}: open until ${Math.round(open)} px, ${all} px in all`);
      assert.ok(open > 100 && open <= open_until_px, `what stands open ends at ${Math.round(open)} px`);
      assert.ok(all <= all_until_px, `${all} px in all`);
    });
  }
  await visitor.leave();
});
