// The house around the bakes: today, search, larder, cultures, loaves, two curves, trash, settings.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { Bakery, amount, desk, set_when, settled, sizes, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

// One pixel of a JPEG would not make a thumbnail: this is a picture that the browser draws.
const photo = (page) =>
  page.evaluate(
    () =>
      new Promise((done) => {
        const canvas = document.createElement("canvas");
        canvas.width = 320;
        canvas.height = 240;
        const draw = canvas.getContext("2d");
        draw.fillStyle = "#b8864b";
        draw.fillRect(40, 80, 240, 120);
        canvas.toBlob(async (blob) => done([...new Uint8Array(await blob.arrayBuffer())]), "image/jpeg");
      }),
  );

test("today shows every dough that is alive, with its window and what to do next", async () => {
  const alive = await bakery.bake("mead-loaf", { hours_ago: 2, state: "live" });
  await bakery.bake("perry-loaf", { state: "planned" });
  const visitor = await bakery.visit();
  const page = await visitor.page("");
  await page.getByText("Each dough and levain in words").click();
  const dough = page.getByRole("region", { name: "Doughs" }).getByRole("listitem").filter({ has: page.getByRole("link", { name: alive.title }) }).first();
  await dough.waitFor();
  assert.match(await dough.innerText(), /ready/i);
  await dough.getByRole("link", { name: alive.title }).click();
  await page.getByRole("heading", { level: 1, name: new RegExp(alive.title) }).waitFor();
  await visitor.leave();
});

test("bakes are found by words of their name and recipe", async () => {
  await bakery.bake("cold-coffee-loaf");
  await bakery.bake("stout-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page("#/bakes");
  const named = (words) => page.getByRole("link", { name: words }).first();
  await named(/Stout loaf/).waitFor();
  await page.getByRole("searchbox").fill("coffee");
  await named(/Stout loaf/).waitFor({ state: "detached" });
  await named(/Cold coffee loaf/).waitFor();
  await page.getByRole("searchbox").fill("zzz");
  await page.getByText("No bake has these words in it.").waitFor();
  await visitor.leave();
});

test("an own bottle goes onto the shelf, says what its label says, and into a bowl", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page("#/larder");
  await page.getByText("Add a bottle").click();
  await page.getByRole("textbox", { name: "Name of the bottle" }).fill("Dyke stout");
  await page.getByRole("button", { name: "Put it on the shelf" }).click();
  await page.locator("summary", { hasText: "Dyke stout" }).click();
  const sheet = page.locator(".sheet", { hasText: "Dyke stout" });
  await sheet.getByRole("combobox", { name: "Most like" }).selectOption("stout");
  await sheet.getByRole("textbox", { name: "Strength (% vol)" }).fill("6,5");
  await sheet.getByRole("textbox", { name: "pH", exact: true }).fill("4.2");
  await sheet.getByRole("textbox", { name: "Left in the open one (mL)" }).fill("410");
  await sheet.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("410 mL left").waitFor();
  const { bottles } = await bakery.ask("GET", "/api/bottles");
  assert.deepEqual(bottles.map((b) => [b.title, b.ingredient, b.strength_percent_vol, b.toml, b.left_mL]), [["Dyke stout", "stout", 6.5, "ph = 4.2", 410]]);

  const { id } = await bakery.bake("plain-loaf");
  await page.goto(`${bakery.url}/#/bake/${id}/drink`);
  await page.getByTestId("ready").first().waitFor();
  await page.getByRole("button", { name: "Swap water for a drink" }).click();
  await page.getByRole("dialog").getByRole("button", { name: /^Dyke stout/ }).click();
  await page.getByTestId("working").waitFor();
  await page.getByRole("link", { name: "Recipe", exact: true }).click();
  await page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^Dyke stout/ }).waitFor();
  await visitor.leave();
});

test("the larder says what it knows, with ranges and what they rest on", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page("#/larder");
  await page.getByRole("searchbox").fill("dry mead");
  await page.locator(".larder-list summary", { hasText: "dry mead" }).click();
  await page.getByRole("region", { name: "Known of dry mead" }).waitFor();
  assert.match(await page.locator(".larder-list").innerText(), /strength\s+1\d \(.* to .*\) % vol/);
  await visitor.leave();
});

