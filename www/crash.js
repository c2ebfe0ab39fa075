// A crash is loud: it covers the page, so that nobody works from numbers that no longer follow the plan.
// Plain script, loaded before the app, using nothing of it: it has to work whatever broke.
"use strict";

// The browser store's key under which the app keeps the plan's last text.
const LAST_PLAN_KEY = "setday.plan.last";

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
  const plan = lastKeptPlan();
  const save = crashElement("button", "Save the last kept plan as a file");
  save.addEventListener("click", () => downloadPlan(plan.text));
  const reload = crashElement("button", "Reload");
  reload.addEventListener("click", () => location.reload());
  const build = document.querySelector('meta[name="build"]')?.content ?? "unknown";
  const details = crashElement("pre", `Build ${build}\n${message}`);

  overlay.append(title, text, crashElement("p", plan.note), ...(plan.text === null ? [] : [save]), reload, details);
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

function lastKeptPlan() {
  try {
    const text = localStorage.getItem(LAST_PLAN_KEY);
    if (text === null) return { text, note: "No plan was kept on this device, so there is none to save." };
    return { text, note: "The last kept plan is still on this device. Save it as a file first, then reload." };
  } catch (error) {
    return { text: null, note: `The store of this browser cannot be read: ${error.message}` };
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
