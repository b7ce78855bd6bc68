// The diary queue: every diary form of a page goes through here, with or without a signal. Kept first, sent second, never lost.
import { entryFrom } from "./queue/entry.js";
import { startGrowing } from "./queue/growing.js";
import { openStore } from "./queue/store.js";
import { post, sendWaiting } from "./queue/sending.js";
import { clearFaults, fill, showFaults, showState, showUnsent } from "./queue/showing.js";
import { language, say } from "./words.js";

const URL_ENTRIES = "/api/entries";
const EVERY_MS = 60_000;
const root = document.documentElement;

let store = null;
let sending = null;
let again = false;

function tellPage(noted) {
  const detail = { ids: noted.map((one) => one.id), kinds: [...new Set(noted.map((one) => one.kind))] };
  document.body.dispatchEvent(new CustomEvent("woodreeve:noted", { bubbles: true, detail }));
}

async function refresh() {
  if (store) showUnsent(await store.all(), { edit, discard, send: () => send() });
}

async function tellOutcome(outcome, form) {
  const waiting = (await store.waiting()).length;
  const [problem] = outcome.refused;
  const [look] = outcome.look;
  if (problem) showState(say("refused", problem), "wrong", form);
  else if (outcome.trouble === "sign_in" && waiting) showState(say("sign_in", { n: waiting }), "waiting", form);
  else if (waiting) showState(say("waiting", { n: waiting }), "waiting", form);
  else if (look) showState(say("looked_at", look), "wrong", form);
  else if (outcome.noted.length > 1) showState(say("noted_many", { n: outcome.noted.length }), "noted", form);
  else if (outcome.noted.length === 1) showState(outcome.noted[0].sentence || say("noted"), "noted", form);
  const landed = [...outcome.noted, ...outcome.look];
  if (landed.length) tellPage(landed);
}

async function sendUntilSettled(form) {
  do {
    again = false;
    await tellOutcome(await sendWaiting(store, URL_ENTRIES), form);
    await refresh();
  } while (again);
}

function send(form = null) {
  if (!store) return Promise.resolve();
  if (sending) {
    again = true;
    return sending;
  }
  sending = sendUntilSettled(form)
    .catch(() => showState(say("store_failed"), "wrong", form))
    .finally(() => {
      sending = null;
    });
  return sending;
}

async function discard(row) {
  await store.discard(row.id);
  await refresh();
}

// An entry is put right in the form it came from; where that one cannot know all of it, in its kind's own.
function edit(row) {
  const here = location.pathname + location.search;
  const form = Array.from(document.querySelectorAll("form[data-diary-form]")).find((one) => one.dataset.kind === row.entry.kind);
  const { page } = row.about;
  if (form && (!page || page === here || location.hash === `#edit=${row.id}`)) fill(form, row);
  else location.assign(`${page && page !== here ? page : `/diary/${row.entry.kind}`}#edit=${row.id}`);
}

// What the owner will recognise in the list: labels and typed values, as they stood in the form.
function told(form, submitter) {
  const parts = [];
  for (const field of form.elements) {
    const label = field.labels?.[0]?.textContent.trim() ?? "";
    const box = ["checkbox", "radio"].includes(field.type);
    const said = field.name && field.type !== "hidden" && field.type !== "datetime-local" && field.type !== "submit";
    if (!said || (box && !field.checked) || !field.value) continue;
    const value = field.type === "select-one" ? field.selectedOptions[0].textContent.trim() : field.value;
    const unit = field.dataset.unit ? ` ${field.dataset.unit}` : "";
    parts.push(box ? label : `${field.dataset.told ?? label} ${value}${unit}`.trim());
  }
  if (submitter?.name) parts.push(submitter.textContent.trim());
  return parts.join(", ");
}

async function direct(form, entry) {
  const answer = await post(URL_ENTRIES, [entry]);
  const result = answer.results?.find((one) => one.id === entry.id);
  if (["kept", "known"].includes(result?.state)) showState(result.sentence || say("noted"), "noted", form);
  else if (["conflict", "not_understood"].includes(result?.state)) showState(say("looked_at", { sentence: result.sentence }), "wrong", form);
  else if (result?.state === "refused" || answer.trouble === "bad_request") {
    showState(say("refused", { sentence: result?.sentence ?? answer.sentence }), "wrong", form);
    return;
  } else {
    showState(say("direct_failed"), "wrong", form);
    return;
  }
  form.reset();
  tellPage([{ id: entry.id, kind: entry.kind }]);
}

async function take(form, submitter) {
  clearFaults(form);
  const { entry, faults } = entryFrom(form, { submitter, language: language(), by: root.dataset.person || "owner" });
  if (faults.length) {
    showFaults(form, faults);
    return;
  }
  if (!store) {
    form.dataset.pendingId ??= entry.id;
    await direct(form, { ...entry, id: form.dataset.pendingId });
    return;
  }
  const about = { label: submitter?.dataset.label ?? form.dataset.label ?? "", told: told(form, submitter), page: location.pathname + location.search };
  try {
    await store.keep(entry, about, form.dataset.replaces);
  } catch {
    showState(say("store_failed"), "wrong", form);
    return;
  }
  form.reset();
  showState(say("sending"), "waiting", form);
  navigator.storage?.persist?.();
  await refresh();
  await send(form);
}

document.addEventListener("submit", async (event) => {
  const form = event.target;
  if (!form.matches("form[data-diary-form]")) return;
  event.preventDefault();
  if (form.dataset.busy) return;
  form.dataset.busy = "1";
  try {
    await ready;
    await take(form, event.submitter);
  } finally {
    delete form.dataset.busy;
  }
});

// A cleared form begins a new entry; it no longer stands for the refused one that was being edited.
document.addEventListener("reset", (event) => {
  delete event.target.dataset.replaces;
  delete event.target.dataset.pendingId;
});

async function start() {
  try {
    store = await openStore(root.dataset.holding ?? "own");
    await store.tidy();
  } catch {
    store = null;
    showState(say("no_store"), "waiting");
  }
}

async function wake() {
  if (!store) return;
  await refresh();
  if ((await store.waiting()).length) await send();
}

startGrowing();
const ready = start();

ready.then(async () => {
  await wake();
  const wanted = /^#edit=([0-9a-f]{32})$/.exec(location.hash)?.[1];
  const row = wanted && store ? await store.get(wanted) : null;
  if (row?.state === "refused") edit(row);
  setInterval(wake, EVERY_MS);
});

window.addEventListener("online", wake);
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "visible") wake();
});
document.addEventListener("htmx:afterSwap", refresh);
