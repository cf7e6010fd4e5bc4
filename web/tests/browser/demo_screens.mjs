// The screens of the invented bakery by the names of their pictures: an address, and what is pressed before there is an answer. A screen
// that a link of the bar or the rail leads to, and on which nothing has to be pressed, is here by its name.json alone.
import { readFileSync, readdirSync } from "node:fs";

const folder_of_screens = new URL("../../src/screens/", import.meta.url);

function plain_screens(others) {
  const taken = Object.values(others).map(([address]) => address.split("?")[0]);
  const all = readdirSync(folder_of_screens).flatMap((folder) => JSON.parse(readFileSync(new URL(`${folder}/name.json`, folder_of_screens), "utf8")));
  const linked = all.filter(({ pattern, found }) => pattern !== "" && (found === "bar" || found === "rail") && !taken.includes(`#/${pattern}`));
  return Object.fromEntries(linked.map(({ pattern }) => [pattern, [`#/${pattern}`]]));
}

export async function demo_screens(bakery) {
  const { doughs } = await bakery.ask("GET", "/api/today");
  const mead = doughs.find((d) => /mead/i.test(d.title)).bake;
  const late = (doughs.find((d) => d.late) ?? doughs[0]).bake;
  const { cultures } = await bakery.ask("GET", "/api/cultures");
  const { bakes } = await bakery.ask("GET", "/api/bakes?state=finished");
  const test = (await bakery.ask("GET", "/api/test-bakes"))["test-bakes"][0].id;
  const part = (of, name) => (page) => page.getByRole("group", { name: of }).getByRole("button", { name, exact: true }).click();
  const of_test = (name) => part("Parts of this test bake", name);
  const others = {
    today: [""],
    day: ["#/day", planned],
    new_bake: ["#/new"],
    first: ["#/first", first_bake],
    recipe: [`#/bake/${mead}`],
    bench: [`#/bake/${mead}/bench`, (page) => page.getByTestId("ready-said").waitFor()],
    read: [`#/bake/${mead}/read`],
    drink: [`#/bake/${mead}/drink`, (page) => page.locator(".map canvas").waitFor().then(() => page.getByRole("slider").first().waitFor())],
    rescue: [`#/bake/${late}/rescue`, (page) => page.locator("ol.ways").waitFor()],
    loaf: [`#/bake/${bakes[0].id}/loaf`],
    sell: [`#/bake/${mead}/sell`],
    label: [`#/bake/${mead}/sell`, part("What to look at", "Label")],
    prices: [`#/bake/${mead}/sell`, part("What to look at", "Prices")],
    show: [`#/bake/${mead}/show`, (page) => page.getByRole("img", { name: /wide: .*Ready / }).waitFor()],
    test: [`#/test/${test}`, of_test("Question")],
    jars: [`#/test/${test}`, of_test("Read")],
    verdict: [`#/test/${test}`, verdict],
    compare: [`#/compare?a=${mead}&b=${bakes[0].id}`],
    culture: [`#/culture/${cultures[0].id}`],
    house: ["#/settings"],
  };
  return { ...others, ...plain_screens(others) };
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
