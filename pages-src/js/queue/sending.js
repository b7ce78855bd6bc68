// Sending what waits. An entry leaves "waiting" only on the house's own word about that entry.

export const BATCH = 50;
const OUTCOMES = { kept: "sent", known: "sent", conflict: "look", not_understood: "look", refused: "refused" };

// Returns {results} | {trouble: "no_answer" | "sign_in" | "bad_request", sentence}.
export async function post(url, entries, { fetch = globalThis.fetch, timeoutMs = 20000 } = {}) {
  let response;
  try {
    response = await fetch(url, {
      method: "POST",
      credentials: "same-origin",
      redirect: "manual",
      headers: { "Content-Type": "application/json", Accept: "application/json", "X-Woodreeve-Form": "1" },
      body: JSON.stringify({ entries }),
      signal: AbortSignal.timeout(timeoutMs),
    });
  } catch {
    return { trouble: "no_answer" };
  }
  if (response.type === "opaqueredirect" || response.status === 401 || response.status === 403) return { trouble: "sign_in" };
  let body = null;
  try {
    body = await response.json();
  } catch {
    body = null;
  }
  if ([400, 413, 422].includes(response.status)) return { trouble: "bad_request", sentence: sentenceIn(body) };
  if (!response.ok || !Array.isArray(body?.results)) return { trouble: "no_answer" };
  return { results: body.results };
}

export function sentenceIn(body) {
  if (typeof body?.sentence === "string") return body.sentence;
  if (typeof body?.detail === "string") return body.detail;
  if (Array.isArray(body?.detail)) return body.detail.map((one) => [one.loc?.at(-1), one.msg].filter(Boolean).join(": ")).join("; ");
  return "";
}

// Sends everything that waits, in order. A batch refused as a whole is sent again one by one, so that one bad entry holds up no other.
export async function sendWaiting(store, url, options = {}) {
  const outcome = { noted: [], look: [], refused: [], trouble: null };
  const tried = new Set();
  const next = async () => (await store.waiting()).filter((row) => !tried.has(row.id));

  async function settle(rows) {
    const answer = await post(url, rows.map((row) => row.entry), options);
    if (answer.trouble === "bad_request" && rows.length > 1) {
      for (const row of rows) {
        await settle([row]);
        if (outcome.trouble) return;
      }
      return;
    }
    if (answer.trouble === "bad_request") answer.results = [{ id: rows[0].id, state: "refused", sentence: answer.sentence }];
    else if (answer.trouble) {
      outcome.trouble = answer.trouble;
      return;
    }
    for (const row of rows) {
      const result = answer.results.find((one) => one.id === row.id);
      const state = OUTCOMES[result?.state];
      if (!state) continue;
      await store.mark(row.id, state, result.sentence ?? "");
      outcome[state === "sent" ? "noted" : state].push({ id: row.id, kind: row.entry.kind, sentence: result.sentence ?? "" });
    }
  }

  for (let rows = await next(); rows.length > 0 && !outcome.trouble; rows = await next()) {
    const batch = rows.slice(0, BATCH);
    batch.forEach((row) => tried.add(row.id));
    await settle(batch);
  }
  return outcome;
}
