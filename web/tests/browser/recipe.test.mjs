// The recipe: what a change does at once, and that nothing typed is lost.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { after, before, test } from "node:test";
import { Bakery, amount, barm, desk, keeps_the_rules, settled, sizes, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const ready = (page) => page.getByTestId("ready").first().innerText();
const changes_from = (page, before) => page.waitForFunction((b) => document.querySelector("[data-testid=ready]")?.textContent !== b, before);

for (const [name, size] of sizes) {
  test(`a blank bake begins with flour, water, salt, levain and an answer (${name})`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await visitor.page("#/new");
    await page.getByRole("button", { name: "Begin with flour, water, salt and levain" }).click();
    await page.getByTestId("ready").first().waitFor();
    assert.match(await ready(page), /^(Sun|Mon|Tue|Wed|Thu|Fri|Sat) \d\d:\d\d$/);
    const lines = await page.getByRole("list", { name: "The bowl" }).locator(".name").allInnerTexts();
    assert.deepEqual(lines, ["white bread flour", "water", "salt", "levain", "dough"]);
    await visitor.leave();
  });

  test(`an example begins as its file says (${name})`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await visitor.page("#/new");
    await page.getByRole("button", { name: /^Cold coffee loaf/ }).first().click();
    await page.getByTestId("ready").first().waitFor();
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.waitForURL(/#\/bake\//);
    const id = /bake\/([\w-]+)/.exec(page.url())[1];
    const { form } = await bakery.ask("POST", "/api/bake", { bake: bakery.example("cold-coffee-loaf") });
    assert.deepEqual((await bakery.form(id)).bowl, form.bowl);
    const lines = await page.getByRole("list", { name: "The bowl" }).locator(".name").allInnerTexts();
    for (const line of lines.filter((name) => name !== "dough")) assert.ok(line in form.bowl, line);
    await visitor.leave();
  });

  test(`a percentage, a bottle, a temperature: bowl, window, hours and limits follow (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}`);
    await page.getByTestId("ready").first().waitFor();
    const at_first = await ready(page);
    const alcohol = () => page.getByTestId("in-the-way").first().innerText();
    const before_way = await alcohol();

    // What stands beside a cost is what the terminal says.
    const terminal = execFileSync(barm, ["foresee", bakery.example_file("mead-loaf"), "--draws", "20"], { encoding: "utf8" });
    for (const why of await page.getByTestId("in-the-way").first().locator(".why").allInnerTexts())
      assert.ok(terminal.includes(`   ${why}\n`), why);

    // More salt: later, and heavier in the bowl.
    const salt = await amount(page, "salt");
    await salt.fill("2,8 %");
    await changes_from(page, at_first);
    await page.waitForFunction(() => /salt[\s\S]*2\.8 %/.test(document.querySelector("[data-testid=bowl]")?.innerText ?? ""));
    const salted = await ready(page);

    // A weaker bottle: sooner again, and alcohol costs less.
    await page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^dry mead/ }).click();
    await page.getByRole("textbox", { name: "Strength (% vol)", exact: true }).fill("5");
    await changes_from(page, salted);
    assert.notEqual(await alcohol(), before_way);
    const weaker = await ready(page);

    // A warmer place.
    await page.getByRole("textbox", { name: /Warmth of the bulk/ }).fill("28");
    await changes_from(page, weaker);
    await page.waitForFunction(() => document.body.innerText.includes("doubled, 28 °C"));
    await visitor.leave();
  });
}

test("the slider of the warmth moves the window too, and undo takes it back", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  const slider = page.getByRole("slider", { name: /Slide the warmth/ });
  const before = await slider.inputValue();
  await slider.focus();
  await page.keyboard.press("ArrowRight");
  assert.equal(Number(await slider.inputValue()), Number(before) + 0.5);
  await page.getByRole("button", { name: "Undo" }).click();
  assert.equal(await slider.inputValue(), before);
  await visitor.leave();
});

test("a wrong amount is said at its line; the answer before stays", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  const before = await ready(page);
  const flour = await amount(page, "white bread flour");
  await flour.fill("90");
  await page.getByText("This is still the answer from before your last change").waitFor();
  await page.locator(".bowl-lines [role=alert], .recipe > .note[role=alert]").first().waitFor();
  assert.equal(await ready(page), before);
  await keeps_the_rules(page, "an answer from before");
  await flour.fill("x");
  assert.match(await page.locator(".bowl-lines [role=alert]").first().innerText(), /is no number/);
  await flour.fill("100");
  await page.getByText("This is still the answer from before your last change").waitFor({ state: "detached" });
  await visitor.leave();
});

test("what is typed and not saved survives a reload, and is saved at last", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  await (await amount(page, "salt")).fill("1.7");
  await page.reload();
  await page.getByText("Your unsaved changes were brought back.").waitFor();
  assert.equal(await (await amount(page, "salt")).inputValue(), "1.7");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Saved.").waitFor();
  assert.match((await bakery.form(id)).bowl.salt, /^1\.7 ?%$/);
  await visitor.leave();
});

test("something more into the bowl, and out of it", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  await page.getByRole("button", { name: "Add an ingredient" }).click();
  await page.getByRole("searchbox").fill("honey");
  await page.keyboard.press("Enter");
  const take_out = page.getByRole("button", { name: "Take honey out" });
  await take_out.waitFor();
  const amount_first = (field, button) => Boolean(field.compareDocumentPosition(button) & Node.DOCUMENT_POSITION_FOLLOWING);
  assert.ok(await (await amount(page, "honey")).evaluate(amount_first, await take_out.elementHandle()), "the amount is reached before the button that takes it out");
  await page.waitForFunction(() => /honey/.test(document.querySelector("[data-testid=bowl]")?.innerText ?? ""));
  await page.getByRole("button", { name: "Take honey out" }).click();
  await page.waitForFunction(() => !/honey/.test(document.querySelector("[data-testid=bowl]")?.innerText ?? ""));
  await settled(page);
  await visitor.leave();
});

