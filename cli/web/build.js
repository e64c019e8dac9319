// Bundles report.js with what it needs into one script, opened by the licences of all that is in it.
import { build } from "esbuild";
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

const output = "report.min.js";
const result = await build({
  entryPoints: ["report.js"],
  bundle: true,
  minify: true,
  format: "iife",
  target: "es2020",
  charset: "ascii",
  legalComments: "none",
  metafile: true,
  write: false,
});

function packageOf(file) {
  let folder = dirname(file);
  while (!existsSync(join(folder, "package.json"))) folder = dirname(folder);
  return folder;
}

function licenceOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const file = readdirSync(folder).find((each) => /^licen[cs]e/i.test(each));
  const text = file ? readFileSync(join(folder, file), "utf8").trim() : `Licence: ${license}`;
  return { name: `${name} ${version}`, text };
}

// Many packages share one text: it is written once, below the names of all of them.
const namesOf = new Map();
const folders = new Set(Object.keys(result.metafile.inputs)
  .filter((file) => file.includes("node_modules/")).map(packageOf));
for (const { name, text } of [...folders].sort().map(licenceOf)) {
  namesOf.set(text, [...(namesOf.get(text) ?? []), name]);
}
const notices = [...namesOf].map(([text, names]) => `${names.join(", ")}\n\n${text}`).join("\n\n---\n\n");

writeFileSync(output, `/*\n${notices.replaceAll("*/", "* /")}\n*/\n${result.outputFiles[0].text}`);
