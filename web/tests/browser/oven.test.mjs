// The loaf in its oven: asked when its part is opened, and again with what is changed; its pictures at both widths.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, keeps_the_rules, phone, picture, sizes, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

for (const [name, size] of sizes) {
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

const in_oven = { set: ["250 C", "15 min 220 C"], bake: "45 min", steam: "10 min", loaves: 2 };
const with_oven = async (id, oven = in_oven) => bakery.change(id, (form) => ({ ...form, oven }));

for (const [name, size] of sizes) {
  test(`with an oven in its file a bake's stages and bench sheet go on to the bag (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf");
    await with_oven(id);
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}`);
    await unfolded(page, "The rise");
    await page.getByText("The stages, step by step").click();
    const stages = page.locator("table", { hasText: "proof" });
    assert.match(await stages.innerText(), /oven[\s\S]*in it 45 min; core \d+ °C[\s\S]*lighter[\s\S]*cooling[\s\S]*cool enough to bag/);
    await keeps_the_rules(page, `the stages up to the bag, ${name}`);
    await picture(page, `stages-oven-${name}`);

    const bench = await visitor.page(`#/bake/${id}/bench`);
    const sheet = bench.getByTestId("at-the-oven");
    await sheet.waitFor();
    assert.match(await sheet.innerText(), /250 °C, from 15 min on 220 °C, steam for 10 min, 2 loaves at once/);
    assert.match(await sheet.innerText(), /45 min, core \d+ °C[\s\S]*% \(.*lighter/);
    await bench.getByText("Alcohol vapour can burn", { exact: false }).waitFor();
    await keeps_the_rules(bench, `bench, at the oven, ${name}`);
    await picture(bench, `bench-oven-${name}`);
    await visitor.leave();
  });
}

for (const [name, size] of sizes) {
  test(`pieces that proof in the cold are told straight into the oven or not, and how long they may stay (${name})`, async () => {
    const { id } = await bakery.bake("cold-coffee-loaf");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}`);
    await unfolded(page, "The rise");
    const said = page.getByTestId("out-of-the-cold");
    assert.match(await said.innerText(), /^Out of the cold: .*(oven|stand).* It may stay in the cold .*\.$/);
    const { out_of_the_cold } = await bakery.ask("POST", "/api/foresee", { bake_id: id });
    assert.equal(await said.innerText(), `${out_of_the_cold.words}.`);
    await keeps_the_rules(page, `out of the cold, ${name}`);
    await picture(page, `out-of-the-cold-${name}`);
    await visitor.leave();
  });
}

test("a loaf that is ticked off into the oven is next to come out of it, and then to be cut", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 12, state: "live" });
  await with_oven(id, { ...in_oven, loaves: 6 });
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page(`#/bake/${id}/read`);
  const head = page.getByTestId("head");
  await page.getByRole("checkbox", { name: /^into the oven/ }).click();
  await head.getByText("out of the oven", { exact: true }).waitFor();
  assert.match(await head.innerText(), /out of the oven .* · cool enough to cut about/);
  await page.getByRole("checkbox", { name: /^out of the oven/ }).click();
  await head.getByText("cool enough to cut", { exact: true }).waitFor();
  const { marks } = await bakery.ask("GET", `/api/marks?owner=${id}`);
  assert.deepEqual(marks.map((m) => [m.what, m.stage]).sort(), [["into_the_oven", null], ["out_of_the_oven", null]]);
  await visitor.leave();
});

