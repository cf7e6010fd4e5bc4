// What of the drink comes through: said beside the recipe, follows a change, and what would bring more.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Bakery, desk, phone, pictures, settled } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

for (const [name, size] of [["phone", phone], ["desk", desk]]) {
  test(`the taste of a mead loaf, its corridor and its routes (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}`);
    const taste = page.getByTestId("taste");
    await taste.waitFor();
    assert.match(await taste.innerText(), /fruit .*nearly gone/);
    const row = (note) => page.getByTestId("notes").getByRole("row", { name: new RegExp(`^${note}`) }).innerText();
    const rose_before = await row("rose");

    // The whole liquid as mead: what is brought doubles, its share that is left does not.
    await page.getByTestId("across").waitFor();
    assert.match(await page.getByTestId("across").getByRole("img").getAttribute("aria-label"), /share of dry mead/);
    const asked = page.waitForResponse((r) => r.url().endsWith("/api/taste-across"));
    await page.getByRole("slider", { name: /Time allowed: 14 h/ }).fill("30");
    await asked;
    await page.waitForFunction(() => document.querySelector("[data-testid=across]")?.textContent?.includes("30 h"));

    await page.getByRole("button", { name: "What would bring more" }).click();
    const routes = page.getByTestId("routes");
    await routes.waitFor();
    const first = await routes.getByRole("listitem").first().innerText();
    assert.match(first, /times as strong/);
    assert.match(await taste.innerText(), /not for children/);
    assert.ok((await routes.getByRole("listitem").count()) >= 5);

    await settled(page);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(wide <= 0, `the page is ${wide} px too wide`);
    await taste.screenshot({ path: join(pictures, `taste-${name}.png`) });
    assert.equal(await row("rose"), rose_before);
    await visitor.leave();
  });
}

test("a bread without a drink says nothing of taste", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit();
  const answered = visitor.page(`#/bake/${id}`);
  const page = await answered;
  await page.getByTestId("ready").first().waitFor();
  await page.getByRole("heading", { name: "In the bowl" }).waitFor();
  assert.equal(await page.getByTestId("taste").count(), 0);
  await visitor.leave();
});
