// The page's dealings with the service worker: register, name the pages to keep, say when a page is an old copy.
import { language, say } from "../words.js";

async function ask(worker, message) {
  const { port1, port2 } = new MessageChannel();
  const answer = new Promise((resolve) => {
    port1.onmessage = (event) => resolve(event.data);
  });
  worker.postMessage(message, [port2]);
  return answer;
}

function showStored(made) {
  const note = document.querySelector("[data-stored-page]");
  if (!note) return;
  const when = new Date(made).toLocaleString(language(), { dateStyle: "medium", timeStyle: "short" });
  note.textContent = say("stored_page", { when });
  note.hidden = false;
}

export async function startWorker() {
  if (!("serviceWorker" in navigator)) return;
  const { worker = "/worker.js", keepPages = "" } = document.documentElement.dataset;
  document.addEventListener("submit", (event) => {
    if (event.target.matches("form[data-forget-pages]")) navigator.serviceWorker.controller?.postMessage({ forget: true });
  });
  try {
    await navigator.serviceWorker.register(worker, { scope: "/" });
  } catch {
    return;
  }
  const { active } = await navigator.serviceWorker.ready;
  const keep = keepPages.split(/\s+/).filter(Boolean);
  if (keep.length) active.postMessage({ keep });
  if (navigator.serviceWorker.controller) {
    const { stored } = await ask(navigator.serviceWorker.controller, { storedCopyOf: location.href });
    if (stored) showStored(stored);
  }
}
