// From a filled form to one diary entry: {id, kind, form, happened, entered, by, payload}.
import { decimalMark, parseNumber } from "./numbers.js";
import { fromLocalField, withOffset } from "./moments.js";

export function newId(source = globalThis.crypto) {
  return Array.from(source.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// A dotted name nests: "stack.label" becomes {stack: {label}}.
export function place(payload, name, value) {
  const path = name.split(".");
  let here = payload;
  for (const step of path.slice(0, -1)) {
    if (!Object.hasOwn(here, step)) here[step] = {};
    here = here[step];
  }
  here[path.at(-1)] = value;
}

function readNumber(field, decimal) {
  const text = field.value;
  const { value: typed, fault } = parseNumber(text, decimal);
  if (fault) return { fault, about: { value: text } };
  if ("whole" in field.dataset && !Number.isInteger(typed)) return { fault: "not_whole", about: { value: text } };
  const { min, max, divide } = field.dataset;
  const unit = field.dataset.unit ? ` ${field.dataset.unit}` : "";
  if (min !== undefined && typed < Number(min)) return { fault: "too_small", about: { value: text, limit: min + unit } };
  if (max !== undefined && typed > Number(max)) return { fault: "too_large", about: { value: text, limit: max + unit } };
  return { value: divide ? typed / Number(divide) : typed };
}

function readField(field, decimal) {
  const { type } = field;
  if (type === "checkbox" && "list" in field.dataset) return field.checked ? { value: field.value, list: true } : { list: true };
  if (type === "checkbox") return { value: field.checked };
  if (type === "radio") return field.checked ? { value: field.value } : {};
  if (type === "select-multiple") return { value: Array.from(field.selectedOptions, (option) => option.value) };
  if (field.value.trim() === "") return field.required ? { fault: "needed", about: {} } : {};
  if ("number" in field.dataset) return readNumber(field, decimal);
  if (type === "datetime-local") {
    const value = fromLocalField(field.value);
    return value === null ? { fault: "not_a_time", about: { value: field.value } } : { value };
  }
  return { value: type === "textarea" ? field.value.trimEnd() : field.value.trim() };
}

export function isHappened(field) {
  return field.name === "happened" || "happened" in (field.dataset ?? {});
}

// Returns {entry, faults}; `faults` is a list of {field, fault, about}, empty when the entry can be kept.
export function entryFrom(form, { submitter = null, language = "en", by = "", now = new Date(), id = newId() } = {}) {
  const decimal = decimalMark(language);
  const stamp = form.dataset.now || withOffset(now);
  const payload = {};
  const faults = [];
  let happened = stamp;
  for (const field of form.elements) {
    const named = field.name && !field.disabled && !["submit", "button", "reset", "image", "file", "fieldset"].includes(field.type);
    if (!named || "skip" in (field.dataset ?? {})) continue;
    const { value, fault, about, list } = readField(field, decimal);
    if (fault) faults.push({ field, fault, about });
    else if (isHappened(field)) happened = value ?? stamp;
    else if (list) {
      if (!Array.isArray(payload[field.name])) payload[field.name] = [];
      if (value !== undefined) payload[field.name].push(value);
    } else if (value !== undefined) place(payload, field.name, value);
  }
  if (submitter?.name) place(payload, submitter.name, submitter.value);
  const entry = {
    id,
    kind: form.dataset.kind,
    form: Number(form.dataset.form || 1),
    happened,
    entered: stamp,
    by: form.dataset.by || by,
    payload,
  };
  return { entry, faults };
}
