// The bench sheet: ticks and weights that survive, the mend, one printed page.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, desk, phone, sizes } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

for (const [name, size] of sizes) {
  test(`ticks and what was really poured survive a reload; an over-pour has its mend (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}/bench`);
    await page.getByText("5 of 5 still to weigh.").waitFor();
    const figure = await page.locator(".big").first().evaluate((e) => parseFloat(getComputedStyle(e).fontSize));
    assert.ok(figure >= 40, `figures to read from a step away: ${figure} px`);
    await page.getByRole("checkbox").first().check();
    await page.getByRole("button", { name: "Weighed different: dry mead" }).click();
    await page.getByRole("textbox", { name: /Really poured of dry mead/ }).fill("1200");
    await page.getByTestId("mend").waitFor();
    assert.match(await page.getByTestId("mend").innerText(), /Pour .* less water/);

    await page.reload();
    await page.getByText("4 of 5 still to weigh.").waitFor();
    assert.equal(await page.getByRole("textbox", { name: /Really poured of dry mead/ }).inputValue(), "1200");
    await page.getByTestId("mend").waitFor();

    await page.getByRole("button", { name: "Keep what was poured" }).click();
    await page.getByText("Kept: from now on").waitFor();
    const { marks } = await bakery.ask("GET", `/api/marks?owner=${id}`);
    assert.deepEqual(marks.filter((m) => m.poured_g !== null).map((m) => [m.what, m.of, m.poured_g]), [["weigh", "dry mead", 1200]]);
    await page.getByText("3 of 5 still to weigh.").waitFor();
    await page.getByTestId("mend").waitFor();
    await visitor.leave();
  });
}

test("a tick is seen on another device, can be taken off there, and waits while the server is away", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const [phone, tablet] = [await bakery.visit(), await bakery.visit({ size: desk })];
  const [a, b] = [await phone.page(`#/bake/${id}/bench`), await tablet.page(`#/bake/${id}/bench`)];
  const salt = (page) => page.getByRole("checkbox", { name: /salt/ });
  for (const page of [a, b]) await page.getByText("4 of 4 still to weigh.").waitFor();
  await salt(a).check();
  await b.getByText("3 of 4 still to weigh.").waitFor();
  assert.ok(await salt(b).isChecked());
  await salt(b).uncheck();
  await a.getByText("4 of 4 still to weigh.").waitFor();
  assert.ok(!(await salt(a).isChecked()));

  const port = await bakery.stop();
  await a.getByRole("checkbox", { name: /water/ }).check();
  await a.getByText("3 of 4 still to weigh.").waitFor();
  await a.getByText("The server is away").waitFor();
  await bakery.start(port);
  await b.getByText("3 of 4 still to weigh.").waitFor();
  const { marks } = await bakery.ask("GET", `/api/marks?owner=${id}`);
  assert.deepEqual(marks.map((m) => [m.what, m.of, m.poured_g]), [["weigh", "water", null]]);

  await b.getByRole("button", { name: "Start over" }).click();
  await b.getByRole("button", { name: "Wipe the sheet" }).click();
  await a.getByText("4 of 4 still to weigh.").waitFor();
  await phone.leave();
  await tablet.leave();
});

test("a dough mixed just now is alive from now on", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/bench`);
  await page.getByRole("button", { name: "Mixed just now" }).click();
  await page.getByText("the clock of this dough runs").waitFor();
  const record = await bakery.ask("GET", `/api/bakes/${id}`);
  assert.equal(record.state, "live");
  assert.ok(Math.abs(Date.parse(record.mixed_at) - Date.now()) < 120_000, record.mixed_at);
  await visitor.leave();
});

test("it prints on one page, A4 or Letter, in black", async () => {
  const { id } = await bakery.bake("stout-loaf");
  await bakery.change(id, (form) => ({ ...form, oven: { set: "240 C", steam: "10 min" } }));
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page(`#/bake/${id}/bench`);
  await page.getByText("still to weigh.").waitFor();
  await page.getByTestId("at-the-oven").waitFor();
  await page.getByTestId("ready-said").waitFor();
  for (const format of ["A4", "Letter"]) {
    const pdf = await page.pdf({ format });
    const pages = pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g) ?? [];
    assert.equal(pages.length, 1, format);
  }
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  const colours = await page.evaluate(() => ["color", "backgroundColor"].map((of) => getComputedStyle(document.body)[of]));
  assert.deepEqual(colours, ["rgb(0, 0, 0)", "rgb(255, 255, 255)"], "in black on white, from a dark screen too");
  await visitor.leave();
});

test("the screen is asked to stay on", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit();
  await visitor.context.addInitScript(() => {
    globalThis.asked_for = [];
    Object.defineProperty(navigator, "wakeLock", {
      value: { request: async (kind) => (globalThis.asked_for.push(kind), { release: async () => undefined }) },
    });
  });
  const page = await visitor.page(`#/bake/${id}/bench`);
  await page.getByText("The screen stays on.").waitFor();
  assert.deepEqual(await page.evaluate(() => globalThis.asked_for), ["screen"]);
  await visitor.leave();
});

test("what was poured too much is put right with less water, or with what is added, and said to be right then", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/bench`);
  await page.getByText("5 of 5 still to weigh.").waitFor();
  await page.getByRole("button", { name: "Weighed different: dry mead" }).click();
  await page.getByRole("textbox", { name: /Really poured of dry mead/ }).fill("1140");
  const mend = page.getByTestId("mend");
  await mend.getByText(/^Pour \d\d g less water$/).waitFor();

  // With the water in the bowl only adding helps.
  await page.getByRole("checkbox", { name: /water/ }).check();
  await mend.getByText(/less water/).waitFor({ state: "detached" });
  await page.getByRole("checkbox", { name: /salt/ }).check();
  await mend.getByText(/^Add/).nth(1).waitFor();
  await mend.getByRole("button", { name: "I added this" }).click();
  await page.getByRole("heading", { name: "It is right" }).waitFor();
  await page.getByText(/All is in proportion; there is \d+ g more dough/).waitFor();
  await page.reload();
  await page.getByRole("heading", { name: "It is right" }).waitFor();
  await visitor.leave();
});

test("two thirds of a gram on five kilograms are left alone", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/bench`);
  await page.getByText("5 of 5 still to weigh.").waitFor();
  await page.getByRole("button", { name: "Weighed different: salt" }).click();
  const salt = page.getByRole("textbox", { name: /Really poured of salt/ });
  await salt.fill("66");
  await page.getByTestId("mend").waitFor();
  await salt.fill("61");
  await page.getByTestId("mend").waitFor({ state: "detached" });
  await visitor.leave();
});
