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
  assert.equal(await focused(page), "To the screen");
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
