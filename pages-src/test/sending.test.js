import "fake-indexeddb/auto";
import assert from "node:assert/strict";
import { test } from "node:test";
import { newId } from "../js/queue/entry.js";
import { BATCH, post, sendWaiting } from "../js/queue/sending.js";
import { openStore, WEEK_MS } from "../js/queue/store.js";

const entry = (payload = {}) => ({ id: newId(), kind: "lit", form: 1, happened: "x", entered: "x", by: "", payload });
const fresh = () => openStore(newId());
const reply = (status, body, type = "default") => ({ status, ok: status < 300, type, json: async () => body });

// A make-believe house: keeps by id, refuses what its rule refuses.
function house({ refuse = () => null, batchRule = null } = {}) {
  const kept = new Map();
  const calls = [];
  const fetch = async (url, request) => {
    const { entries } = JSON.parse(request.body);
    calls.push({ url, request, size: entries.length });
    const whole = batchRule?.(entries);
    if (whole) return whole;
    const results = entries.map((one) => {
      const sentence = refuse(one);
      if (sentence) return { id: one.id, state: "refused", sentence };
      const state = kept.has(one.id) ? "known" : "kept";
      kept.set(one.id, one);
      return { id: one.id, state, sentence: "" };
    });
    return reply(200, { results });
  };
  return { kept, calls, fetch };
}

test("what waits is sent once, in order, as JSON from the same origin with the form's header", async () => {
  const store = await fresh();
  const [first, second] = [entry(), entry()];
  await store.keep(first);
  await store.keep(second);
  const { kept, calls, fetch } = house();
  const outcome = await sendWaiting(store, "/api/entries", { fetch });
  assert.equal(outcome.noted.length, 2);
  assert.deepEqual([...kept.keys()].sort(), [first.id, second.id].sort());
  assert.equal(calls[0].request.headers["X-Woodreeve-Form"], "1");
  assert.equal(calls[0].request.credentials, "same-origin");
  await sendWaiting(store, "/api/entries", { fetch });
  assert.equal(calls.length, 1);
});

test("without an answer everything stays waiting, and a store opened again still has it", async () => {
  const name = newId();
  const store = await openStore(name);
  const one = entry({ wood_kg: 42 });
  await store.keep(one);
  const fetch = async () => {
    throw new TypeError("no signal");
  };
  assert.equal((await sendWaiting(store, "/api/entries", { fetch })).trouble, "no_answer");
  const reopened = await openStore(name);
  assert.deepEqual((await reopened.waiting())[0].entry, one);
});

test("an answer lost on the way back leads to known, not to a second entry", async () => {
  const store = await fresh();
  await store.keep(entry());
  const { kept, fetch } = house();
  const lost = async (...call) => {
    await fetch(...call);
    throw new TypeError("cut off");
  };
  await sendWaiting(store, "/api/entries", { fetch: lost });
  const outcome = await sendWaiting(store, "/api/entries", { fetch });
  assert.equal(outcome.noted.length, 1);
  assert.equal(kept.size, 1);
});

test("a refused entry stays with its sentence and holds up no other", async () => {
  const store = await fresh();
  const bad = entry({ bad: true });
  await store.keep(bad);
  await store.keep(entry());
  const { fetch } = house({ refuse: (one) => (one.payload.bad ? "No such stack." : null) });
  const outcome = await sendWaiting(store, "/api/entries", { fetch });
  assert.equal(outcome.noted.length, 1);
  assert.equal(outcome.refused[0].sentence, "No such stack.");
  const row = await store.get(bad.id);
  assert.equal(row.state, "refused");
  assert.deepEqual(row.entry, bad);
});

