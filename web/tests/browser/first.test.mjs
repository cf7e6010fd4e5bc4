// The first minute in an empty house: a first bake with few taps and no refusal, or a bakery to look round in.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, keeps_the_rules, picture, settled, sizes } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

for (const [name, size] of sizes) {
  test(`a first bake takes at most 10 taps and 4 typed fields, and nothing is refused (${name})`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await visitor.page("");
    await page.getByRole("heading", { name: /Bread with wine/ }).waitFor();
    await picture(page, `welcome-${name}`);
    await keeps_the_rules(page, `welcome, ${name}`);
    let taps = 0;
    let fields = 0;
    let keys = 0;
    const tap = async (what) => {
      taps += 1;
      await what.click();
    };
    // The field is tapped before it is typed into, unless it has the focus already.
    const type = async (label, text) => {
      const field = page.getByRole("textbox", { name: label, exact: true });
      if (!(await field.evaluate((e) => e === document.activeElement))) await tap(field);
      fields += 1;
      keys += text.length;
      await page.keyboard.type(text);
    };
    await tap(page.getByRole("link", { name: "My first bake" }));
    await page.getByRole("textbox", { name: "Flour (g)", exact: true }).waitFor();
    await type("Flour (g)", "500");
    await type("Liquid, all of it (g)", "350");
    // The forecast stands there after the third thing that is said: which drink.
    taps += 1;
    await page.getByRole("combobox", { name: "The drink in it" }).selectOption("dry mead");
    await page.getByTestId("ready").first().waitFor();
    const weak = await page.getByTestId("ready").first().innerText();
    await type("Strength (% vol)", "14");
    await page.waitForFunction((was) => document.querySelector("[data-testid=ready]")?.textContent !== was, weak);
    assert.equal(await page.locator("[aria-invalid=true], [role=alert]").count(), 0, "nothing is refused");
    await picture(page, `first-${name}`);
    await keeps_the_rules(page, `first bake, ${name}`);
    await tap(page.getByRole("button", { name: "Keep this bake" }));
    await page.getByRole("navigation", { name: "Parts of this bake" }).waitFor();
    assert.ok(taps <= 10 && fields <= 4 && taps + 0.3 * keys < 90, `${taps} taps, ${fields} fields, ${keys} keys`);

    const { bakes } = await bakery.ask("GET", "/api/bakes?text=first");
    const { bowl, bottle } = await bakery.form(bakes[0].id);
    assert.deepEqual(bowl, { "white bread flour": "500 g", "dry mead": "175 g", water: "175 g", salt: "10 g", levain: "100 g" });
    assert.equal(bottle["dry mead"].strength, "14 % vol");
    await visitor.leave();
    await bakery.ask("DELETE", `/api/bakes/${bakes[0].id}`);
  });
}

test("what is typed of a first bake is there again, and it can be wished for an hour", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page("#/first");
  await page.getByRole("textbox", { name: "Flour (g)", exact: true }).fill("1 kg");
  await page.getByRole("textbox", { name: "Liquid, all of it (g)", exact: true }).fill("650");
  await page.getByRole("combobox", { name: "What is set" }).selectOption("ready");
  await page.reload();
  assert.equal(await page.getByRole("textbox", { name: "Flour (g)", exact: true }).inputValue(), "1000");
  await page.getByRole("combobox", { name: "Ready at", exact: true }).selectOption({ index: 60 });
  await page.getByText(/^Mix it at/).waitFor();
  await visitor.leave();
});

test("an invented bakery to look round in, thrown away again without a trace on Today", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page("");
  await page.getByRole("button", { name: "Look round with an invented bakery" }).click();
  await page.getByText("This bakery is invented: try anything.").waitFor();
  await page.getByRole("link", { name: "Mead loaf, half and half" }).first().waitFor();
  await page.getByRole("button", { name: "Throw it away" }).click();
  await page.getByRole("link", { name: "My first bake" }).waitFor();
  assert.equal((await bakery.ask("GET", "/api/bakes")).total, 0);
  await settled(page);
  await visitor.leave();
});
