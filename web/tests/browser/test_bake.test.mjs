// From question to verdict, and what others may see of it.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { Bakery, keeps_the_rules, settled, sizes } from "./house.mjs";

const days = ["2026-11-21", "2026-11-28"];
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
    days,
    jars: 1,
    jar_mm: 60,
    amount_g: 400,
    within_h: 14,
    seed: 7,
    remark: "the jar by the window leaks",
    looks: days.flatMap((day) =>
      Object.entries(heights).flatMap(([dough, of_it]) => [60, ...of_it].map((height_mm, i) => ({ day, dough, repeat: 1, hours: i === 0 ? 0 : hours[i - 1], height_mm }))),
    ),
  };
  ({ id } = await bakery.ask("POST", "/api/test-bakes", { title: "Is it the alcohol?", question: "Alcohol or acid?", state: "live", document: JSON.stringify(document) }));
});
after(() => bakery?.close());

const part = (page, name) => page.getByRole("button", { name, exact: true }).click();

/** Each dough has its name in the picture and a line like no other's, each day a sign of its own, and no name lies on another. */
async function lines_are_told_apart(page) {
  const names = page.locator(".curves text").filter({ hasText: /[a-z]{3}/i });
  assert.deepEqual((await names.allTextContents()).sort(), [...Object.keys(heights), "Sat 21 Nov 2026", "Sat 28 Nov 2026"].sort());
  const boxes = await names.evaluateAll((all) => all.map((one) => one.getBoundingClientRect()).map(({ left, right, top, bottom }) => ({ left, right, top, bottom })));
  for (const [i, a] of boxes.entries())
    for (const b of boxes.slice(i + 1)) assert.ok(a.bottom <= b.top + 3 || b.bottom <= a.top + 3 || a.right <= b.left || b.right <= a.left, JSON.stringify([a, b]));
  const keys = await page.locator(".curves .key line").evaluateAll((all) => all.map((one) => `${getComputedStyle(one).stroke} ${getComputedStyle(one).strokeDasharray}`));
  assert.equal(new Set(keys).size, Object.keys(heights).length, keys.join("; "));
  const runs = await page.locator(".curves .run:has(polyline)").evaluateAll((all) =>
    all.map((run) => `${getComputedStyle(run.querySelector("polyline")).stroke} ${run.querySelector("polyline").getAttribute("stroke-dasharray")} ${run.querySelector(".open") !== null}`),
  );
  assert.equal(runs.length, 2 * keys.length);
  assert.equal(new Set(runs).size, runs.length, "a jar is told by its line and its sign");
}