test("the file for the terminal is that of the recipe as it stands", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  await unfolded(page, "This bake");
  await page.getByText("As a file for the terminal").click();
  const file = page.locator("pre.file");
  await file.filter({ hasText: /salt = "2 %"/ }).waitFor();
  await (await amount(page, "salt")).fill("2.4");
  await file.filter({ hasText: /salt = "2.4 %"/ }).waitFor();
  await visitor.leave();
});

test("a kilo of flour typed is the size of the dough; no piece stands beside it", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  const dough = page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^dough/ });
  await dough.filter({ hasText: "6 × 900 g" }).waitFor();
  await (await amount(page, "white bread flour")).fill("1 kg");
  await dough.filter({ hasText: "6 × 337 g" }).waitFor();
  await page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^white bread flour 1 kg.*1000 g/ }).waitFor();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Saved.").waitFor();
  assert.equal((await bakery.form(id)).piece, undefined);
  await visitor.leave();
});

test("pieces, the whole dough, all the flour or all the liquid may be given", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  const dough = page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^dough/ });
  await dough.click();
  for (const [given, field, text, weighs] of [["dough", /^Whole dough/, "3000", /3000 g/], ["flour", /^All the flour/, "2000", /3573 g/], ["liquid", /^All the liquid/, "1000", /2330 g/]]) {
    await page.getByRole("combobox", { name: "What is given" }).selectOption(given);
    await page.getByRole("textbox", { name: field }).fill(text);
    await dough.filter({ hasText: weighs }).waitFor();
  }
  await visitor.leave();
});

test("stages and bottles are typed in the units of the house, with bare numbers", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const revision = await bakery.ask("GET", "/api/settings/habits").then((r) => r.revision, () => 0);
  await bakery.ask("PUT", "/api/settings/habits", { value: JSON.stringify({ warmth: "F", weight: "oz", clock: "24", decimal: "." }), revision });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByText("75 °F").first().waitFor();
  await page.getByText("The stages", { exact: true }).click();
  const warmth = page.getByRole("textbox", { name: "Warmth", exact: true }).first();
  assert.equal(await warmth.inputValue(), "75.2 F");
  await warmth.fill("80");
  const lasts = page.getByRole("textbox", { name: "For (h)", exact: true }).first();
  await lasts.fill("1:30");
  await page.getByText("80 °F").first().waitFor();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Saved.").waitFor();
  const { stage } = await bakery.form(id);
  assert.equal(stage.find((s) => s.do === "bulk").temperature, "80 F");
  assert.equal(stage.find((s) => s.do === "proof").for, "1.5 h");

  await page.goto(`${bakery.url}/#/bake/${id}/read`);
  await page.getByRole("group", { name: "Done so far" }).getByText("until doubled, 80 °F").waitFor();

  // What is to be put right on the bench is said in ounces too.
  await page.goto(`${bakery.url}/#/bake/${id}/bench`);
  await page.getByRole("button", { name: "Weighed different: dry mead" }).click();
  await page.getByRole("textbox", { name: /Really poured of dry mead \(oz\)/ }).fill("41");
  const mend = page.getByTestId("mend");
  await mend.waitFor();
  assert.match(await mend.innerText(), /Pour [\d.]+ oz less water/);
  assert.doesNotMatch(await mend.innerText(), /\d g\b/);
  await visitor.leave();
  await bakery.ask("PUT", "/api/settings/habits", { value: JSON.stringify({ warmth: "C", weight: "g", clock: "24", decimal: "." }), revision: revision + 1 });
});

test("percent counts on all flour or on the flour weighed, as the baker says, and it is said which", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page(`#/bake/${id}`);
  const said = (await unfolded(page, "In the bowl")).getByText(/^Percent is of/);
  assert.match(await said.innerText(), /all flour, the levain’s too/);
  await page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^dough/ }).click();
  await page.getByLabel("Percent is of", { exact: true }).selectOption("the flour weighed");
  await page.getByText(/^Percent is of the flour weighed/).waitFor();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await bakery.until(`/api/bakes/${id}`, (bake) => /percent_of = ['"]the flour weighed['"]/.test(bake.toml));
  const { bowl } = await bakery.ask("POST", "/api/bowl", { bake_id: id });
  const flours = bowl.lines.filter((line) => /flour/.test(line.ingredient));
  assert.ok(Math.abs(flours.reduce((sum, line) => sum + line.plan_g, 0) - bowl.percent_of_g) < 0.01, "the flours weighed are what percent is of");
  assert.ok(bowl.percent_of_g < bowl.flour_g - 1, "the levain's flour comes on top");
  await visitor.leave();
});

test("what the levain did in its jar is told where the recipe asks for the starter", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  await page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^levain/ }).click();
  const rose = page.getByRole("textbox", { name: "Rose in its jar to (times)" });
  await rose.fill("0.5");
  await page.getByText(/a rise is a ratio above 1 and at most 8/).first().waitFor();
  await rose.fill("3.2");
  await page.getByText(/a rise is a ratio above 1/).first().waitFor({ state: "detached" });
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await bakery.until(`/api/bakes/${id}`, (bake) => /rose = ['"]3.2 times['"]/.test(bake.toml));
  await visitor.leave();
});
