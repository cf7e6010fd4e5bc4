// The loaf in its oven: asked when its part is opened, and again with what is changed; its pictures at both widths.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, desk, keeps_the_rules, phone, picture } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

for (const [name, size] of [["phone", phone], ["desk", desk]]) {
  test(`the oven answers, follows what is changed, and says what cannot be (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}`);
    await page.getByText("The oven", { exact: true }).click();
    const facts = page.getByTestId("oven");
    await facts.waitFor();
    const before = await facts.innerText();
    assert.match(before, /Core[\s\S]*°[CF]/);
    assert.match(before, /Lighter by[\s\S]*%/);
    assert.match(before, /Alcohol[\s\S]*stay/);

    await page.getByRole("textbox", { name: "For (min)", exact: true }).fill("55");
    await page.waitForFunction((b) => document.querySelector("[data-testid=oven]")?.innerText !== b, before);
    await keeps_the_rules(page, `oven, ${name}`);
    await picture(page, `oven-${name}`);

    // An oven that cannot be: what is wrong stands at its field.
    await page.getByRole("textbox", { name: "Oven at", exact: true }).fill("900 C");
    await page.getByText("an oven at 900 °C bakes no bread", { exact: false }).first().waitFor();

    // What was typed is the bake's own once it is saved.
    await page.getByRole("textbox", { name: "Oven at", exact: true }).fill("240 C");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("Saved.").waitFor();
    assert.deepEqual((await bakery.form(id)).oven, { bake: "55 min", set: "240 C" });
    await visitor.leave();
  });
}

test("the bench says how warm the liquid must be, and follows the room", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page(`#/bake/${id}/bench`);
  await page.getByText("How warm the liquid must be").click();
  const liquid = page.getByTestId("liquid");
  await liquid.waitFor();
  const before = await liquid.innerText();
  assert.match(before, /°C[\s\S]*for .*water/);
  await page.getByRole("textbox", { name: /The flour has/ }).fill("30");
  await page.waitForFunction((b) => document.querySelector("[data-testid=liquid]")?.innerText !== b, before);
  await keeps_the_rules(page, "bench, the liquid");
  await visitor.leave();
});
