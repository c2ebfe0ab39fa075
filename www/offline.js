// Keeps the app on this device, so that it opens without a network. `whenKept` is settled when its files are there, or cannot be kept.
"use strict";

window.whenKept = (async () => {
  // A build made while working on the app is not kept: it would hide the next one.
  const build = document.querySelector('meta[name="build"]').content;
  if (!("serviceWorker" in navigator) || build === "development") return;

  // A newer build that takes over is shown at once if nobody has touched the page yet, else at the next load.
  const olderBuild = navigator.serviceWorker.controller;
  let touched = false;
  for (const kind of ["pointerdown", "keydown"]) addEventListener(kind, () => { touched = true; }, { once: true, capture: true });
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (olderBuild && !touched) location.reload();
  });

  try {
    const registration = await navigator.serviceWorker.register("./sw.js");
    const installing = registration?.installing;
    if (!installing) return;
    await new Promise((done) => installing.addEventListener("statechange", () => {
      if (["activated", "redundant"].includes(installing.state)) done();
    }));
  } catch (error) {
    console.warn(`Setday is not kept for use without a network: ${error.message}`);
  }
})();