test("a culture is written down, fed, and asked how much to feed", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page("#/cultures");
  await page.getByText("Add a culture").click();
  await page.getByRole("textbox", { name: "Name" }).fill("Marsh mother");
  await page.getByRole("button", { name: "Write it down" }).click();
  await page.getByRole("heading", { level: 1, name: "Marsh mother" }).waitFor();
  await page.getByRole("button", { name: /Fed just now/ }).click();
  await page.getByText("ago").waitFor();
  await page.getByRole("button", { name: "How much?" }).click();
  await page.getByText("At its peak", { exact: false }).filter({ hasText: "most likely" }).waitFor();
  await visitor.leave();
});

for (const [name, size] of sizes) {
  test(`a finished loaf: weighed, scored by a score of one's own, photographed (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf", { state: "finished" });
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}/loaf`);
    await page.getByRole("button", { name: "A loaf out of the oven" }).click();
    await page.getByRole("textbox", { name: /Into the oven/ }).fill("900");
    await page.getByRole("textbox", { name: /Out of the oven/ }).fill("792");
    await page.getByText("Lost in the oven").waitFor();
    await unfolded(page, "Scores");
    await page.getByRole("textbox", { name: /A score of your own/ }).fill("mead in the nose");
    await page.getByRole("button", { name: "Add it" }).click();
    await page.getByRole("slider", { name: "mead in the nose" }).fill("8");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await bakery.until(`/api/loaves?owner=${id}`, ({ loaves }) => loaves[0]?.baked_g === 792);
    await page.getByLabel("A photo").setInputFiles({ name: "loaf.jpg", mimeType: "image/jpeg", buffer: Buffer.from(await photo(page)) });
    await page.getByText("The photo is in the daybook.").waitFor();
    await page.waitForFunction(() => document.querySelector(".photos img")?.naturalWidth > 0);
    const { loaves } = await bakery.ask("GET", `/api/loaves?owner=${id}`);
    assert.equal(loaves[0].scores["mead in the nose"], 8);
    assert.equal(loaves[0].dough_g, 900);
    await visitor.leave();
  });
}

test("of a dough that was read two bakes are compared by what was read, as everywhere", async () => {
  const a = await bakery.bake("mead-loaf", { hours_ago: 5, state: "live" });
  await bakery.read(a.id, 5, 60);
  await bakery.read(a.id, 1, 63);
  const b = await bakery.bake("plain-loaf");
  const { after } = await bakery.ask("POST", "/api/read", { bake_id: a.id });
  const by_its_file = await bakery.ask("POST", "/api/foresee", { bake_id: a.id });
  assert.ok(Math.abs(after.ready.p50_h - by_its_file.ready.p50_h) > 1);
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page(`#/compare?a=${a.id}&b=${b.id}`);
  const said = await page.locator("tbody tr", { hasText: "most likely" }).locator("td").first().textContent();
  const [, hours, minutes] = /^(\d+) h(?: (\d+))?$/.exec(said);
  assert.ok(Math.abs(Number(hours) + Number(minutes ?? 0) / 60 - after.ready.p50_h) < 0.13, `${said}, ${after.ready.p50_h}`);
  await visitor.leave();
});

test("the curves of two bakes on one picture, and in words", async () => {
  const a = await bakery.bake("mead-loaf");
  const b = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page(`#/compare?a=${a.id}&b=${b.id}`);
  const curve = page.getByRole("img", { name: /Rise of two bakes/ });
  await curve.waitFor();
  await page.waitForFunction(() => document.querySelectorAll(".legend li").length >= 2);
  const words = await curve.getAttribute("aria-label");
  assert.ok(words.includes(a.title) && words.includes(b.title));
  // The canvas is really painted.
  await page.waitForFunction(() => {
    const canvas = document.querySelector(".rise canvas");
    if (!canvas) return false;
    const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
    return data.some((v, i) => i % 4 === 3 && v > 0);
  });
  await visitor.leave();
});

