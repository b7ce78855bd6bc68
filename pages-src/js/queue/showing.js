// What the page shows of the queue: the state line, faults beside their fields, and the list of what is not settled.
import { language, say } from "../words.js";
import { isHappened } from "./entry.js";
import { writeField } from "./fields.js";
import { grow } from "./growing.js";
import { toLocalField } from "./moments.js";
import { valueAt } from "./paths.js";

export function showState(text, state, form = null) {
  let line = form?.querySelector("[data-diary-state]") ?? document.querySelector("[data-diary-state]");
  if (!line) {
    line = document.createElement("p");
    line.className = "diary-state";
    line.dataset.diaryState = "";
    if (form) form.after(line);
    else (document.querySelector("main") ?? document.body).prepend(line);
  }
  line.setAttribute("role", "status");
  line.setAttribute("aria-live", "polite");
  line.dataset.state = state;
  line.textContent = text;
}

function errorLine(form, field) {
  const wanted = `error-${form.dataset.kind}-${field.name}`;
  let line = Array.from(form.querySelectorAll("[data-error-for]")).find((one) => one.dataset.errorFor === field.name);
  if (!line) {
    line = document.createElement("small");
    line.className = "error";
    line.dataset.errorFor = field.name;
    (field.closest(".field") ?? field.parentElement).append(line);
  }
  if (!line.id) line.id = wanted;
  const described = new Set((field.getAttribute("aria-describedby") ?? "").split(/\s+/).filter(Boolean));
  field.setAttribute("aria-describedby", [...described.add(line.id)].join(" "));
  return line;
}

export function clearFaults(form) {
  for (const line of form.querySelectorAll("[data-error-for]")) line.textContent = "";
  for (const field of form.querySelectorAll("[aria-invalid]")) field.removeAttribute("aria-invalid");
}

export function showFaults(form, faults) {
  for (const { field, fault, about } of faults) {
    field.setAttribute("aria-invalid", "true");
    errorLine(form, field).textContent = say(fault, about);
  }
  faults[0].field.focus();
}

// Fields of one name for one value each share the list out; the last takes what is left.
function shareOut(fields, values) {
  fields.forEach((field, index) => {
    const mine = index === fields.length - 1 ? values.slice(index) : values.slice(index, index + 1);
    field.value = mine.map(String).join(" ");
  });
}

// Puts a kept entry back into its form; numbers that were divided on the way out are multiplied back.
export function fill(form, { entry }) {
  form.reset();
  for (const list of form.querySelectorAll?.("[data-grows]") ?? []) {
    const first = list.querySelector("[name]").name;
    const rows = valueAt(entry.payload, first.split(/\.\d+\./)[0]);
    while (Array.isArray(rows) && list.childElementCount < rows.length && grow(list));
  }
  const fields = Array.from(form.elements).filter((field) => field.name);
  for (const field of fields) {
    const value = isHappened(field) ? entry.happened : valueAt(entry.payload, field.name);
    if (value === undefined || value === null) continue;
    const namesakes = fields.filter((one) => one.name === field.name);
    if ("numbers" in field.dataset) shareOut(namesakes, value);
    // Beside a choice of known names stands a free field of the same name: it is filled only where no choice fits.
    else if (field.type === "text" && namesakes.some((one) => one.type === "radio" && one.value === String(value))) continue;
    else writeField(field, value, toLocalField);
  }
  form.dataset.replaces = entry.id;
  form.scrollIntoView({ block: "start" });
  fields.find((field) => field.type !== "hidden")?.focus();
}

function line(tag, className, text) {
  const made = document.createElement(tag);
  made.className = className;
  made.textContent = text;
  return made;
}

function button(text, act) {
  const made = line("button", "link-button", text);
  made.type = "button";
  made.addEventListener("click", () => act(made));
  return made;
}

const shown = (value) => (value !== null && typeof value === "object" ? JSON.stringify(value) : String(value));

function item(row, acts) {
  const made = document.createElement("li");
  made.dataset.state = row.state;
  made.dataset.id = row.id;
  const head = document.createElement("p");
  head.append(line("strong", "", row.about.label || row.entry.kind), ` — ${say(`state_${row.state}`)}`);
  const when = new Date(row.entry.happened).toLocaleString(language(), { dateStyle: "medium", timeStyle: "short" });
  made.append(head, line("p", "quiet", say("when", { when })));
  const told = row.about.told ?? Object.entries(row.entry.payload).map(([name, value]) => `${name} ${shown(value)}`).join(", ");
  if (told) made.append(line("p", "", told));
  if (row.sentence) made.append(line("p", "", row.sentence));
  const actions = line("div", "actions", "");
  if (row.state === "refused") {
    actions.append(button(say("edit"), () => acts.edit(row)));
    actions.append(
      button(say("discard"), (self) => {
        if (self.dataset.sure) acts.discard(row);
        else {
          self.dataset.sure = "1";
          self.textContent = say("discard_sure");
        }
      }),
    );
  } else if (row.state === "look") actions.append(button(say("dismiss"), () => acts.discard(row)));
  if (actions.childElementCount) made.append(actions);
  return made;
}

export function showUnsent(rows, acts) {
  const open = rows.filter((row) => row.state !== "sent");
  const waiting = open.filter((row) => row.state === "waiting").length;
  for (const place of document.querySelectorAll("[data-unsent]")) {
    const list = line("ul", "unsent", "");
    list.append(...open.map((row) => item(row, acts)));
    if (open.length) place.replaceChildren(list);
    else place.replaceChildren(...("quiet" in place.dataset ? [] : [line("p", "quiet", say("nothing_waiting"))]));
    if (waiting) place.append(button(say("send_now"), acts.send));
  }
  for (const count of document.querySelectorAll("[data-unsent-count]")) {
    count.textContent = open.length ? String(open.length) : "";
    count.hidden = open.length === 0;
  }
}
