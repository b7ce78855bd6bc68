// The few sentences the scripts say themselves. A page may replace them, translated, by a JSON block with id="woodreeve-words".

export const ENGLISH = {
  noted: "Noted.",
  noted_many: "{n} entries noted.",
  sending: "Kept on this phone, sending.",
  waiting: "Kept on this phone, not yet sent ({n} waiting).",
  sign_in: "Kept on this phone ({n} waiting). Sign in again to send.",
  looked_at: "Noted, but it needs a look: {sentence}",
  refused: "Not accepted: {sentence}",
  no_store: "This browser keeps nothing (private window?), so entries go straight to the house and are lost without a signal.",
  direct_failed: "Not noted: no answer from the house, and this browser cannot keep it. Leave this page open and try again.",
  store_failed: "Not kept: this phone could not store the entry. Nothing was sent; please try again.",
  needed: "Please fill this in.",
  not_a_number: "{value} is not a number.",
  not_whole: "{value} must be a whole number.",
  which_number: "{value} can be read two ways: write it without a thousands mark.",
  too_small: "{value} is less than {limit}.",
  too_large: "{value} is more than {limit}.",
  not_above: "{value} must be more than {limit}.",
  not_a_share: "{value} is not a name and a percentage: write for instance ash 60, birch 40.",
  named_twice: "{value} is named twice.",
  not_whole_mix: "Together these are {value} %, but they must make 100 %.",
  not_a_time: "{value} is not a date and time.",
  when: "Happened {when}",
  state_waiting: "Not yet sent",
  state_refused: "Not accepted",
  state_look: "Noted, needs a look",
  edit: "Edit",
  discard: "Discard",
  discard_sure: "Really discard?",
  dismiss: "Seen",
  send_now: "Send now",
  nothing_waiting: "Nothing is waiting to be sent.",
  stored_page: "No answer from the house: this page is as it was on {when}.",
  part_failed: "That did not work: no answer from the house. Try again when there is a signal.",
  close: "Close",
};

let page = null;

function pageWords() {
  if (page === null) {
    const block = typeof document === "undefined" ? null : document.getElementById("woodreeve-words");
    try {
      page = block ? JSON.parse(block.textContent) : {};
    } catch {
      page = {};
    }
  }
  return page;
}

export function say(key, values = {}) {
  const text = pageWords()[key] ?? ENGLISH[key] ?? key;
  return text.replace(/\{(\w+)\}/g, (whole, name) => (name in values ? String(values[name]) : whole));
}

// The page's language for dates and numbers; plain "en" means British English here.
export function language() {
  const { lang } = document.documentElement;
  return lang === "en" ? "en-GB" : lang || undefined;
}
