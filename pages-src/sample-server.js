// Serves sample.html and the built files under the product's own policy, with a make-believe /api/entries, to look at every part.
import { createServer } from "node:http";
import { readFileSync } from "node:fs";
import { dirname, extname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const files = join(here, "../src/woodreeve/web/static");
const TYPES = { ".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml", ".png": "image/png", ".html": "text/html", ".txt": "text/plain", ".json": "application/json", ".webmanifest": "application/manifest+json" };
const POLICY = "default-src 'self'; object-src 'none'; frame-ancestors 'none'";

function rows() {
  const begin = Date.parse("2027-01-14T17:00:00Z");
  let text = "";
  for (let hour = 0; hour <= 30; hour += 1) {
    const moment = new Date(begin + hour * 3_600_000);
    const fire = hour >= 2 && hour < 7;
    const top = hour < 7 ? 52 + (hour / 7) * 26 : 78 - (hour - 7) * 1.38;
    const foot = hour < 7 ? 34 + (hour / 7) * 30 : 64 - (hour - 7) * 1.2;
    const cell = (value) => `<td class="number" data-value="${value.toFixed(1)}">${value.toFixed(1)}</td>`;
    text += `<tr><th scope="row"><time datetime="${moment.toISOString()}">${moment.toISOString().slice(8, 16).replace("T", ". ")}</time></th>${cell(top)}${cell(foot)}${cell(fire ? 25 : 0)}</tr>\n`;
  }
  return text;
}

const seen = new Map();

export function answer(entries) {
  return entries.map((entry) => {
    if (entry.payload.wood_kg === 13) return { id: entry.id, state: "refused", sentence: "13 kg is refused here, to show a refusal." };
    const state = seen.has(entry.id) ? "known" : "kept";
    seen.set(entry.id, entry);
    return { id: entry.id, state, sentence: "" };
  });
}

function handle(request, response) {
  const { pathname } = new URL(request.url, "http://localhost");
  const give = (status, type, body) => {
    response.writeHead(status, { "Content-Type": type, "Content-Security-Policy": POLICY, "Cache-Control": "no-cache" });
    response.end(body);
  };
  if (pathname === "/api/entries" && request.method === "POST") {
    let text = "";
    request.on("data", (part) => (text += part));
    request.on("end", () => give(200, "application/json", JSON.stringify({ results: answer(JSON.parse(text).entries) })));
  } else if (pathname === "/seen") give(200, "application/json", JSON.stringify([...seen.values()]));
  else if (pathname === "/" || pathname === "/tonight") give(200, "text/html; charset=utf-8", readFileSync(join(here, "sample.html"), "utf8").replace("<!--SERIES-->", rows()));
  else if (pathname === "/sample/why") give(200, "text/html; charset=utf-8", '<div class="why-body"><header><h2>Why 42 kg?</h2></header><p>Heat wanted, less heat held.</p></div>');
  else if (pathname === "/worker.js" || pathname.startsWith("/static/")) {
    const name = pathname === "/worker.js" ? "worker.js" : normalize(pathname.slice("/static/".length));
    try {
      give(200, TYPES[extname(name)] ?? "application/octet-stream", readFileSync(join(files, name)));
    } catch {
      give(404, "text/plain", "no such file");
    }
  } else give(404, "text/plain", "no such page");
}

const port = Number(process.argv[2] ?? 8790);
createServer(handle).listen(port, "127.0.0.1", () => console.log(`http://127.0.0.1:${port}/`));
