// From a filled form to one diary entry: {id, kind, form, happened, entered, by, payload}.
import { decimalMark } from "./numbers.js";
import { fromLocalField, withOffset } from "./moments.js";
import { inRow, listed, place, tidied, valueAt } from "./paths.js";
import { readField } from "./fields.js";

export { place } from "./paths.js";

const NOT_VALUES = ["submit", "button", "reset", "image", "file", "fieldset", "output"];

export function newId(source = globalThis.crypto) {
  return Array.from(source.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// The moment of the entry itself; a correction's own payload field of that name says so with data-payload.
export function isHappened(field) {
  const data = field.dataset ?? {};
  return "happened" in data || (field.name === "happened" && !("payload" in data));
}

// A radio group that needs a choice, and a field that a row needs once anything stands in the row.
function missing(fields, payload) {
  const told = new Set();
  return fields.filter((field) => {
    const inside = inRow(field.name);
    const asked = field.type === "radio" ? field.required : "neededInRow" in field.dataset && inside && valueAt(payload, inside) !== undefined;
    if (!asked || told.has(field.name) || valueAt(payload, field.name) !== undefined) return false;
    told.add(field.name);
    return true;
  });
}

// Returns {entry, faults}; `faults` is a list of {field, fault, about}, empty when the entry can be kept.
export function entryFrom(form, { submitter = null, language = "en", by = "", now = new Date(), id = newId() } = {}) {
  const decimal = decimalMark(language);
  const stamp = form.dataset.now || withOffset(now);
  const payload = {};
  const faults = [];
  const read = [];
  let happened = stamp;
  for (const field of form.elements) {
    const named = field.name && !field.disabled && !NOT_VALUES.includes(field.type);
    if (!named || "skip" in (field.dataset ?? {})) continue;
    const { value, fault, about } = readField(field, decimal, fromLocalField);
    if (fault) faults.push({ field, fault, about });
    else if (isHappened(field)) happened = value ?? stamp;
    else if (value !== undefined) {
      const before = listed(field) ? valueAt(payload, field.name) : undefined;
      place(payload, field.name, before === undefined ? value : [...before, ...value]);
    }
    read.push(field);
  }
  if (submitter?.name) place(payload, submitter.name, submitter.value);
  const faulty = new Set(faults.map(({ field }) => field.name));
  for (const field of missing(read, payload)) if (!faulty.has(field.name)) faults.push({ field, fault: "needed", about: {} });
  const entry = {
    id,
    kind: submitter?.dataset?.kind ?? form.dataset.kind,
    form: Number(form.dataset.form || 1),
    happened,
    entered: stamp,
    by: form.dataset.by || by,
    payload: tidied(payload),
  };
  return { entry, faults };
}
