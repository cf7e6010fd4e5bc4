// What of the drink comes through: said on the drink's screen, its corridor, and what would bring more.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, picture, settled, sizes } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

for (const [name, size] of sizes) {
  test(`the taste of a mead loaf, its corridor and its routes (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}/drink`);
    const taste = page.getByTestId("taste");
    await page.getByRole("button", { name: "Its taste" }).click();
    await taste.waitFor();
    assert.match(await taste.innerText(), /fruit .*nearly gone/);
    await page.getByText("Note by note").click();
    const row = (note) => page.getByTestId("notes").getByRole("row", { name: new RegExp(`^${note}`) }).innerText();
    const rose_before = await row("rose");

    await page.getByTestId("across").waitFor();
    assert.match(await page.getByTestId("across").getByRole("img").getAttribute("aria-label"), /share of dry mead/);
    const within = page.getByRole("textbox", { name: "Ready within (h)" });
    await within.fill("30");
    await within.press("Enter");
    await page.waitForFunction(() => document.querySelector("[data-testid=across]")?.textContent?.includes("within 30 h"));

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
    await picture(page, `taste-${name}`);
    assert.equal(await row("rose"), rose_before);
    await page.getByRole("button", { name: "Make a tasting of it" }).click();
    await page.waitForURL(/#\/test\//);
    await visitor.leave();
  });
}

test("a bread without a drink says nothing of taste", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/drink`);
  await page.getByText("There is no drink in this bread yet.").waitFor();
  assert.equal(await page.getByTestId("taste").count(), 0);
  await visitor.leave();
});
