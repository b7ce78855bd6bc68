// Small behaviours of every page. Each works without the others, and every page reads without any of them.
import { dressPictures, startThemeChoice } from "./page/theme-choice.js";
import { dressTables } from "./page/tables.js";
import { startWorkings } from "./page/workings.js";
import { startWorker } from "./page/worker-link.js";
import { say } from "./words.js";

function startMenus() {
  const shutAll = (except) => {
    for (const menu of document.querySelectorAll("nav.bar details[open]")) if (menu !== except) menu.open = false;
  };
  document.addEventListener("click", (event) => shutAll(event.target.closest("nav.bar details")));
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    const open = document.querySelector("nav.bar details[open]");
    shutAll(null);
    open?.querySelector("summary").focus();
  });
  for (const menu of document.querySelectorAll("nav.bar details")) {
    if (menu.querySelector("[aria-current]")) menu.dataset.current = "";
  }
}

function startRequests() {
  document.addEventListener("htmx:configRequest", (event) => {
    event.detail.headers["X-Woodreeve-Form"] = "1";
  });
  const failed = () => {
    const line = document.querySelector("[data-page-state]");
    if (!line) return;
    line.textContent = say("part_failed");
    line.hidden = false;
  };
  document.addEventListener("htmx:sendError", failed);
  document.addEventListener("htmx:timeout", failed);
  document.addEventListener("htmx:responseError", failed);
  document.addEventListener("htmx:beforeRequest", () => {
    const line = document.querySelector("[data-page-state]");
    if (line) line.hidden = true;
  });
}

startThemeChoice();
startMenus();
startRequests();
startWorkings();
dressTables();
document.addEventListener("htmx:afterSettle", (event) => {
  dressTables(event.target);
  dressPictures();
});
startWorker();
