// Runs every *.test.mjs beside it: `node tests/browser/run.mjs [part of a test's name]`.
import { readdirSync } from "node:fs";
import { runAll } from "./harness.mjs";

const here = new URL("./", import.meta.url);
for (const file of readdirSync(here).filter((name) => name.endsWith(".test.mjs")).sort()) {
  await import(new URL(file, here));
}
process.exitCode = (await runAll(process.argv[2] ?? "")) ? 0 : 1;
