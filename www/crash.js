// A crash is loud: it covers the page, so that nobody works from numbers that no longer follow the plan.
// Plain script, loaded before the app, using nothing of it: it has to work whatever broke.
"use strict";

// The shelf of plans (src/ui/shelf.rs): `plans` holds a record for each, `texts` the plan files by [plan, turn].
const SHELF = "setday";
// Which plan was open last, in this tab and on this device.
const OPEN_KEY = "setday.open";
// Where earlier builds kept the one plan.
const EARLIER_KEY = "setday.plan.last";

/** Covers the page, says what happened and offers the last kept plan as a file. The first call wins. */
function setdayCrash(message) {
  if (document.querySelector("dialog.crash")) return;
  console.error(message);
  const overlay = crashElement("dialog", "");
  overlay.className = "crash";
  overlay.setAttribute("role", "alertdialog");
  overlay.setAttribute("aria-labelledby", "crash-title");
  overlay.setAttribute("aria-describedby", "crash-text");

  const title = crashElement("h1", "Setday has stopped");
  title.id = "crash-title";
  title.tabIndex = -1;
  const text = crashElement("p", "Something went wrong inside the program. The numbers on the page behind this are not to be used.");
  text.id = "crash-text";
  const kept = crashElement("p", "Looking for the last kept plan.");
  const save = crashElement("button", "Save the last kept plan as a file");
  lastKeptPlan().then((plan) => {
    if (plan === undefined) {
      kept.textContent = "No plan was kept on this device, so there is none to save.";
      return;
    }
    kept.textContent = "The last kept plan is still on this device. Save it as a file first, then reload.";
    save.addEventListener("click", () => downloadPlan(plan));
    kept.after(save);
  }).catch((error) => {
    kept.textContent = `The store of this browser cannot be read: ${error.message}`;
  });
  const reload = crashElement("button", "Reload");
  reload.addEventListener("click", () => location.reload());
  const build = document.querySelector('meta[name="build"]')?.content ?? "unknown";
  const details = crashElement("pre", `Build ${build}\n${message}`);

  overlay.append(title, text, kept, reload, details);
  // Escape must not uncover the page.
  overlay.addEventListener("cancel", (event) => event.preventDefault());
  overlay.addEventListener("close", () => overlay.showModal());
  (document.body ?? document.documentElement).append(overlay);
  overlay.showModal();
  title.focus();
}

function crashElement(name, text) {
  const element = document.createElement(name);
  element.textContent = text;
  return element;
}

/** The text of the plan that was open last, else of the one edited last. Read here and not kept a second time elsewhere: a copy for this overlay alone would cost each edit a second write. */
async function lastKeptPlan() {
  const done = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    // without a shelf there is nothing to set up
    request.onupgradeneeded = () => request.transaction.abort();
  });
  const earlier = localStorage.getItem(EARLIER_KEY) ?? undefined;
  const database = await done(indexedDB.open(SHELF)).catch((error) => {
    if (error.name === "AbortError") return undefined;
    throw error;
  });
  if (database === undefined) return earlier;
  try {
    const tables = database.transaction(["plans", "texts"]);
    const [ids, records] = await Promise.all([done(tables.objectStore("plans").getAllKeys()), done(tables.objectStore("plans").getAll())]);
    const plans = records.map((text, at) => ({ id: ids[at], ...turnAndTime(text) })).filter((plan) => plan.turn !== undefined);
    const open = sessionStorage.getItem(OPEN_KEY) ?? localStorage.getItem(OPEN_KEY);
    const last = plans.find((plan) => plan.id === open) ?? plans.sort((a, b) => b.edited - a.edited)[0];
    return last === undefined ? earlier : await done(tables.objectStore("texts").get([last.id, last.turn]));
  } finally {
    database.close();
  }
}

/** A record's turn and when it was written; nothing of a record that cannot be read. */
function turnAndTime(text) {
  try {
    const { turn, versions } = JSON.parse(text);
    return { turn, edited: versions.at(-1).at };
  } catch {
    return {};
  }
}

function downloadPlan(text) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  link.download = "setday-last-kept-plan.json";
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

let setdayStarted = false;
addEventListener("TrunkApplicationStarted", () => { setdayStarted = true; });

/** Whether this error leaves a dead app: any before it started, later only those that end the program. */
function endsTheApp(error) {
  return !setdayStarted || error instanceof WebAssembly.RuntimeError || error instanceof RangeError;
}

// Capturing, because a script that does not load is reported on its element only.
addEventListener("error", (event) => {
  if (event.target instanceof HTMLElement) {
    if (event.target instanceof HTMLScriptElement) setdayCrash(`A part of the program did not load: ${event.target.src}`);
  } else if (endsTheApp(event.error)) {
    setdayCrash(`${setdayStarted ? "The program ended" : "The program did not start"}: ${event.message}`);
  }
}, true);
addEventListener("unhandledrejection", (event) => {
  if (endsTheApp(event.reason)) {
    setdayCrash(`${setdayStarted ? "The program ended" : "The program did not start"}: ${event.reason}`);
  }
});