test("a bake goes into the trash and comes back", async () => {
  const { id, title } = await bakery.bake("spirit-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByText("This bake", { exact: true }).click();
  await page.getByRole("button", { name: "Into the trash" }).click();
  await page.getByRole("button", { name: `Take it back: bake ${title}` }).click();
  await page.getByText(`${title} is back.`).waitFor();
  assert.equal((await bakery.ask("GET", `/api/bakes/${id}`)).deleted_at, null);
  await visitor.leave();
});

test("degrees, ounces, the clock and the decimal sign of the house, kept through a reload", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page("#/settings");
  await page.getByRole("combobox", { name: "Warmth" }).selectOption("F");
  await page.getByRole("combobox", { name: "Weight" }).selectOption("oz");
  await page.getByRole("combobox", { name: "Clock" }).selectOption("12");
  await page.getByRole("combobox", { name: "Decimal sign" }).selectOption(",");
  await page.getByRole("combobox", { name: "Light", exact: true }).selectOption("dark");
  await page.goto(`${bakery.url}/#/bake/${id}`);
  await page.reload();
  await page.getByTestId("ready").first().waitFor();
  assert.match(await page.getByTestId("ready").first().innerText(), /^\w{3} \d{1,2}:\d\d (am|pm)$/);
  assert.match(await page.locator(".ready-line").first().innerText(), /75 °F/);
  assert.match(await page.getByTestId("bowl").innerText(), /\d+,\d oz/);
  assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).colorScheme), "dark");

  // Another device of the bakery says them alike, but keeps its own light; what it chooses holds here too.
  const other = await bakery.visit({ size: desk });
  const there = await other.page(`#/bake/${id}`);
  await there.getByText(/75 °F/).first().waitFor();
  assert.match(await there.getByTestId("bowl").innerText(), /\d+,\d oz/);
  assert.equal(await there.evaluate(() => document.documentElement.dataset.theme), undefined);
  await there.goto(`${bakery.url}/#/settings`);
  for (const [label, usual] of [["Warmth", "C"], ["Weight", "g"], ["Clock", "24"], ["Decimal sign", "."]])
    await there.getByRole("combobox", { name: label }).selectOption(usual);
  await page.getByText(/doubled, 24 °C/).first().waitFor();
  await page.waitForFunction(() => /\d g/.test(document.querySelector("[data-testid=bowl]").innerText));
  await other.leave();
  await visitor.leave();
});

test("a first reading can carry temperatures and pH", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 1, state: "live" });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/read`);
  await page.getByText("Another time, warmth, pH").click();
  await page.getByRole("textbox", { name: "Sample in the jar (°C)" }).fill("23,5");
  await page.getByRole("textbox", { name: "pH" }).fill("5.4");
  await set_when(page, "When", new Date());
  await page.getByRole("button", { name: "Note the mark" }).click();
  await page.getByText(/Noted/).waitFor();
  const readings = await bakery.readings(id);
  assert.deepEqual([readings[0].sample_C, readings[0].ph], [23.5, 5.4]);
  await settled(page);
  await visitor.leave();
});

test("a bake is shown in the house's own name: pictures on paper in three shapes, seen before they are fetched, and a page", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 12, state: "finished" });
  for (const [h, mm] of [[12, 40], [8, 44], [5, 60], [3, 84]]) await bakery.read(id, h, mm);
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page("#/settings");
  await page.getByRole("textbox", { name: "Its name" }).fill("Dyke End Bakery");
  await page.getByRole("textbox", { name: "Its name" }).blur();
  await bakery.until("/api/settings", ({ settings }) => settings.some((s) => s.id === "house" && JSON.parse(s.value).name === "Dyke End Bakery"));
  await page.goto(`${bakery.url}/#/bake/${id}/show`);
  const square = page.getByRole("img", { name: /, square: .*Doubled after \d+ h.*, read 4 times\./ });
  await square.waitFor();
  const [width, height, corner, inked] = await square.evaluate((canvas) => {
    const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
    return [canvas.width, canvas.height, data[4 * (canvas.width * 30 + 2) + 3], data.some((v, i) => i % 4 === 0 && v < 60)];
  });
  assert.deepEqual([width, height, corner, inked], [1080, 1080, 255, true]);
  for (const shape of ["wide", "square", "upright"]) {
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: `Save the ${shape} picture` }).click()]);
    assert.match(download.suggestedFilename(), new RegExp(`-${shape}\\.png$`));
  }
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the page" }).click()]);
  const html = readFileSync(await download.path(), "utf8");
  assert.match(html, /Dyke End Bakery/);
  assert.match(html, /<td>dry mead<\/td>/);
  assert.doesNotMatch(html, /<script|src="http/);
  await visitor.leave();
});

