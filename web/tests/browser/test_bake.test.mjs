// From question to verdict, and what others may see of it.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { Bakery, desk, keeps_the_rules, phone, settled } from "./house.mjs";

const hours = [2, 4, 6, 8, 11, 14, 18];
// Invented: the dough with the mead lies hours behind, its alcohol alone behaves like it, its acid alone like water.
const heights = {
  mead: [60, 62, 70, 88, 118, 140, 152],
  "plain water": [64, 88, 122, 146, 160, 158, 150],
  "alcohol alone": [60, 62, 71, 89, 117, 141, 153],
  "acid alone": [63, 86, 120, 145, 161, 159, 151],
};

let bakery;
let id;
before(async () => {
  bakery = await Bakery.open();
  const bake = await bakery.bake("mead-loaf");
  const document = {
    base_id: bake.id,
    doughs: [
      { name: "mead", make: [] },
      { name: "plain water", make: ["plain"] },
      { name: "alcohol alone", make: ["plain", "match alcohol with neutral spirit"] },
      { name: "acid alone", make: ["plain", "match acid with citric acid"] },
    ],
    days: ["2026-11-28"],
    jars: 1,
    jar_mm: 60,
    amount_g: 400,
    within_h: 14,
    seed: 7,
    remark: "the jar by the window leaks",
    looks: Object.entries(heights).flatMap(([dough, of_it]) =>
      [60, ...of_it].map((height_mm, i) => ({ day: "2026-11-28", dough, repeat: 1, hours: i === 0 ? 0 : hours[i - 1], height_mm })),
    ),
  };
  ({ id } = await bakery.ask("POST", "/api/test-bakes", { title: "Is it the alcohol?", question: "Alcohol or acid?", state: "live", document: JSON.stringify(document) }));
});
after(() => bakery?.close());

const part = (page, name) => page.getByRole("button", { name, exact: true }).click();

test("what the doughs cannot tell is said before flour is wasted, and the plan can be weighed from", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/test/${id}`);
  await settled(page);
  await part(page, "Before");
  await page.getByRole("button", { name: /can these doughs tell/i }).click();
  await page.getByText(/sulphite/i).first().waitFor();
  await keeps_the_rules(page, "before");
  await part(page, "Plan");
  await page.getByText("neutral spirit").first().waitFor();
  await keeps_the_rules(page, "plan");
  await visitor.leave();
});

test("the verdict is one sentence, with the cause that acts weighed above the one that does not", async () => {
  for (const size of [phone, desk]) {
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/test/${id}`);
    await settled(page);
    await page.getByRole("button", { name: "What do the jars say?" }).click();
    const sentence = page.locator(".verdict");
    await sentence.waitFor();
    assert.match(await sentence.innerText(), /alcohol/i);
    const weight = async (cause) => {
      const article = page.getByRole("article").filter({ has: page.getByRole("heading", { name: new RegExp(`^${cause}`) }) });
      return parseFloat(await article.locator(".weigh i").evaluate((bar) => bar.style.width));
    };
    assert.ok((await weight("alcohol")) > (await weight("acid")));
    await keeps_the_rules(page, `verdict at ${size.width}`);
    await visitor.leave();
  }
});

test("the page to show stands alone, and leaves out the remark unless asked", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/test/${id}`);
  await settled(page);
  await part(page, "Show");
  const made = async () => {
    await page.getByRole("button", { name: "Make the page and the pictures" }).click();
    const link = page.getByRole("link", { name: "The page", exact: true });
    await link.waitFor();
    const [download] = await Promise.all([page.waitForEvent("download"), link.click()]);
    assert.equal(download.suggestedFilename(), "page.html");
    return readFileSync(await download.path(), "utf8");
  };
  const html = await made();
  assert.match(html, /<h1>Is it the alcohol\?<\/h1>/);
  assert.doesNotMatch(html, /<script(?! type="application\/ld\+json")|src="http|the jar by the window/);
  await keeps_the_rules(page, "show");
  const pictures = await page.getByRole("link", { name: /PNG|SVG/ }).allInnerTexts();
  assert.ok(pictures.includes("How the doughs rose, upright, PNG"), pictures.join("; "));

  await page.getByLabel("Show the remark").check();
  const link = page.getByRole("link", { name: "The page", exact: true });
  const before = await link.getAttribute("href");
  await page.getByRole("button", { name: "Make the page and the pictures" }).click();
  await page.waitForFunction((old) => document.querySelector("a[download='page.html']")?.getAttribute("href") !== old, before);
  const [download] = await Promise.all([page.waitForEvent("download"), link.click()]);
  assert.match(readFileSync(await download.path(), "utf8"), /the jar by the window leaks/);
  await visitor.leave();
});

test("work that takes long can be stopped, and nothing is left running", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/test/${id}`);
  await settled(page);
  await part(page, "Next");
  await page.getByRole("button", { name: "What to bake next?" }).click();
  const stop = page.getByRole("button", { name: "Stop" });
  const listed = page.getByText(/^settles /).first();
  await stop.or(listed).waitFor();
  if (await stop.isVisible()) await stop.click();
  await page.getByRole("button", { name: "What to bake next?" }).waitFor();
  await visitor.leave();
});
