// Light, dark, or as the device has it.

const KEY = "woodreeve-theme";
const DARK = "(prefers-color-scheme: dark)";
const root = document.documentElement;
const chosen = () => root.dataset.theme ?? "device";

// A <picture> follows the device only; these sources follow the owner's choice, and keep to the width they are for.
export function dressPictures() {
  for (const source of document.querySelectorAll('picture > source[data-theme-source="dark"]')) {
    const { width } = source.dataset;
    const device = width ? `${width} and ${DARK}` : DARK;
    source.media = { dark: width || "all", light: "not all", device }[chosen()];
  }
}

function show() {
  for (const button of document.querySelectorAll("button[data-theme-choice]")) {
    button.setAttribute("aria-pressed", String(button.dataset.themeChoice === chosen()));
  }
  dressPictures();
}

function choose(choice) {
  if (choice === "device") delete root.dataset.theme;
  else root.dataset.theme = choice;
  try {
    if (choice === "device") localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, choice);
  } catch {
    /* the choice holds for this page only */
  }
  show();
  document.dispatchEvent(new CustomEvent("woodreeve:theme"));
}

export function startThemeChoice() {
  document.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-theme-choice]");
    if (button) choose(button.dataset.themeChoice);
  });
  matchMedia(DARK).addEventListener("change", () => document.dispatchEvent(new CustomEvent("woodreeve:theme")));
  show();
}
