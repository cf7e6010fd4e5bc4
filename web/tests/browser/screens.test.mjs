// Every screen on a phone and at a desk, light and dark: axe finds nothing, nothing is wider than the window, things to press are 48 px
// high; and in the windows of the narrowest phone and of a desk at 200 % nothing is wider either, nor taken away by what sticks.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, desk, keeps_its_colours, keeps_its_measures, keeps_the_rules, phone, picture, pictures, settled, utc } from "./house.mjs";

let bakery;
let screens;

before(async () => {
  bakery = await Bakery.open();
  const hours_ago = (h) => utc(new Date(Date.now() - h * 3_600_000));
  const culture = await bakery.ask("POST", "/api/cultures", { title: "Marsh mother", starter: "stiff ripe levain", feed: "1:2:1", flour: "white bread flour", temperature_C: 26, note: "invented" });
  await bakery.ask("POST", "/api/feedings", { culture: culture.id, at: hours_ago(4), ripe_g: 75, flour_g: 150, water_g: 75, flour: "white bread flour", temperature_C: 26 });
  await bakery.ask("POST", "/api/bottles", { title: "Saltings dry mead", ingredient: "dry mead", strength_percent_vol: 11.5, size_mL: 750, left_mL: 410, price: "9.60", currency: "EUR", opened_on: hours_ago(48).slice(0, 10) });
  await bakery.ask("POST", "/api/equipment", { title: "Deck oven", what: "oven", toml: 'holds = 6\ncavity = "200 L"\n' });
  await bakery.ask("POST", "/api/scales", { title: "mead in the nose", low: 0, high: 10, low_words: "none", high_words: "a glass of it" });
  for (const key of ["stout-loaf", "perry-loaf", "cold-coffee-loaf"]) await bakery.bake(key);
  const plain = await bakery.bake("plain-loaf", { hours_ago: 4, state: "live" });
  const mead = await bakery.bake("mead-loaf", { hours_ago: 5, state: "live" });
  for (const [h, mm] of [[5, 40], [3, 42], [1, 52]]) await bakery.read(mead.id, h, mm);
  await bakery.ask("POST", "/api/loaves", { bake: mead.id, baked_at: hours_ago(0), dough_g: 900, baked_g: 795, height_mm: 92, width_mm: 210, crumb: "open, a little tight below", scores: { "mead in the nose": 8 } });
  await bakery.taught(culture.id, "mead-loaf", { hours_ago: 80, mm_an_hour: 7 });
  await bakery.taught(culture.id, "plain-loaf", { hours_ago: 130, mm_an_hour: 11 });
  await bakery.ask("DELETE", `/api/bakes/${(await bakery.bake("spirit-loaf")).id}`);
  screens = {
    today: "",
    bakes: "#/bakes",
    new_bake: "#/new",
    first: "#/first",
    recipe: `#/bake/${mead.id}`,
    bench: `#/bake/${mead.id}/bench`,
    read: `#/bake/${mead.id}/read`,
    show: `#/bake/${mead.id}/show`,
    drink: `#/bake/${mead.id}/drink`,
    rescue: `#/bake/${mead.id}/rescue`,
    loaf: `#/bake/${mead.id}/loaf`,
    sell: `#/bake/${mead.id}/sell`,
    day: "#/day",
    tests: "#/tests",
    compare: `#/compare?a=${mead.id}&b=${plain.id}`,
    cultures: "#/cultures",
    culture: `#/culture/${culture.id}`,
    larder: "#/larder",
    equipment: "#/equipment",
    trash: "#/trash",
    settings: "#/settings",
    guide: "#/guide",
    guide_page: "#/guide/4",
    more: "#/more",
    nowhere: "#/no/such/place",
  };
});
after(() => bakery?.close());

/** Opens what is folded, and what was folded in it. */
async function unfold(page) {
  for (let depth = 0; depth < 2; depth++) {
    await page.locator("main details:not([open])").evaluateAll((folded) => folded.slice(0, 6).forEach((one) => (one.open = true)));
    await settled(page);
  }
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

// One house for both: what the server has worked out for the one it need not for the other.
for (const [at, size] of [["phone", phone], ["desk", desk]]) {
  test(`every screen, ${at}, light and dark`, async (t) => {
    const visitor = await bakery.visit({ size, keeps: true });
    for (const [name, hash] of Object.entries(screens)) {
      await t.test(name, async () => {
        const page = await visitor.page(hash);
        await settled(page);
        for (const theme of pictures === undefined ? [] : ["dark", "light"]) {
          await page.emulateMedia({ colorScheme: theme });
          await picture(page, `${name}-${at}-${theme}`);
        }
        await keeps_its_measures(page, `${name}, ${at}`);
        if (size === desk) {
          await goes_into_small_windows(page, name);
          await page.setViewportSize(size);
        }
        // What is folded away is held to the same rules; axe looks at all of it at once, in both.
        await unfold(page);
        await keeps_the_rules(page, `${name} unfolded, ${at}, light`);
        await page.emulateMedia({ colorScheme: "dark" });
        await keeps_its_colours(page, `${name} unfolded, ${at}, dark`);
        await page.close();
      });
    }
    await visitor.leave();
  });
}
