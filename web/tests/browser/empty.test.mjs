// A house in which nothing is written down yet: every place says so once, says what to do, and says it only when it is known.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, keeps_the_rules, phone, picture, settled, sizes } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const to_the_first = ["bakes", "compare", "tests"];
const places = [...to_the_first, "day", "cultures", "larder", "equipment", "trash"];

for (const [name, size] of sizes) {
  test(`each place of an empty house says what to do first (${name})`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await visitor.page("#/guide");
    for (const place of places) {
      await page.goto(`${bakery.url}/#/${place}`);
      await settled(page);
      if (to_the_first.includes(place)) await page.locator("main").getByRole("link", { name: "Your first bake" }).waitFor();
      await picture(page, `empty-${place}-${name}`);
      await keeps_the_rules(page, `empty ${place}, ${name}`);
    }
    await visitor.leave();
  });
}

test("that no bake is written down is not said while nobody knows", async () => {
  await bakery.bake("plain-loaf");
  const visitor = await bakery.visit({ size: phone });
  await visitor.context.route("**/api/bakes?*", async (route) => {
    await new Promise((later) => setTimeout(later, 500));
    await route.continue();
  });
  for (const place of [...to_the_first, "day"]) {
    const page = await visitor.page(`#/${place}`);
    await page.evaluate(() => {
      window.said = [];
      const see = () => window.said.push(document.querySelector("main")?.innerText ?? "");
      new MutationObserver(see).observe(document.body, { childList: true, subtree: true, characterData: true });
      see();
    });
    await page.waitForResponse((response) => response.url().includes("/api/bakes?"));
    await settled(page);
    const said = (await page.evaluate(() => window.said)).filter((words) => /none is written|No bake is|first bake/.test(words));
    assert.deepEqual(said, [], place);
    await page.close();
  }
  await visitor.leave();
});
