// node tools/pictures.mjs FOLDER: what the page shows of the invented bakery, on a phone and at a desk.
import { join } from "node:path";
import { Bakery, desk, phone, settled } from "../tests/browser/house.mjs";

const folder = process.argv[2];
const bakery = await Bakery.open({ demo: true });
try {
  const { doughs } = await bakery.ask("GET", "/api/today");
  const mead = doughs.find((d) => /mead/i.test(d.title ?? d.name)) ?? doughs[0];
  for (const [name, size, hash] of [
    ["phone-reading", phone, `#/bake/${mead.bake}/read`],
    ["desk-today", desk, ""],
  ]) {
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(hash);
    await settled(page);
    await page.screenshot({ path: join(folder, `${name}.png`) });
    await visitor.leave();
  }
} finally {
  await bakery.close();
}
