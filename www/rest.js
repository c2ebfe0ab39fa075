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

  // Each later style takes the place that is kept for it among the others.
  const dress = (place) => new Promise((done, failed) => {
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = `${place.content}?${build}-${tries}`;
    link.addEventListener("load", () => {
      place.remove();
      done();
    });
    link.addEventListener("error", () => {
      link.remove();
      failed(new Error(`${place.content} was not loaded`));
    });
    place.before(link);
  });

  const load = async () => {
    // A browser remembers an address that could not be imported: each try has its own.
    tries += 1;
    const styles = [...document.querySelectorAll('meta[name="later-styles"]')];
    const [desk] = await Promise.all([import(`./setday-desk.js?${build}-${tries}`), ...styles.map(dress)]);
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

  // The first module shows the page as soon as the store on this device has answered.
  const shown = async () => {
    while (!first.is_shown()) await pause(5);
  };

  // Nothing can be typed in the first module, so nothing is lost with it.
  const takeOver = async (desk, steps) => {
    over = true;
    removeEventListener("hashchange", look);
    removeEventListener("online", settle);
    for (const kind of ["dragover", "drop"]) removeEventListener(kind, keepOut);
    let restore = () => {};
    await desk.take_over(first.accepted(), steps, () => {
      if (!steps) restore = asItIs();
      first.end();
    });
    restore();
    performance.mark("whole");
  };

  // An address asks.
  const look = async () => {
    if (first.shows(location.hash)) return;
    try {
      const desk = await bring();
      await shown();
      if (!over) await takeOver(desk, true);
    } catch (error) {
      first.rest_is_missing(error.message);
    }
  };

  // Nobody asks: the day becomes whole behind its first picture, from the copy on this device where there is one.
  const settle = async () => {
    try {
      await shown();
      await window.whenKept;
      await new Promise((done) => (window.requestIdleCallback ?? setTimeout)(done));
      if (over) return;
      const desk = await bring();
      while (!over && pressed) await pause(50);
      if (!over) await takeOver(desk, !first.shows(location.hash));
    } catch (error) {
      first.rest_is_missing(error.message);
    }
  };

  // A file dropped this early would take the place of the page.
  const keepOut = (event) => event.preventDefault();
  for (const kind of ["dragover", "drop"]) addEventListener(kind, keepOut);
  for (const [kind, held] of [["pointerdown", true], ["pointerup", false], ["pointercancel", false]]) {
    addEventListener(kind, () => { pressed = held; }, { capture: true });
  }
  addEventListener("hashchange", look);
  addEventListener("online", settle);
  look();
  settle();
});

// Notes where the page is scrolled to, what has the focus and what is open; what it gives brings that back on a page with the same parts.
function asItIs() {
  const parts = () => [...document.querySelectorAll("a[href], button, summary, [tabindex]")];
  const [focus, open, x, y] = [document.activeElement, [...document.querySelectorAll("details")].map((part) => part.open), scrollX, scrollY];
  const same = (part) => part.tagName === focus.tagName && part.textContent === focus.textContent;
  return () => {
    document.querySelectorAll("details").forEach((part, at) => { part.open = open[at] ?? part.open; });
    if (focus !== document.body) parts().find(same)?.focus({ preventScroll: true });
    // the drawing takes its height a frame later
    const scroll = () => scrollTo(x, y);
    scroll();
    requestAnimationFrame(() => requestAnimationFrame(scroll));
  };
}
