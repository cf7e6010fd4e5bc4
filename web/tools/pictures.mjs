// node tools/pictures.mjs FOLDER: every screen of the page as it stands of the invented bakery, on a phone and at a desk.
import { join } from "node:path";
import { demo_screens } from "../tests/browser/demo_screens.mjs";
import { Bakery, desk, phone, settled } from "../tests/browser/house.mjs";

const folder = process.argv[2];

const bakery = await Bakery.open({ demo: true });
try {
  for (const [name, [hash, before]] of Object.entries(await demo_screens(bakery))) {
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
