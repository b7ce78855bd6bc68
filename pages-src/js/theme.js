// Before the first paint: the owner's choice of light or dark, if any. Loaded in <head>, not as a module.
(() => {
  try {
    const choice = localStorage.getItem("woodreeve-theme");
    if (choice === "light" || choice === "dark") document.documentElement.dataset.theme = choice;
  } catch {
    /* no storage: the device's own preference stands */
  }
})();
