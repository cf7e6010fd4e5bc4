// What a loaf costs, what to ask, what may stand on its label: on a phone and at a desk.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import { Bakery, desk, keeps_the_rules, phone, picture, sizes, unfolded } from "./house.mjs";

const example = (name) => readFileSync(fileURLToPath(new URL(`../../../examples/${name}`, import.meta.url)), "utf8");
const prices = example("marsh-prices.toml");

let bakery;
let id;
before(async () => {
  bakery = await Bakery.open();
  ({ id } = await bakery.bake("mead-loaf"));
});
after(() => bakery?.close());

/** The page of the till with these prices kept in the daybook. */
async function till(visitor, text = prices) {
  const now = await bakery.ask("GET", "/api/settings/price-file").catch(() => ({ revision: 0 }));
  await bakery.ask("PUT", "/api/settings/price-file", { value: text, revision: now.revision });
  const page = await visitor.page(`#/bake/${id}/sell`);
  await page.locator(".answer").waitFor();
  return page;
}

for (const [at, size] of sizes) {
  test(`a price typed changes what a loaf costs, ${at}`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await till(visitor);
    const cost = async () => Number((await page.locator(".answer").innerText()).split(" ")[0]);
    const before = await cost();
    await page.getByRole("button", { name: "Prices" }).click();
    // Six loaves of which 5.7 are sold take 1.44 bottles: 10 EUR more on a bottle is some 2.1 EUR net on a loaf.
    await page.locator("summary", { hasText: "dry mead" }).first().click();
    const price = page.getByRole("group", { name: "Ingredients, as they are bought" }).locator("details[open]").getByRole("textbox", { name: "Price (EUR)" });
    await price.fill("19.60");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByRole("button", { name: "Save", exact: true }).waitFor({ state: "detached" });
    assert.equal((await bakery.ask("GET", "/api/settings/price-file")).value, prices.replace('price = "9.60 EUR"', 'price = "19.60 EUR"'), "one value is another, all else stays");
    await page.getByRole("button", { name: "Cost and price" }).click();
    await page.locator(".answer").waitFor();
    const by = (await cost()) - before;
    assert.ok(by > 2 && by < 2.3, `10 EUR a bottle make a loaf ${by} more`);
    await keeps_the_rules(page, `till, ${at}`);
    await visitor.leave();
  });

  test(`what is wrong is said at its field, ${at}`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await till(visitor);
    await unfolded(page, "Another margin or pay");
    await unfolded(page, "What a change does to a loaf");
    for (const [name, typed, said] of [
      ["Asked today", "-3", /from 0 EUR up/],
      ["Asked today", "3 USD", /USD beside a price file in EUR/],
      ["Margin", "120 %", /a share from 0 % to 99 %/],
      ["Pay for an hour", "much", /no number in "much"/],
      ["If a bottle costs more by", "-1", /from 0 EUR up/],
    ]) {
      const field = page.getByRole("textbox", { name });
      await field.fill(typed);
      await field.blur();
      const why = page.locator(".field", { has: field }).getByRole("alert");
      await why.waitFor();
      assert.match(await why.innerText(), said);
      assert.equal(await field.getAttribute("aria-invalid"), "true");
      await field.fill("");
      await field.blur();
      await why.waitFor({ state: "detached" });
    }
    const asked = page.getByRole("textbox", { name: "Asked today" });
    await asked.fill("7,90");
    await asked.blur();
    await page.getByText(/asked today/).first().waitFor();
    assert.match(await page.locator(".offer", { hasText: "asked today" }).innerText(), /7\.90 EUR/);

    await page.getByRole("button", { name: "Prices" }).click();
    await page.getByText("As a file: import and export").click();
    for (const [from, to, said] of [
      ['price = "9.60 EUR"', 'price = "-9.60 EUR"', /prices:45:\d+.*negative/s],
      ['price = "9.60 EUR"', 'price = "9.60 USD"', /USD stands in a file of EUR/],
      ["date = 2026-11-20 ", "# none ", /date/],
      ['size = "750 mL"\n', "", /size/],
    ]) {
      assert.ok(prices.includes(from), from);
      await page.getByRole("textbox", { name: "Price file" }).fill(prices.replace(from, to));
      await page.getByRole("button", { name: "Save" }).click();
      const why = page.getByRole("alert").filter({ hasText: said });
      await why.waitFor();
    }
    await visitor.leave();
  });

  test(`the label follows the law asked for, ${at}`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await till(visitor);
    await page.getByRole("button", { name: "Label", exact: true }).click();
    const table = page.getByRole("table");
    await table.getByRole("row", { name: /of which saturates/ }).waitFor();
    assert.equal(await table.getByText("% Daily Value").count(), 0);
    await unfolded(page, "Law and print");
    await page.getByRole("combobox", { name: "Language of the sale" }).selectOption("de");
    await page.getByText(/Zutaten: .*mehl/).waitFor();
    await picture(page, `label-eu-${at}`);
    await page.getByRole("combobox", { name: "By the law of" }).selectOption("uk");
    await unfolded(page, "Ask before you print");
    await page.getByRole("heading", { name: "Sourdough" }).waitFor();
    await table.getByRole("row", { name: /of which saturates/ }).waitFor();
    await page.getByRole("combobox", { name: "By the law of" }).selectOption("us");
    await table.getByRole("row", { name: /Potassium/ }).waitFor();
    for (const name of ["Trans Fat", "Vitamin D", "Iron"]) assert.match(await table.getByRole("row", { name }).innerText(), /not known/);
    // A panel without them is none: the page says what is missing, and it goes when it is given.
    const missing = page.getByRole("region", { name: "Not to be printed yet" });
    assert.match(await missing.innerText(), /Trans Fat in 100 g/);
    await unfolded(page, "What no recipe tells");
    for (const [name, text] of [["Trans fat in 100 g", "0 g"], ["Cholesterol in 100 g", "0 mg"], ["Vitamin D in 100 g", "0 ug"], ["Iron in 100 g", "1.4 mg"]]) {
      await page.getByRole("textbox", { name }).fill(text);
      await page.getByRole("textbox", { name }).blur();
    }
    await missing.waitFor({ state: "detached" });
    const iron = page.getByRole("textbox", { name: "Iron in 100 g" });
    await iron.fill("1.4");
    await iron.blur();
    await page.getByRole("alert").filter({ hasText: "needs its unit" }).waitFor();
    await iron.fill("1.4 mg");
    await iron.blur();
    await page.getByRole("alert").waitFor({ state: "detached" });
    assert.match(await table.getByRole("row", { name: /Sodium/ }).innerText(), /mg\s+\d+ %/);
    await keeps_the_rules(page, `label, ${at}`);
    await picture(page, `label-us-${at}`);
    await visitor.leave();
  });

  test(`what is typed half outlives the screen, ${at}`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await till(visitor);
    await unfolded(page, "Another margin or pay");
    await page.getByRole("textbox", { name: "Asked today" }).focus();
    await page.keyboard.type("7.9");
    await page.reload();
    const asked = page.getByRole("textbox", { name: "Asked today" });
    await asked.waitFor();
    assert.equal(await asked.inputValue(), "7.9");
    await asked.fill("");
    await asked.blur();
    await page.getByRole("button", { name: "Label", exact: true }).click();
    await unfolded(page, "What no recipe tells");
    const lot = page.getByRole("textbox", { name: "Lot" });
    await lot.fill("L 332");
    await lot.blur();
    await page.getByRole("textbox", { name: "Address" }).focus();
    await page.keyboard.type("Saltmarsh");
    await page.reload();
    await page.getByRole("button", { name: "Label", exact: true }).click();
    await unfolded(page, "What no recipe tells");
    assert.equal(await page.getByRole("textbox", { name: "Lot" }).inputValue(), "L 332");
    assert.equal(await page.getByRole("textbox", { name: "Address" }).inputValue(), "Saltmarsh");
    // A lot typed for one bake is not to be printed on the next unseen.
    await page.getByRole("button", { name: "As the bake file has it" }).click();
    const empty = await unfolded(page, "Not filled in yet");
    await empty.locator("summary", { hasText: "Lot" }).last().click();
    await page.getByText(/none given: it may be left out/).waitFor();
    assert.equal(await page.getByRole("textbox", { name: "Lot" }).inputValue(), "");
    await visitor.leave();
  });

  test(`few answers of buyers are called few, enough find a price, ${at}`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await till(visitor);
    await unfolded(page, "What buyers say");
    const answers = page.getByRole("textbox", { name: "One line for each answer" });
    const give = async (text) => {
      await answers.fill(text);
      await answers.blur();
    };
    await give("buyer,price,would buy\nA,6.50,yes\nA,9.50,no\nB,6.50,yes\n");
    await page.getByText(/too few/i).filter({ visible: true }).first().waitFor();
    assert.equal(await page.getByText(/Most would be left at/).count(), 0, "few answers choose no price");
    await give("buyer,price,would buy\nA,-6.50,yes\n");
    await page.locator(".field", { has: answers }).getByRole("alert").filter({ hasText: /line 2/ }).waitFor();
    await give(example("buyers.csv"));
    await page.getByRole("row", { name: /22 of 24/ }).waitFor();
    await page.getByText(/Most would be left at/).waitFor();
    await keeps_the_rules(page, `buyers, ${at}`);
    await picture(page, `buyers-${at}`);
    await visitor.leave();
  });
}

