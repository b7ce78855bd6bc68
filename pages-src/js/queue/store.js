// What the phone keeps: one IndexedDB database for each holding, so that the demonstration can never send into the owner's diary.
import { openDB } from "idb";

export const WEEK_MS = 7 * 24 * 3600 * 1000;

export async function openStore(holding) {
  const open = () =>
    openDB(`woodreeve-diary-${holding}`, 1, {
      upgrade(fresh) {
        fresh.createObjectStore("entries", { keyPath: "id" });
      },
      blocking(_now, _wanted, event) {
        event.target.close();
      },
    });
  let db = await open();

  // A phone may drop the connection while the page sleeps: open it again once, then the fault is real.
  async function using(work) {
    try {
      return await work(db);
    } catch (fault) {
      if (fault.name !== "InvalidStateError") throw fault;
      db = await open();
      return work(db);
    }
  }

  const change = (work) =>
    using(async (now) => {
      const tx = now.transaction("entries", "readwrite", { durability: "strict" });
      await Promise.all([work(tx.store), tx.done]);
    });

  const all = async () => (await using((now) => now.getAll("entries"))).sort((a, b) => a.stored - b.stored || (a.id < b.id ? -1 : 1));

  return {
    all,
    get: (id) => using((now) => now.get("entries", id)),
    waiting: async () => (await all()).filter((row) => row.state === "waiting"),

    // Keeps an entry; when it replaces a refused one, both changes are one transaction.
    keep: (entry, about = {}, replaces = null) =>
      change(async (rows) => {
        await rows.put({ id: entry.id, entry, about, state: "waiting", sentence: "", stored: Date.now() });
        if (replaces && replaces !== entry.id) await rows.delete(replaces);
      }),

    mark: (id, state, sentence = "") =>
      change(async (rows) => {
        const row = await rows.get(id);
        if (row) await rows.put({ ...row, state, sentence, marked: Date.now() });
      }),

    discard: (id) => change((rows) => rows.delete(id)),

    // Entries known to be in the house's own records are forgotten here after a week.
    tidy: (now = Date.now()) =>
      change(async (rows) => {
        for (const row of await rows.getAll()) {
          if (row.state === "sent" && now - row.marked > WEEK_MS) await rows.delete(row.id);
        }
      }),
  };
}
