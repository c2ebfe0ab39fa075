// A static host for the tests: one that can be stopped, and started again on its port with other files.
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { extname, join, normalize } from "node:path";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".webmanifest": "application/manifest+json",
  ".wasm": "application/wasm",
  ".svg": "image/svg+xml",
};

/** Serves a folder; `requests` names the files asked for so far. */
export async function serve(folder, port = 0) {
  const requests = [];
  const server = createServer(async (request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url, "http://localhost").pathname));
    const file = path.endsWith("/") ? `${path}index.html` : path;
    requests.push(file);
    try {
      const contents = await readFile(join(folder, file));
      response.writeHead(200, { "Content-Type": TYPES[extname(file)] ?? "application/octet-stream", "Cache-Control": "no-cache" });
      response.end(contents);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((resolve, reject) => server.on("error", reject).listen(port, "127.0.0.1", resolve));
  const taken = server.address().port;
  return {
    address: `http://127.0.0.1:${taken}/`,
    port: taken,
    requests,
    stop: () => new Promise((resolve) => {
      server.close(resolve);
      server.closeAllConnections();
    }),
  };
}