test("the sheets to print stand alone", async () => {
  const visitor = await bakery.visit({ size: desk });
  const page = await till(visitor);
  const open = async (name) => {
    const [sheet] = await Promise.all([visitor.context.waitForEvent("page"), page.getByRole("link", { name }).click()]);
    await sheet.waitForLoadState();
    return sheet;
  };
  const card = await open("Shelf card and price sheet, to print");
  assert.match(await card.locator(".card").innerText(), /13\.80 EUR[\s\S]*\/ kg[\s\S]*wheat/);
  assert.match(await card.locator("table").innerText(), /to shops, net/);
  await picture(card, "sheet-prices");
  await page.getByRole("button", { name: "Label", exact: true }).click();
  for (const [law, words] of [["eu", "of which saturates"], ["uk", "of which saturates"], ["us", "% Daily Value"]]) {
    await page.getByRole("combobox", { name: "By the law of" }).selectOption(law);
    if (law === "us") {
      await unfolded(page, "What no recipe tells");
      for (const [name, text] of [["Trans fat in 100 g", "0 g"], ["Cholesterol in 100 g", "0 mg"], ["Vitamin D in 100 g", "0 ug"], ["Iron in 100 g", "1.4 mg"]]) {
        await page.getByRole("textbox", { name }).fill(text);
        await page.getByRole("textbox", { name }).blur();
      }
      await page.getByRole("region", { name: "Not to be printed yet" }).waitFor({ state: "detached" });
    }
    await page.getByRole("combobox", { name: "Width of the printed label" }).selectOption("40mm");
    await page.getByText(law === "us" ? "Potassium" : words).filter({ visible: true }).first().waitFor();
    const label = await open("The label, to print");
    const box = label.locator(".label");
    assert.match(await box.innerText(), new RegExp(words));
    // 40 mm at 96 points an inch, and nothing sticks out of it.
    const { width, over } = await box.evaluate((e) => ({ width: e.getBoundingClientRect().width, over: e.scrollWidth - e.clientWidth }));
    assert.ok(Math.abs(width - (40 * 96) / 25.4) < 1, `${width} px`);
    assert.ok(over <= 0, `${law}: ${over} px wider than the label`);
    // Letters as high as the law asks: a small x measured, not believed.
    const least = law === "us" ? 1.5875 : 1.2;
    const x = await box.evaluate((e) => {
      const probe = document.createElement("span");
      // Large, for a browser counts an ex in whole points.
      probe.style.cssText = "display:inline-block;font-size:100em;height:0.01ex;width:1px;position:absolute";
      e.append(probe);
      const { height } = probe.getBoundingClientRect();
      probe.remove();
      return (height * 25.4) / 96;
    });
    assert.ok(x >= least, `${law}: a small x of ${x} mm`);
    await picture(label, `sheet-label-${law}`);
    await label.close();
  }
  await visitor.leave();
});
