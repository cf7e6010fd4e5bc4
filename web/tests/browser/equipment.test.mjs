// A fridge and a mixer of the house: asked on the page, learned there from what was measured, and known from then on.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Bakery, keeps_the_rules, picture, sizes } from "./house.mjs";

/** Air that warms by 5 K in the first half hour and is back after three. */
const air = ["minutes,celsius", ...Array.from({ length: 37 }, (_, i) => `${5 * i},${(4 + 5 * Math.min(1, i / 6) * Math.max(0, 1 - i / 36)).toFixed(2)}`)].join("\n");
const csv = (text) => ({ name: "air.csv", mimeType: "text/csv", buffer: Buffer.from(text) });

for (const [name, size] of sizes) {
  test(`a fridge says how many go in, and is learned from a probe in its air (${name})`, async (t) => {
    const house = await Bakery.open();
    t.after(() => house.close());
    const { id } = await house.bake("mead-loaf");
    const visitor = await house.visit({ size });
    const page = await visitor.page(`#/bake/${id}`);
    await page.getByText("The fridge", { exact: true }).click();
    const facts = page.getByTestId("fridge");
    await facts.waitFor();
    assert.match(await facts.innerText(), /Air[\s\S]*warms to[\s\S]*Middle[\s\S]*At once[\s\S]*Power[\s\S]*120 W, a guess until you give a probe's file/);
    await page.getByRole("textbox", { name: "Pieces at once" }).fill("12");
    await facts.getByText(/^12 pieces of/).waitFor();

    await page.getByText("Learn this fridge", { exact: false }).click();
    await page.getByRole("textbox", { name: "The fridge's name" }).fill("Tall fridge");
    const file = page.getByRole("group").filter({ hasText: "Learn this fridge" }).last().getByLabel("The probe's file (CSV)");
    const learn = page.getByRole("button", { name: "Learn and keep" });
    await file.setInputFiles(csv(air.replace("celsius", "fahrenheit")));
    await learn.click();
    await page.getByText("the temperatures are in °F", { exact: false }).waitFor();
    assert.deepEqual((await house.ask("GET", "/api/equipment")).equipment, [], "a fridge that taught nothing is none");
    await file.setInputFiles(csv(air));
    await learn.click();
    await page.getByText(/Tall fridge is learned: its air within .* of the probe/).waitFor();
    await facts.getByText(/W: Tall fridge, learned .* from 1 load/).waitFor();
    await keeps_the_rules(page, `a fridge is learned, ${name}`);
    await picture(page, `learn-fridge-${name}`);
    const { equipment } = await house.ask("GET", "/api/equipment");
    assert.match(equipment[0].toml, /power = "\d+(\.\d+)? W"/);
    await visitor.leave();
  });

  test(`a mixer is learned from two readings of a dough, and the liquid is told by it (${name})`, async (t) => {
    const house = await Bakery.open();
    t.after(() => house.close());
    const { id } = await house.bake("mead-loaf");
    const visitor = await house.visit({ size });
    const page = await visitor.page(`#/bake/${id}/bench`);
    await page.getByText("How warm the liquid must be").click();
    const liquid = page.getByTestId("liquid");
    await liquid.getByText("what mixers do; two readings of yours would settle it", { exact: false }).waitFor();
    await page.getByRole("textbox", { name: /^The drink has/ }).fill("4");
    await liquid.getByText(/for .*water/).waitFor();
    const guessed = await liquid.innerText();

    await page.getByText("Learn this mixer", { exact: false }).click();
    await page.getByRole("textbox", { name: "The mixer's name" }).fill("Spiral");
    const type = async (which, after, warm) => {
      await page.getByRole("textbox", { name: `${which}: after (min)` }).fill(after);
      await page.getByRole("textbox", { name: new RegExp(`^${which}: the dough has`) }).fill(warm);
    };
    await type("First", "2", "25");
    await type("Second", "8", "21");
    const learn = page.getByRole("button", { name: "Learn and keep" });
    await learn.click();
    await page.getByText("the dough grew colder while it was mixed", { exact: false }).waitFor();
    assert.deepEqual((await house.ask("GET", "/api/equipment")).equipment, [], "a mixer that taught nothing is none");
    await type("First", "2", "21.2");
    await type("Second", "8", "25.4");
    await learn.click();
    await page.getByText(/Spiral is learned: .* W a kilogram, learned from your readings/).waitFor();
    await liquid.getByText(/W a kilogram, Spiral, learned .* from 1 dough/).waitFor();
    assert.notEqual(await liquid.innerText(), guessed);
    await keeps_the_rules(page, `a mixer is learned, ${name}`);
    await picture(page, `learn-mixer-${name}`);
    await visitor.leave();
  });
}
