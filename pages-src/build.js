// Builds the page assets into src/woodreeve/web/static/. Same sources and same lock give the same bytes; names carry no digest.
import { createHash } from "node:crypto";
import { copyFileSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const top = dirname(here);
const out = join(top, "src/woodreeve/web/static");
const licences = join(top, "LICENSES/vendored");
const axe = join(top, "tests/web/vendor");
const TARGET = ["chrome100", "firefox100", "safari15.4"];

const inModules = (name, file) => join(here, "node_modules", name, file);
const about = (name) => JSON.parse(readFileSync(inModules(name, "package.json"), "utf8"));
const sha256 = (file) => createHash("sha256").update(readFileSync(file)).digest("hex");
const flat = (name) => name.replace("@", "").replace(/[/.]/g, "-");

const WORKBOX = ["workbox-core", "workbox-precaching", "workbox-routing", "workbox-strategies"];
const LICENCE_FILE = { "@picocss/pico": "LICENSE.md" };
// Output file -> the packages whose text is inside it. Everything else in the folder is our own.
const INSIDE = {
  "htmx.js": ["htmx.org"],
  "woodreeve.css": ["@picocss/pico"],
  "series.js": ["uplot"],
  "series.css": ["uplot"],
  "diary-queue.js": ["idb"],
  "worker.js": WORKBOX,
};

// Pico carries its small pictures as data: addresses, which the page's policy forbids; each becomes a file beside the style sheet.
function picoWithoutData() {
  const names = new Map();
  const css = readFileSync(inModules("@picocss/pico", "css/pico.css"), "utf8").replace(
    /(--pico-icon-([a-z]+):\s*)url\("data:image\/svg\+xml,([^"]*)"\)/g,
    (_whole, start, name, body) => {
      const picture = decodeURIComponent(body);
      if (!names.has(picture)) {
        const taken = [...names.values()].filter((one) => one.startsWith(`pico-${name}`)).length;
        names.set(picture, `pico-${name}${taken ? `-${taken + 1}` : ""}.svg`);
      }
      return `${start}url("${names.get(picture)}")`;
    },
  );
  if (css.includes("data:")) throw new Error("Pico holds a data: address in a place this build does not know.");
  for (const [picture, name] of names) {
    writeFileSync(join(out, name), `${picture}\n`);
    INSIDE[name] = ["@picocss/pico"];
  }
  mkdirSync(join(here, "build"), { recursive: true });
  writeFileSync(join(here, "build/pico.css"), css);
}

function credit(file) {
  const parts = (INSIDE[file] ?? []).map((name) => `${name} ${about(name).version} (${about(name).license})`);
  return parts.length ? `/* Contains ${parts.join(", ")}; licence texts in licences.txt. */` : "";
}

async function bundle(entry, file, extra = {}) {
  const kind = file.endsWith(".css") ? "css" : "js";
  await build({
    absWorkingDir: here,
    entryPoints: [entry],
    outfile: join(out, file),
    bundle: true,
    minify: true,
    format: kind === "js" ? "esm" : undefined,
    target: TARGET,
    charset: "utf8",
    legalComments: "none",
    external: ["*.svg"],
    define: { "process.env.NODE_ENV": '"production"' },
    footer: credit(file) ? { [kind]: credit(file) } : {},
    logLevel: "warning",
    ...extra,
  });
}

function writeLicences() {
  mkdirSync(licences, { recursive: true });
  const shipped = [...new Set(Object.values(INSIDE).flat())].sort();
  const texts = shipped.map((name) => {
    const text = readFileSync(inModules(name, LICENCE_FILE[name] ?? "LICENSE"), "utf8").trimEnd();
    writeFileSync(join(licences, `${flat(name)}.txt`), `${text}\n`);
    return `${name} ${about(name).version} (${about(name).license})\n\n${text}\n`;
  });
  writeFileSync(join(out, "licences.txt"), `Other people's work inside woodreeve's page files.\n\n${texts.join("\n----\n\n")}`);
  for (const [from, to] of [["LICENSE", "axe-core.txt"], ["LICENSE-3RD-PARTY.txt", "axe-core-3rd-party.txt"]]) {
    copyFileSync(inModules("axe-core", from), join(licences, to));
  }
  mkdirSync(axe, { recursive: true });
  copyFileSync(inModules("axe-core", "axe.min.js"), join(axe, "axe.min.js"));
}

const insides = (names) =>
  names.map((name) => ({ package: name, version: about(name).version, licence: about(name).license, licence_text: `LICENSES/vendored/${flat(name)}.txt` }));

// The sources' digests let a test without Node see that the built files are those of the sources beside them.
function sources() {
  const folders = ["css", "js", "js/page", "js/queue", "assets"];
  const names = folders.flatMap((folder) => readdirSync(join(here, folder), { withFileTypes: true }).filter((one) => one.isFile()).map((one) => `${folder}/${one.name}`));
  return Object.fromEntries(["build.js", "package.json", "package-lock.json", ...names].sort().map((name) => [name, sha256(join(here, name))]));
}

function writeVersions() {
  const names = readdirSync(out).filter((name) => name !== "versions.json").sort();
  const files = Object.fromEntries(names.map((name) => [name, { sha256: sha256(join(out, name)), contains: insides(INSIDE[name] ?? []) }]));
  const tests_only = { "tests/web/vendor/axe.min.js": { sha256: sha256(join(axe, "axe.min.js")), contains: insides(["axe-core"]) } };
  writeFileSync(join(out, "versions.json"), `${JSON.stringify({ files, tests_only, sources: sources() }, null, 2)}\n`);
}

rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
picoWithoutData();
for (const name of readdirSync(join(here, "assets"))) if (name !== "icon-maskable.svg") copyFileSync(join(here, "assets", name), join(out, name));
copyFileSync(inModules("htmx.org", "dist/htmx.min.js"), join(out, "htmx.js"));
await bundle("css/woodreeve.css", "woodreeve.css");
await bundle("node_modules/uplot/dist/uPlot.min.css", "series.css");
await bundle("js/theme.js", "theme.js", { format: "iife" });
await bundle("js/page.js", "page.js");
await bundle("js/diary-queue.js", "diary-queue.js");
await bundle("js/series.js", "series.js");
writeLicences();
const kept = readdirSync(out).filter((name) => name !== "licences.txt").sort();
const digests = kept.map((name) => [`/static/${name}`, sha256(join(out, name)).slice(0, 12)]);
await bundle("js/worker.js", "worker.js", {
  format: "iife",
  define: { "process.env.NODE_ENV": '"production"', __STATIC_FILES__: JSON.stringify(digests) },
});
writeVersions();
