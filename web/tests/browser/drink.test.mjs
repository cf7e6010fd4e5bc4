// The drink's screen: a drink for the water, the alcohol of another bake, what is done to a drink before it goes in, how far it can go.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, desk, keeps_the_rules, picture, sizes, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const ready = (page) => page.getByTestId("ready").first().innerText();
const changes_from = (page, before) => page.waitForFunction((b) => document.querySelector("[data-testid=ready]")?.textContent !== b, before);

test("a drink for the water in two taps, the real water held, with the working", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const before = await bakery.ask("POST", "/api/bowl", { bake_id: id });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/drink`);
  await page.getByTestId("ready").first().waitFor();
  await page.getByRole("button", { name: "Swap water for a drink" }).click();
  await page.getByRole("dialog").getByRole("button", { name: /^stout/ }).click();
  const working = page.getByTestId("working");
  await working.waitFor();
  assert.ok((await working.getByRole("listitem").count()) >= 2, "the working has its steps");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Saved.").waitFor();
  const { bowl } = await bakery.ask("POST", "/api/bowl", { bake_id: id });
  assert.ok(bowl.lines.some((l) => l.ingredient === "stout" && l.actual_g > 0));
  assert.ok(Math.abs(bowl.real_water_of_flour - before.bowl.real_water_of_flour) < 0.005, "the real water is held");
  await page.getByRole("button", { name: "Take it back" }).click();
  await page.getByText("There is no drink in this bread yet.").waitFor();
  await visitor.leave();
});

test("the alcohol of another bake in two taps, with the working", async () => {
  const mead = await bakery.bake("mead-loaf");
  const perry = await bakery.bake("perry-loaf");
  const aim = await bakery.ask("POST", "/api/bowl", { bake_id: mead.id });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${perry.id}/drink`);
  await page.getByTestId("ready").first().waitFor();
  await page.getByRole("button", { name: "Another drink" }).click();
  await page.getByRole("button", { name: "As much alcohol as another bake" }).click();
  await page.getByRole("dialog").getByRole("button", { name: /^Mead loaf/ }).first().click();
  await page.getByTestId("working").waitFor();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Saved.").waitFor();
  const { bowl } = await bakery.ask("POST", "/api/bowl", { bake_id: perry.id });
  const of_flour = (b) => b.ethanol_g / b.flour_g;
  assert.ok(Math.abs(of_flour(bowl) / of_flour(aim.bowl) - 1) < 0.01, "as much alcohol for its flour");
  assert.ok(Math.abs(bowl.real_water_of_flour - aim.bowl.real_water_of_flour) < 0.005, "as much real water");
  await visitor.leave();
});

test("long work shows how far it is, can be stopped, and answers", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/drink`);
  const begin = page.getByRole("button", { name: /Look closer/ });
  const free = await bakery.occupied(id);
  await unfolded(page, /^How far the/);
  await begin.click();
  await page.getByRole("progressbar", { name: "How far the work is" }).waitFor();
  await page.getByRole("button", { name: "Stop" }).click();
  await begin.waitFor();
  await free();
  await begin.click();
  await page.getByText("Worked out from 4000 doughs").waitFor();
  await visitor.leave();
});

test("a drink let go flat, simmered or thinned before it goes in moves the answer, is in the bowl by its name, and is saved", async () => {
  const { id } = await bakery.bake("mead-loaf");
  await bakery.change(id, (form) => ({ ...form, name: "A loaf to try on" }));
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/drink`);
  await page.getByTestId("ready").first().waitFor();
  const before = await ready(page);
  await unfolded(page, "Before it goes in");
  const simmer = page.getByRole("textbox", { name: "Simmer to (% of its weight)" });
  await simmer.fill("60");
  await changes_from(page, before);
  // 1079 g in the bowl, out of 1799 g in the pan; what the vapour can do is said at once.
  await page.getByText(/^1799 g into the pan, about \d+ min at a simmer, until 1079 g are left/).waitFor();
  await page.getByText(/leaves as vapour.*can catch fire/).waitFor();
  await page.getByRole("checkbox", { name: "Let it go flat" }).check();
  await page.getByRole("textbox", { name: "Thin to (% vol)" }).fill("0.1");
  await simmer.fill("140");
  await page.getByText("Above 0 and under 100.").waitFor();
  await simmer.fill("60");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Saved.").waitFor();
  const line = "flat, simmered, thinned dry mead";
  const { bowl, prepared, bottle } = await bakery.form(id);
  assert.deepEqual(prepared, { [line]: { of: "dry mead", flat: true, simmer_to: "60 %", thin_to: "0.1 % vol" } });
  assert.ok(line in bowl && !("dry mead" in bowl) && "dry mead" in bottle, JSON.stringify({ bowl, bottle }));
  await page.getByRole("button", { name: "As it comes from the bottle" }).click();
  await page.waitForFunction((b) => document.querySelector("[data-testid=ready]")?.textContent === b, before);
  await visitor.leave();
});

