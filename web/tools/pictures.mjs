// node tools/pictures.mjs FOLDER: every screen of the page as it stands of the invented bakery, on a phone and at a desk.
import { join } from "node:path";
import { Bakery, desk, phone, settled } from "../tests/browser/house.mjs";

const folder = process.argv[2];

/** The screens by the names of their pictures: an address, and what is pressed before. */
async function screens(bakery) {
  const { doughs } = await bakery.ask("GET", "/api/today");
  const mead = doughs.find((d) => /mead/i.test(d.title)).bake;
  const late = (doughs.find((d) => d.late) ?? doughs[0]).bake;
  const { cultures } = await bakery.ask("GET", "/api/cultures");
  const { bakes } = await bakery.ask("GET", "/api/bakes?state=finished");
  const test = (await bakery.ask("GET", "/api/test-bakes"))["test-bakes"][0].id;
  const part = (name) => (page) => page.getByRole("group", { name: "Parts of this test bake" }).getByRole("button", { name, exact: true }).click();
  return {
    today: [""],
    day: ["#/day", planned],
    bakes: ["#/bakes"],
    new_bake: ["#/new"],
    first: ["#/first", first_bake],
    recipe: [`#/bake/${mead}`],
    bench: [`#/bake/${mead}/bench`],
    read: [`#/bake/${mead}/read`],
    drink: [`#/bake/${mead}/drink`, (page) => page.locator(".map canvas").waitFor().then(() => page.getByRole("slider").first().waitFor())],
    rescue: [`#/bake/${late}/rescue`, (page) => page.locator("ol.ways").waitFor()],
    loaf: [`#/bake/${bakes[0].id}/loaf`],
    sell: [`#/bake/${mead}/sell`],
    tests: ["#/tests"],
    test: [`#/test/${test}`, part("Question")],
    jars: [`#/test/${test}`, part("Read")],
    verdict: [`#/test/${test}`, verdict],
    compare: [`#/compare?a=${mead}&b=${bakes[0].id}`],
    cultures: ["#/cultures"],
    culture: [`#/culture/${cultures[0].id}`],
    larder: ["#/larder"],
    trash: ["#/trash"],
    house: ["#/settings"],
    guide: ["#/guide"],
  };
}

async function first_bake(page) {
  await page.getByRole("textbox", { name: "Flour (g)", exact: true }).fill("500");
  await page.getByRole("textbox", { name: "Liquid, all of it (g)", exact: true }).fill("350");
  await page.getByRole("combobox", { name: "The drink in it" }).selectOption("dry mead");
  await page.getByTestId("ready").waitFor();
}

async function planned(page) {
  await page.getByRole("button", { name: "Plan it" }).click();
  await page.getByRole("heading", { name: "Who and what is taken" }).waitFor({ timeout: 60_000 });
}

async function verdict(page) {
  await page.getByRole("button", { name: "Verdict", exact: true }).click();
  await page.getByRole("button", { name: "What do the jars say?" }).click();
  await page.locator(".verdict").waitFor();
}

const bakery = await Bakery.open({ demo: true });
try {
  for (const [name, [hash, before]] of Object.entries(await screens(bakery))) {
    for (const [at, size] of [["phone", phone], ["desk", desk]]) {
      const visitor = await bakery.visit({ size });
      const page = await visitor.page(hash);
      await settled(page);
      await before?.(page);
      await settled(page);
      await page.evaluate(() => document.activeElement?.blur());
      await page.screenshot({ path: join(folder, `${name}-${at}.png`) });
      await visitor.leave();
    }
  }
} finally {
  await bakery.close();
}
