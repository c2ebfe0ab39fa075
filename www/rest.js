// Brings the second module of the page, which holds every view and every check: at once where an address asks for a view that the first one
// does not hold, else quietly behind the day.
"use strict";

addEventListener("TrunkApplicationStarted", () => {
  const first = window.wasmBindings;
  // The file keeps its name from build to build: the build's id keeps an older copy of the browser's from being taken.
  const build = document.querySelector('meta[name="build"]').content;
  let bringing = null;
  let over = false;
  let tries = 0;
  let pressed = false;

  // The views' styles take the place that is kept for them among the others.
  const dress = async () => {
    const place = document.querySelector('meta[name="later-styles"]');
    if (place === null) return;
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = `${place.content}?${build}-${tries}`;
    const loaded = new Promise((done, failed) => {
      link.addEventListener("load", done);
      link.addEventListener("error", () => failed(new Error(`${place.content} was not loaded`)));
    });
    place.before(link);
    await loaded.catch((error) => {
      link.remove();
      throw error;
    });
    place.remove();
  };

  const load = async () => {
    // A browser remembers an address that could not be imported: each try has its own.
    tries += 1;
    const [desk] = await Promise.all([import(`./setday-desk.js?${build}-${tries}`), dress()]);
    await desk.default({ module_or_path: `./setday-desk_bg.wasm?${build}` });
    return desk;
  };

  // One try at a time, whoever asks; one that failed is not the last.
  const bring = () => {
    bringing ??= load().catch((error) => {
      bringing = null;
      throw error;
    });
    return bringing;
  };

  const pause = (ms) => new Promise((done) => setTimeout(done, ms));

  const end = (desk, quietly) => {
    over = true;
    removeEventListener("hashchange", look);
    removeEventListener("online", settle);
    desk.take_over(first.hand_over(), quietly);
    performance.mark("whole");
  };

  // At most five seconds: a store that hangs must not keep a view closed. What it has not answered goes along.
  const atRest = async () => {
    for (let i = 0; i < 1000 && !first.can_hand_over(); i += 1) await pause(5);
  };

  // An address asks.
  const look = async () => {
    if (first.shows(location.hash)) return;
    try {
      const desk = await bring();
      await atRest();
      if (!over) end(desk, false);
    } catch (error) {
      if (!over) first.rest_is_missing(error.message, false);
    }
  };

  // Somebody types, presses or drags: the page is not exchanged under their hands.
  const isBusy = () => pressed || !first.can_hand_over() || document.activeElement?.matches("input, select, textarea");

  // Nobody asks: the day becomes whole behind its first picture, from the copy on this device where there is one.
  const settle = async () => {
    try {
      await atRest();
      await window.whenKept;
      await new Promise((done) => (window.requestIdleCallback ?? setTimeout)(done));
      if (over) return;
      const desk = await bring();
      while (!over && isBusy()) await pause(50);
      if (!over) leavingAllAsItIs(() => end(desk, first.shows(location.hash)));
    } catch (error) {
      if (!over) first.rest_is_missing(error.message, true);
    }
  };

  for (const [kind, held] of [["pointerdown", true], ["pointerup", false], ["pointercancel", false]]) {
    addEventListener(kind, () => { pressed = held; }, { capture: true });
  }
  addEventListener("hashchange", look);
  addEventListener("online", settle);
  look();
  settle();
});

// Makes a change after which the page has the same parts again, and gives what had the focus its focus back, what was open its opening.
function leavingAllAsItIs(change) {
  const parts = () => [...document.querySelectorAll("a[href], button, summary, [tabindex]")];
  const focused = parts().indexOf(document.activeElement);
  const open = [...document.querySelectorAll("details")].map((part) => part.open);
  const [x, y] = [scrollX, scrollY];
  change();
  document.querySelectorAll("details").forEach((part, at) => { part.open = open[at] ?? part.open; });
  if (focused >= 0) parts()[focused]?.focus({ preventScroll: true });
  // The drawing takes its height a frame later.
  const scroll = () => scrollTo(x, y);
  scroll();
  requestAnimationFrame(() => requestAnimationFrame(scroll));
}
