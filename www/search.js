// The search for a place of the crane, beside the page: the same program in a worker, so that the page stays at hand.
// A message { build, plan, step_m } begins a search; the worker is ended by whoever began it. Every answer names the build it comes from.
"use strict";

const BUILD = "/*BUILD*/";
const SLICE_MS = 40;

const pause = () => new Promise((done) => setTimeout(done));

const tell = (what, passed = []) => postMessage({ build: BUILD, ...what }, passed);

addEventListener("message", async ({ data }) => {
  try {
    const desk = await import(`./setday-desk.js?${data.build}`);
    await desk.default({ module_or_path: `./setday-desk_bg.wasm?${data.build}` });
    const search = new desk.PlaceSearch(data.plan, data.step_m);
    const began = performance.now();
    let places = 64;
    let told = 0;
    for (let goes = true; goes;) {
      const from = performance.now();
      goes = search.go_on(places);
      const took = performance.now() - from;
      // as many places in a slice as it takes
      places = Math.max(8, Math.min(20000, Math.round(places * (took > SLICE_MS ? 0.5 : took < SLICE_MS / 2 ? 2 : 1))));
      if (!goes || from - told > 250) {
        told = from;
        const codes = search.codes();
        tell({ found: search.found(), codes, ms: performance.now() - began, ends: !goes }, codes.map((each) => each.buffer));
      }
      await pause();
    }
  } catch (error) {
    tell({ trouble: error.message ?? String(error) });
  }
});
