// Figures that open: the panel of workings takes the focus, can be closed, and gives the focus back.
import { say } from "../words.js";

let opener = null;

export function startWorkings() {
  document.addEventListener("click", (event) => {
    const figure = event.target.closest(".figure[hx-get]");
    if (figure) opener = figure;
    const close = event.target.closest("[data-close-why]");
    if (close) shut(close.closest(".why"));
  });

  document.addEventListener("keydown", (event) => {
    const panel = event.key === "Escape" ? event.target.closest(".why") : null;
    if (panel) shut(panel);
  });

  document.addEventListener("htmx:afterSettle", (event) => {
    const panel = event.target.closest(".why");
    if (!panel || !opener) return;
    for (const figure of document.querySelectorAll('.figure[aria-expanded="true"]')) figure.setAttribute("aria-expanded", "false");
    opener.setAttribute("aria-expanded", "true");
    if (!panel.querySelector("[data-close-why]")) panel.append(closeButton());
    panel.tabIndex = -1;
    panel.focus({ preventScroll: true });
    panel.scrollIntoView({ block: "nearest" });
  });
}

function closeButton() {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "link-button";
  button.dataset.closeWhy = "";
  button.textContent = say("close");
  return button;
}

function shut(panel) {
  panel.replaceChildren();
  opener?.setAttribute("aria-expanded", "false");
  opener?.focus();
  opener = null;
}
