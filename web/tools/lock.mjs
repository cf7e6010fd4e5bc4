// Takes funding addresses and other host names out of package-lock.json; what pins a package is its version and hash.
//     npm install …; node tools/lock.mjs
import { readFileSync, writeFileSync } from "node:fs";

const path = new URL("../package-lock.json", import.meta.url);
const lock = JSON.parse(readFileSync(path, "utf8"));
for (const entry of Object.values(lock.packages)) {
  delete entry.funding;
  delete entry.resolved;
}
writeFileSync(path, `${JSON.stringify(lock, null, 2)}\n`);