for (const [name, size] of sizes) {
  test(`something is steeped in the drink, and what it takes stands here and on the bench (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}/drink`);
    await page.getByTestId("ready").first().waitFor();
    await unfolded(page, "Before it goes in");
    await page.getByRole("combobox", { name: "Steep in it, then strain it off" }).selectOption("raisins");
    const from = page.getByTestId("made-from");
    await from.waitFor();
    // 5 % of raisins hold twice their weight back: 1079 g in the bowl are of 1199 g and 60 g.
    assert.match(await from.innerText(), /^For 1079 g: 1\d\d\d g dry mead and \d\d g raisins; raisins steeped in it and strained off\.$/);
    await page.getByRole("textbox", { name: "So much of it (% of the drink)" }).fill("60");
    await page.getByText("Above 0 and under 50.").waitFor();
    await page.getByRole("textbox", { name: "So much of it (% of the drink)" }).fill("8");
    await page.waitForFunction(() => / 9\d g raisins|10\d g raisins/.test(document.querySelector("[data-testid=made-from]")?.textContent ?? ""));
    await keeps_the_rules(page, `steeped, ${name}`);
    await picture(page, `steeped-${name}`);
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("Saved.").waitFor();
    assert.deepEqual((await bakery.form(id)).prepared, { "steeped dry mead": { of: "dry mead", steep: "raisins", dose: "8 %" } });
    const bench = await visitor.page(`#/bake/${id}/bench`);
    await bench.getByText(/Before it is weighed, 1079 g of steeped dry mead: 1\d\d\d g dry mead and .* g raisins/).waitFor();
    await visitor.leave();
  });
}

test("the working of a swap goes when the recipe is another; that of a match is of the weights in the rows", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const mead = await bakery.bake("mead-loaf");
  const perry = await bakery.bake("perry-loaf");
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page(`#/bake/${id}/drink`);
  await page.getByTestId("ready").first().waitFor();
  await page.getByRole("button", { name: "Swap water for a drink" }).click();
  await page.getByRole("dialog").getByRole("button", { name: /^stout/ }).click();
  await page.getByTestId("working").filter({ hasText: "the real water is held" }).waitFor();
  await page.getByRole("textbox", { name: /^stout, % of liquid/ }).fill("30");
  await page.getByTestId("working").waitFor({ state: "detached" });

  await page.goto(`${bakery.url}/#/bake/${perry.id}/drink`);
  await page.getByTestId("ready").first().waitFor();
  await page.getByRole("button", { name: "Another drink" }).click();
  await page.getByRole("button", { name: "As much alcohol as another bake" }).click();
  await page.getByRole("dialog").getByRole("button", { name: new RegExp(`^${mead.title}`) }).first().click();
  const working = await page.getByTestId("working").innerText();
  const [, worked] = /(\d+) g dyke perry/.exec(working);
  await page.getByRole("link", { name: "Recipe", exact: true }).click();
  const row = await page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^dyke perry.* g$/ }).innerText();
  assert.ok(row.includes(`${worked} g`), `${worked} g in the working, in the row ${row}`);
  await visitor.leave();
});