test("what the doughs cannot tell is said before flour is wasted, and the plan can be weighed from", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/test/${id}`);
  await settled(page);
  await part(page, "Question");
  await page.getByRole("button", { name: /can these doughs tell/i }).click();
  await page.getByText(/sulphite/i).first().waitFor();
  await keeps_the_rules(page, "question");
  await part(page, "Plan");
  await page.getByText("neutral spirit").first().waitFor();
  await keeps_the_rules(page, "plan");
  await visitor.leave();
});

test("the verdict is one sentence, with the cause that acts weighed above the one that does not", async () => {
  for (const [, size] of sizes) {
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
    assert.doesNotMatch(await page.locator("main").innerText(), /[mu]mol/, "no baker weighs in mmol");
    await lines_are_told_apart(page);
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
  for (const shape of ["upright", "square", "wide"]) assert.ok(pictures.includes(`How the doughs rose, ${shape}, PNG`), pictures.join("; "));
  // Each is shown before it is fetched, on paper to its very corner.
  const preview = page.getByRole("img", { name: "Preview of How the doughs rose, square, PNG" });
  assert.deepEqual(await preview.evaluate((img) => [img.naturalWidth, img.naturalHeight]), [1080, 1080]);
  const corner = await preview.evaluate((img) => {
    const canvas = Object.assign(document.createElement("canvas"), { width: 1080, height: 1080 });
    const pen = canvas.getContext("2d");
    pen.drawImage(img, 0, 0);
    return [...pen.getImageData(2, 2, 1, 1).data];
  });
  assert.equal(corner[3], 255, "not transparent");
  assert.doesNotMatch(html, /100 in 100/);

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
  await page.getByRole("button", { name: "What to bake next?" }).click();
  const stop = page.getByRole("button", { name: "Stop" });
  const listed = page.getByText(/^settles /).first();
  await stop.or(listed).waitFor();
  if (await stop.isVisible()) await stop.click();
  await page.getByRole("button", { name: "What to bake next?" }).waitFor();
  await visitor.leave();
});

test("causes are ticked, their doughs can be weighed, and the verdict is about them alone", async () => {
  const bake = await bakery.bake("mead-loaf");
  const document = { base_id: bake.id, doughs: [{ name: "as it is", make: [] }, { name: "plain water", make: ["plain"] }], days: ["2026-11-28"], jars: 1, jar_mm: 60, amount_g: 400, within_h: 14, seed: 7, remark: "", looks: [] };
  const made = await bakery.ask("POST", "/api/test-bakes", { title: "Sulphite?", question: "Is it the sulphite?", document: JSON.stringify(document) });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/test/${made.id}`);
  await settled(page);
  for (const cause of ["sulphite", "alcohol"]) await page.getByRole("checkbox", { name: cause, exact: true }).check();
  for (const dough of ["sulphite alone", "alcohol alone"]) await page.locator("summary", { hasText: dough }).waitFor();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await bakery.until(`/api/test-bakes/${made.id}`, ({ document }) => JSON.parse(document).causes?.length === 2);
  await part(page, "Plan");
  await page.getByRole("region", { name: "sulphite alone" }).getByText(/metabisulphite/).first().waitFor();

  // Jars that all rise alike but the one with the alcohol.
  const kept = await bakery.ask("GET", `/api/test-bakes/${made.id}`);
  const now = JSON.parse(kept.document);
  const like = { "as it is": "mead", "plain water": "plain water", "sulphite alone": "plain water", "alcohol alone": "alcohol alone" };
  const looks = now.doughs.flatMap(({ name }) => [60, ...heights[like[name]]].map((height_mm, i) => ({ day: "2026-11-28", dough: name, repeat: 1, hours: i === 0 ? 0 : hours[i - 1], height_mm })));
  await bakery.ask("PUT", `/api/test-bakes/${made.id}`, { revision: kept.revision, document: JSON.stringify({ ...now, looks }) });
  await part(page, "Verdict");
  await page.getByRole("button", { name: "What do the jars say?" }).click();
  await page.locator(".verdict").waitFor();
  const said = await page.getByRole("article").getByRole("heading").allInnerTexts();
  assert.deepEqual(said.map((words) => words.split(/\s/)[0]).sort(), ["alcohol", "something", "sulphite"], "and something else in the drink, which cannot be ruled out");
  await visitor.leave();
});

test("jars are read by their labels alone, and the plan is printed without the key", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/test/${id}`);
  await settled(page);
  await part(page, "Read");
  await page.getByRole("list", { name: "The jars" }).getByRole("textbox").first().waitFor();
  await keeps_the_rules(page, "jars to read");
  const shown = await page.locator("main").innerText();
  for (const dough of ["plain water", "alcohol alone", "acid alone"]) assert.ok(!shown.includes(dough), `${dough} is named`);
  await part(page, "Plan");
  await page.getByRole("heading", { name: "Where each jar stands" }).waitFor();
  await page.getByText("Which label is which").click();
  await page.getByRole("region", { name: "Which label is which" }).waitFor();
  await page.emulateMedia({ media: "print" });
  assert.ok(!(await page.getByRole("region", { name: "Which label is which" }).isVisible()));
  assert.ok(await page.getByRole("region", { name: "Places of the jars" }).isVisible());
  assert.equal(await page.getByRole("region", { name: "Places of the jars" }).getByRole("columnheader", { name: "dough" }).count(), 0);
  await visitor.leave();
});
