// Today, on the invented bakery: every dough and levain alive with what to do next, what to feed, buy and weigh.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, keeps_the_rules, settled, sizes, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open({ demo: true })));
after(() => bakery?.close());

/** What planned bakes of those names weigh together, ingredient by ingredient, by their own bowls. */
async function weighed_together(titles) {
  const { bakes } = await bakery.ask("GET", "/api/bakes?state=planned");
  const sum = {};
  for (const bake of bakes.filter((b) => titles.includes(b.title))) {
    const { bowl } = await bakery.ask("POST", "/api/bowl", { bake_id: bake.id });
    for (const line of bowl.lines) sum[line.ingredient] = (sum[line.ingredient] ?? 0) + line.plan_g;
  }
  return sum;
}

for (const [name, size] of sizes) {
  test(`every live dough and levain with its next thing to do (${name})`, async () => {
    const { bakes } = await bakery.ask("GET", "/api/bakes?state=live");
    const { cultures } = await bakery.ask("GET", "/api/cultures");
    assert.ok(bakes.length >= 2 && cultures.length >= 2);
    const { doughs, levains } = await bakery.ask("GET", "/api/today");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page("");
    await settled(page);
    await page.getByText("Each dough and levain in words").click();
    for (const { title } of [...bakes, ...cultures]) {
      const next = [...doughs, ...levains].find((d) => d.title === title).next;
      const one = page.getByRole("listitem").filter({ has: page.getByRole("link", { name: title, exact: true }) });
      assert.ok(next.length > 0 && (await one.locator(".next").innerText()).endsWith(next), `${title}: ${next}`);
    }
    await keeps_the_rules(page, `today, ${name}`);
    await visitor.leave();
  });

  test(`what to feed tonight, to buy, and the totals to weigh (${name})`, async () => {
    const today = await bakery.ask("GET", "/api/today");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page("");
    await settled(page);
    for (const [title, lines] of [["Feed tonight", today.feed_tonight], ["Buy", today.buy]]) {
      assert.ok(lines.length > 0, title);
      assert.deepEqual(await page.getByRole("region", { name: title }).getByRole("listitem").allInnerTexts(), lines);
    }
    const together = await weighed_together(today.ordinary);
    const rows = (await unfolded(page, /^Weigh for/)).locator("tbody tr");
    const shown = {};
    for (const row of await rows.all()) {
      const [ingredient, figure] = await row.locator("td").allInnerTexts();
      const [, number, unit] = /^([\d.]+) (g|kg)$/.exec(figure.replaceAll("\u00a0", " ").replaceAll("\u202f", " "));
      shown[ingredient] = Number(number) * (unit === "kg" ? 1000 : 1);
    }
    assert.deepEqual(Object.keys(shown).sort(), Object.keys(together).sort());
    for (const [ingredient, grams] of Object.entries(together)) {
      assert.ok(Math.abs(shown[ingredient] - grams) <= Math.max(0.5, grams / 1000), `${ingredient}: ${shown[ingredient]} for ${grams}`);
    }
    await visitor.leave();
  });
}