test("a bake is baked again, knows which one it comes from, and says what is different", async () => {
  const { title } = await bakery.bake("perry-loaf", { hours_ago: 60, state: "finished" });
  const visitor = await bakery.visit();
  const page = await visitor.page("#/bakes");
  await page.getByRole("button", { name: `Bake again: ${title}` }).first().click();
  await page.getByTestId("ready").first().waitFor();
  await (await amount(page, "salt")).fill("2.3");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByRole("navigation", { name: "Parts of this bake" }).waitFor();
  const parent = page.getByRole("region", { name: `Baked again from ${title}` });
  await parent.getByText(/^salt: 2\.3 %, before /).waitFor();
  assert.ok((await parent.getByRole("link", { name: title }).getAttribute("href")).length > 8);
  const { bakes } = await bakery.ask("GET", "/api/bakes?text=again");
  assert.ok(bakes.some((b) => b.tags.some((tag) => tag.startsWith("again:"))), JSON.stringify(bakes.map((b) => b.tags)));
  await visitor.leave();
});

test("settings changed one upon the other all hold, here and in the daybook", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page("#/settings");
  await settled(page);
  const rounds = [["F", "oz", "12", ",", "month"], ["C", "g", "24", ".", "day"], ["F", "oz", "24", ",", "month"], ["C", "g", "24", ".", "day"]];
  for (const chosen of rounds) {
    await page.evaluate((values) => {
      const labels = ["Warmth", "Weight", "Clock", "Decimal sign", "Dates"];
      for (const [i, value] of values.entries()) {
        const label = [...document.querySelectorAll("label")].find((l) => l.textContent === labels[i]);
        const select = document.getElementById(label.htmlFor);
        select.value = value;
        select.dispatchEvent(new Event("change", { bubbles: true }));
      }
    }, chosen);
    const [warmth, weight, clock, decimal, dates] = chosen;
    const wanted = { warmth, weight, clock, decimal, dates };
    const { value } = await bakery.until("/api/settings/habits", (r) => Object.entries(wanted).every(([key, is]) => JSON.parse(r.value)[key] === is));
    assert.deepEqual(JSON.parse(value), wanted);
    for (const [label, is] of [["Warmth", warmth], ["Weight", weight], ["Clock", clock], ["Decimal sign", decimal], ["Dates", dates]])
      assert.equal(await page.getByRole("combobox", { name: label }).inputValue(), is, label);
  }
  await visitor.leave();
});

test("two devices that change different settings at once both have their way", async () => {
  const [one, other] = [await bakery.visit(), await bakery.visit()];
  const [a, b] = [await one.page("#/settings"), await other.page("#/settings")];
  for (const page of [a, b]) await settled(page);
  for (const value of ["F", "C", "F", "C"]) {
    await Promise.all([
      a.getByRole("combobox", { name: "Warmth" }).selectOption(value),
      b.getByRole("combobox", { name: "Clock" }).selectOption(value === "F" ? "12" : "24"),
    ]);
    await bakery.until("/api/settings/habits", (r) => JSON.parse(r.value).warmth === value && JSON.parse(r.value).clock === (value === "F" ? "12" : "24"));
  }
  await one.leave();
  await other.leave();
});