test("loaves that do not all fit go in by loads, each with its hours and its dough, and are ticked off one by one", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 12, state: "live" });
  await with_oven(id);
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page(`#/bake/${id}`);
  await unfolded(page, "The rise");
  await page.getByText("The stages, step by step").click();
  const stages = page.locator("table", { hasText: "proof" });
  assert.match(await stages.innerText(), /oven[\s\S]*in about[\s\S]*2 loaves, 50 min longer in its last place[\s\S]*2 loaves, 100 min|2 loaves, 1\.7 h longer/);
  await keeps_the_rules(page, "stages of three loads");
  await picture(page, "loads-stages-phone");
  const bench = await visitor.page(`#/bake/${id}/bench`);
  await bench.getByTestId("at-the-oven").getByText("load 3").waitFor();
  await keeps_the_rules(bench, "bench, three loads");
  await picture(bench, "loads-bench-phone");
  const read = await visitor.page(`#/bake/${id}/read`);
  const head = read.getByTestId("head");
  await read.getByRole("checkbox", { name: "into the oven, load 1 of 3" }).click();
  await head.getByText("out of the oven, load 1 of 3", { exact: true }).waitFor();
  await read.getByRole("checkbox", { name: "out of the oven, load 1 of 3" }).click();
  await head.getByText("into the oven, load 2 of 3", { exact: true }).waitFor();
  await read.getByRole("checkbox", { name: "into the oven, load 2 of 3" }).click();
  await head.getByText("out of the oven, load 2 of 3", { exact: true }).waitFor();
  const { marks } = await bakery.ask("GET", `/api/marks?owner=${id}`);
  assert.deepEqual(marks.map((m) => [m.what, m.stage]).sort(), [["into_the_oven", null], ["into_the_oven", 2], ["out_of_the_oven", null]]);
  await visitor.leave();
});

for (const [name, size] of sizes) {
  test(`an oven is learned once, and every bake in it says so (${name})`, async (t) => {
    const house = await Bakery.open();
    t.after(() => house.close());
    const { id } = await house.bake("mead-loaf");
    const visitor = await house.visit({ size });
    const page = await visitor.page(`#/bake/${id}`);
    await page.getByText("The oven", { exact: true }).click();
    await page.getByTestId("oven").waitFor();
    await page.getByText("Learn this oven", { exact: false }).click();
    await page.getByRole("textbox", { name: "The oven's name" }).fill("Deck oven");
    await page.getByLabel("The probe's file (CSV)").setInputFiles({ name: "core.csv", mimeType: "text/csv", buffer: Buffer.from("minutes,celsius\n0,25\n") });
    await page.getByRole("button", { name: "Learn and keep" }).click();
    await page.getByText("a probe's file holds at least three readings", { exact: false }).waitFor();
    assert.deepEqual((await house.ask("GET", "/api/equipment")).equipment, [], "an oven that taught nothing is none");
    await page.getByLabel("The probe's file (CSV)").setInputFiles({ name: "core.csv", mimeType: "text/csv", buffer: Buffer.from("minutes,celsius\n0,25\n10,32\n20,60\n30,86\n40,96\n") });
    await page.getByRole("textbox", { name: "Lighter by (%)" }).fill("13.5");
    await page.getByRole("button", { name: "Learn and keep" }).click();
    await page.getByText("Deck oven is learned", { exact: false }).waitFor();
    await page.getByText(/In Deck oven, learned .* from 1 bake/).waitFor();
    await keeps_the_rules(page, `an oven is learned, ${name}`);
    await picture(page, `learn-oven-${name}`);

    const all = await visitor.page("#/equipment");
    await all.getByText("Deck oven").click();
    await all.getByRole("textbox", { name: "Loaves it takes at once" }).fill("4");
    await all.getByRole("button", { name: "Save", exact: true }).click();
    const { equipment } = await house.until("/api/equipment", ({ equipment }) => equipment[0]?.toml.includes("holds = 4"));
    assert.match(equipment[0].toml, /learned = \[/);
    await keeps_the_rules(all, `ovens, fridges, mixers, ${name}`);
    await picture(all, `equipment-${name}`);
    await all.getByRole("button", { name: "Into the trash: Deck oven" }).click();
    await all.getByText("None is written down yet.", { exact: false }).waitFor();
    await all.getByRole("button", { name: "Undo" }).click();
    await all.getByText("Deck oven").waitFor();
    await visitor.leave();
  });
}
