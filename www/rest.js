// Loads the second module of the page when an address asks for a view that the first one does not hold.
"use strict";

addEventListener("TrunkApplicationStarted", () => {
  const first = window.wasmBindings;
  // The file keeps its name from build to build: the build's id keeps an older copy of the browser's from being taken.
  const build = document.querySelector('meta[name="build"]').content;
  let loading = false;
  let tries = 0;

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

  const look = async () => {
    if (loading || first.shows(location.hash)) return;
    loading = true;
    // A browser remembers an address that could not be imported: each try has its own.
    tries += 1;
    try {
      const [desk] = await Promise.all([import(`./setday-desk.js?${build}-${tries}`), dress()]);
      await desk.default({ module_or_path: `./setday-desk_bg.wasm?${build}` });
      // At most five seconds: a store that hangs must not keep the view closed. What it has not answered goes along.
      for (let i = 0; i < 1000 && !first.can_hand_over(); i += 1) await new Promise((done) => setTimeout(done, 5));
      removeEventListener("hashchange", look);
      desk.take_over(first.hand_over());
    } catch (error) {
      // The next address asks again.
      loading = false;
      first.rest_is_missing(error.message);
    }
  };
  addEventListener("hashchange", look);
  look();
});