test("a batch refused as a whole is sent again one by one", async () => {
  const store = await fresh();
  const bad = entry({ bad: true });
  for (const one of [entry(), bad, entry()]) await store.keep(one);
  const batchRule = (entries) => (entries.some((one) => one.payload.bad) ? reply(422, { detail: [{ loc: ["body", "kind"], msg: "unknown" }] }) : null);
  const { kept, fetch } = house({ batchRule });
  const outcome = await sendWaiting(store, "/api/entries", { fetch });
  assert.equal(kept.size, 2);
  assert.equal(outcome.refused[0].id, bad.id);
  assert.equal((await store.get(bad.id)).sentence, "kind: unknown");
});

test("an edited entry takes the place of the refused one in one step", async () => {
  const store = await fresh();
  const bad = entry();
  await store.keep(bad);
  await store.mark(bad.id, "refused", "No.");
  const better = entry();
  await store.keep(better, {}, bad.id);
  assert.deepEqual((await store.all()).map((row) => row.id), [better.id]);
});

test("kept as not understood or in conflict is in the house's records: shown, not sent again", async () => {
  for (const state of ["not_understood", "conflict"]) {
    const store = await fresh();
    const one = entry();
    await store.keep(one);
    const fetch = async () => reply(200, { results: [{ id: one.id, state, sentence: "Look." }] });
    assert.equal((await sendWaiting(store, "/api/entries", { fetch })).look[0].sentence, "Look.");
    assert.equal((await store.waiting()).length, 0);
    assert.equal((await store.get(one.id)).state, "look");
  }
});

test("an entry the answer does not name goes on waiting, and is not sent in a circle", async () => {
  const store = await fresh();
  await store.keep(entry());
  let calls = 0;
  const fetch = async () => {
    calls += 1;
    return reply(200, { results: [] });
  };
  await sendWaiting(store, "/api/entries", { fetch });
  assert.equal(calls, 1);
  assert.equal((await store.waiting()).length, 1);
});

test("a sign-in page, a server fault or a page in place of JSON loses nothing", async () => {
  const answers = { sign_in: [reply(0, null, "opaqueredirect"), reply(401, {}), reply(403, {})], no_answer: [reply(503, {}), reply(200, "a page"), reply(404, {})] };
  for (const [trouble, replies] of Object.entries(answers)) {
    for (const one of replies) assert.equal((await post("/api/entries", [entry()], { fetch: async () => one })).trouble, trouble);
  }
});

test("many entries go in batches", async () => {
  const store = await fresh();
  for (let n = 0; n < BATCH + 5; n += 1) await store.keep(entry());
  const { kept, calls, fetch } = house();
  await sendWaiting(store, "/api/entries", { fetch });
  assert.deepEqual(calls.map((call) => call.size), [BATCH, 5]);
  assert.equal(kept.size, BATCH + 5);
});

test("sent entries are forgotten after a week, waiting and refused ones never", async () => {
  const store = await fresh();
  const [sent, refused, waiting] = [entry(), entry(), entry()];
  for (const one of [sent, refused, waiting]) await store.keep(one);
  await store.mark(sent.id, "sent");
  await store.mark(refused.id, "refused", "No.");
  await store.tidy(Date.now() + WEEK_MS - 1000);
  assert.equal((await store.all()).length, 3);
  await store.tidy(Date.now() + WEEK_MS + 1000);
  assert.deepEqual((await store.all()).map((row) => row.id).sort(), [refused.id, waiting.id].sort());
});

test("two holdings on one phone do not see each other's entries", async () => {
  const [own, demo] = [await openStore(`own-${newId()}`), await openStore(`demo-${newId()}`)];
  await demo.keep(entry());
  assert.equal((await own.all()).length, 0);
});

test("a dropped connection is opened again", async () => {
  const name = newId();
  const store = await openStore(name);
  await new Promise((resolve, reject) => {
    const dropping = indexedDB.deleteDatabase(`woodreeve-diary-${name}`);
    dropping.onsuccess = resolve;
    dropping.onerror = reject;
  });
  const one = entry();
  await store.keep(one);
  assert.deepEqual((await store.waiting()).map((row) => row.id), [one.id]);
});
