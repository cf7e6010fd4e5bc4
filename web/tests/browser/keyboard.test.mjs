// The keyboard alone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, desk, settled } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const focused = (page) =>
  page.evaluate(() => {
    const e = document.activeElement;
    if (!e || e === document.body) return "";
    const label = e.getAttribute("aria-label") || (e.id && document.querySelector(`label[for="${CSS.escape(e.id)}"]`)?.textContent) || e.textContent;
    return (label ?? "").trim();
  });

/** Tabs until something of that name has the focus, and it shows. */
async function tab_to(page, name, most = 120) {
  for (let i = 0; i < most; i++) {
    await page.keyboard.press("Tab");
    const here = await focused(page);
    if (typeof name === "string" ? here === name : name.test(here)) {
      const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
      assert.notEqual(outline, "none", `${name}: the focus shows`);
      return;
    }
  }
  assert.fail(`no way by Tab to "${name}"`);
}

test("from the first page to a saved bake", async () => {
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page("");
  await settled(page);
  await page.keyboard.press("Tab");
  assert.equal(await focused(page), "Skip to the screen");
  await page.keyboard.press("Enter");
  assert.equal(await page.evaluate(() => document.activeElement?.id), "main");
  await tab_to(page, "Bakes");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Bakes", level: 1 }).waitFor();
  await tab_to(page, "New bake");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "A new bake" }).waitFor();
  await tab_to(page, "Begin with flour, water, salt and levain");
  await page.keyboard.press("Enter");
  await page.getByTestId("ready").first().waitFor();
  await page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^salt.* g$/ }).waitFor();
  await tab_to(page, /^salt/);
  await page.keyboard.press("Enter");
  await page.getByRole("textbox", { name: "Amount of salt" }).waitFor();
  await page.keyboard.type("2.5");
  await tab_to(page, "Save");
  await page.keyboard.press("Enter");
  await page.getByRole("navigation", { name: "Parts of this bake" }).waitFor();
  const { bakes } = await bakery.ask("GET", "/api/bakes");
  assert.equal((await bakery.form(bakes[0].id)).bowl.salt.replace(" ", ""), "2.5%");
  await visitor.leave();
});

test("a dialog holds the focus, Escape closes it and gives the focus back", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page(`#/bake/${id}/drink`);
  await page.getByTestId("ready").first().waitFor();
  await tab_to(page, "Swap water for a drink");
  await page.keyboard.press("Enter");
  await page.getByRole("dialog").waitFor();
  for (let i = 0; i < 8; i++) {
    await page.keyboard.press("Tab");
    const inside = await page.evaluate(() => document.querySelector("dialog")?.contains(document.activeElement) || document.activeElement === document.body);
    assert.ok(inside, "the focus stays in the dialog");
  }
  await page.keyboard.press("Escape");
  await page.getByRole("dialog").waitFor({ state: "detached" });
  assert.equal(await focused(page), "Swap water for a drink");
  await visitor.leave();
});

test("a height is read with the arrow keys and Enter", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 2, state: "live" });
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page(`#/bake/${id}/read`);
  await page.getByRole("textbox", { name: "Height at mixing (mm)" }).waitFor();
  await tab_to(page, "Height at mixing (mm)");
  await page.keyboard.type("44");
  await page.keyboard.press("Enter");
  await page.getByText(/Noted: 44 mm/).waitFor();
  const readings = await bakery.readings(id);
  assert.deepEqual(readings.map((r) => r.height_mm), [44]);
  await visitor.leave();
});

test("a first bake, a bench sheet and a look at the jars, by keys alone", async () => {
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page("#/first");
  await page.getByRole("textbox", { name: "Flour (g)", exact: true }).waitFor();
  await page.keyboard.type("500");
  await page.keyboard.press("Tab");
  await page.keyboard.type("350");
  await page.getByTestId("ready").waitFor();
  await page.keyboard.press("Enter");
  await page.getByRole("navigation", { name: "Parts of this bake" }).waitFor();
  const id = /bake\/([\w-]+)/.exec(page.url())[1];

  await tab_to(page, "Bench");
  await page.keyboard.press("Enter");
  await page.getByText("4 of 4 still to weigh.").waitFor();
  for (let i = 0; i < 60 && !(await page.evaluate(() => document.activeElement?.matches("input[type=checkbox]"))); i++) await page.keyboard.press("Tab");
  await page.keyboard.press("Space");
  await page.getByText("3 of 4 still to weigh.").waitFor();

  const document = { base_id: id, causes: [], doughs: [{ name: "as it is", make: [] }, { name: "plain water", make: ["plain"] }], days: ["2026-11-28"], jars: 1, jar_mm: 60, amount_g: 300, within_h: 14, seed: 7, remark: "", looks: [] };
  const made = await bakery.ask("POST", "/api/test-bakes", { title: "By keys", document: JSON.stringify(document) });
  await page.goto(`${bakery.url}/#/test/${made.id}`);
  await settled(page);
  await tab_to(page, "Read");
  await page.keyboard.press("Enter");
  await page.getByRole("list", { name: "The jars" }).waitFor();
  await tab_to(page, "Hours since mixing");
  await page.keyboard.type("2");
  await tab_to(page, /place 1\)/);
  await page.keyboard.type("62");
  await page.keyboard.press("Enter");
  await bakery.until(`/api/test-bakes/${made.id}`, (record) => JSON.parse(record.document).looks.length === 1);
  await visitor.leave();
});
