// Every screen, on a phone and at a desk, light and dark: axe finds nothing, nothing is wider than the window, things to
// press are 48 px high. A picture of each is kept.
import { after, before, test } from "node:test";
import { Bakery, desk, keeps_the_rules, local, phone, picture, settled } from "./house.mjs";

let bakery;
let screens;

before(async () => {
  bakery = await Bakery.open();
  const hours_ago = (h) => local(new Date(Date.now() - h * 3_600_000)).slice(0, 16);
  const culture = await bakery.ask("POST", "/api/cultures", { name: "Marsh mother", starter: "stiff ripe levain", remarks: "invented" });
  await bakery.ask("POST", `/api/cultures/${culture.id}/feedings`, { at: hours_ago(4), feed: "1:2:1", flour: "white bread flour", temperature_C: 26 });
  await bakery.ask("POST", "/api/bottles", { name: "Saltings dry mead", like: "dry mead", label: { strength: "11.5 % vol" }, size_mL: 750, left_mL: 410, opened_at: hours_ago(48) });
  for (const key of ["stout-loaf", "perry-loaf", "cold-coffee-loaf"]) await bakery.bake(key);
  const plain = await bakery.bake("plain-loaf", { hours_ago: 4, state: "alive" });
  const mead = await bakery.bake("mead-loaf", { hours_ago: 5, state: "alive" });
  for (const [h, mm] of [[5, 40], [3, 42], [1, 52]]) await bakery.ask("POST", `/api/bakes/${mead.id}/readings`, { at: hours_ago(h), height_mm: mm });
  const loaf = await bakery.ask("POST", `/api/bakes/${mead.id}/loaves`, { baked_at: hours_ago(0), in_g: 900, out_g: 795, height_mm: 92, width_mm: 210, crumb: "open, a little tight below", scores: { crust: 8, crumb: 6, taste: 9 } });
  await bakery.ask("DELETE", `/api/bakes/${(await bakery.bake("spirit-loaf")).id}`);
  void loaf;
  screens = {
    today: "",
    bakes: "#/bakes",
    new_bake: "#/new",
    recipe: `#/bake/${mead.id}`,
    bench: `#/bake/${mead.id}/bench`,
    read: `#/bake/${mead.id}/read`,
    rescue: `#/bake/${mead.id}/rescue`,
    loaf: `#/bake/${mead.id}/loaf`,
    compare: `#/compare?a=${mead.id}&b=${plain.id}`,
    cultures: "#/cultures",
    culture: `#/culture/${culture.id}`,
    larder: "#/larder",
    trash: "#/trash",
    settings: "#/settings",
    more: "#/more",
    nowhere: "#/no/such/place",
  };
});
after(() => bakery.close());

for (const [at, size] of [["phone", phone], ["desk", desk]]) {
  for (const theme of ["light", "dark"]) {
    test(`every screen, ${at}, ${theme}`, async (t) => {
      const visitor = await bakery.visit({ size, theme });
      for (const [name, hash] of Object.entries(screens)) {
        await t.test(name, async () => {
          const page = await visitor.page(hash);
          await settled(page);
          await page.waitForTimeout(150);
          await picture(page, `${name}-${at}-${theme}`);
          await keeps_the_rules(page, `${name}, ${at}, ${theme}`);
          // What is folded away is held to the same rules.
          const folded = page.locator("main details:not([open]) > summary");
          for (let i = 0; i < 12 && (await folded.count()) > 0; i++) await folded.first().click();
          await keeps_the_rules(page, `${name} unfolded, ${at}, ${theme}`);
          await page.close();
        });
      }
      await visitor.leave();
    });
  }
}
