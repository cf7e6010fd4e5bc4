// One dough, one answer: the recipe, the reading and today say the same, and move together.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, settled, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const head = async (page) => {
  const shown = page.getByTestId("head");
  await shown.waitFor();
  return (await shown.innerText()).replace(/\s+/g, " ").trim();
};

/** The head of a screen once it says something else than before. */
async function head_after(page, was) {
  await page.waitForFunction((text) => {
    const shown = document.querySelector("[data-testid=head]");
    return shown !== null && shown.textContent.replace(/\s+/g, " ").trim() !== text;
  }, was);
  return head(page);
}

test("a dough that was read says the same on its recipe as where it is read", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 5, state: "live" });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  const unread = await head(page);
  for (const [h, mm] of [[5, 40], [3, 44], [1.5, 50], [0.2, 58]]) await bakery.read(id, h, mm);
  await page.getByText("as its 4 readings have it").waitFor();
  const recipe = await head(page);
  assert.notEqual(recipe, unread);
  for (const tab of ["read", "drink"]) {
    await page.goto(`${bakery.url}/#/bake/${id}/${tab}`);
    await settled(page);
    assert.equal(await head(page), recipe, tab);
  }
  const dough = (await bakery.ask("GET", "/api/today")).doughs.find((d) => d.bake === id);
  for (const time of recipe.match(/\d\d:\d\d/g)) assert.ok(dough.head.includes(time), `${dough.head} lacks ${time} of: ${recipe}`);
  await visitor.leave();
});

test("a fold ticked off is done on the recipe too, and mixing need not be ticked", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 1, state: "live" });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  const before_it = await head(page);
  assert.match(before_it, /fold/);
  await page.goto(`${bakery.url}/#/bake/${id}/read`);
  assert.ok(await page.getByRole("checkbox", { name: /^mix/ }).isChecked());
  await page.getByRole("checkbox", { name: /^fold/ }).click();
  const next = await head_after(page, before_it);
  await page.goto(`${bakery.url}/#/bake/${id}`);
  assert.equal(await head_after(page, before_it), next);
  await visitor.leave();
});

test("a finished bake foretells nothing of itself", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 30, state: "finished" });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByText("This bake is finished. Baked again, it would go like this:").waitFor();
  assert.equal(await page.getByTestId("head").count(), 0);
  await visitor.leave();
});

test("bread for an hour of the oven is worked back to the mixing", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await unfolded(page, "When to mix");
  await page.getByRole("button", { name: "Find the hour" }).click();
  const when = page.getByTestId("when");
  await when.getByText(/^mix .*\d\d:\d\d/).last().waitFor();
  await visitor.leave();
});
