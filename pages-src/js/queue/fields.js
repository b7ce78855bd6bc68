// One field of a form and its value in the payload, there and back. Every fault names what was typed.
import { parseNumber } from "./numbers.js";

function within(field, value, text) {
  if ("whole" in field.dataset && !Number.isInteger(value)) return { fault: "not_whole", about: { value: text } };
  const { min, max, above } = field.dataset;
  const unit = field.dataset.unit ? ` ${field.dataset.unit}` : "";
  if (min !== undefined && value < Number(min)) return { fault: "too_small", about: { value: text, limit: min + unit } };
  if (above !== undefined && value <= Number(above)) return { fault: "not_above", about: { value: text, limit: above + unit } };
  if (max !== undefined && value > Number(max)) return { fault: "too_large", about: { value: text, limit: max + unit } };
  return null;
}

function readNumber(field, text, decimal) {
  const { value, fault } = parseNumber(text, decimal);
  if (fault) return { fault, about: { value: text } };
  const { divide } = field.dataset;
  return within(field, value, text) ?? { value: divide ? value / Number(divide) : value };
}

// "18 21.5 24" is three numbers; a comma stays a decimal mark unless a space follows it.
function readNumbers(field, decimal) {
  const values = [];
  for (const text of field.value.trim().split(/[\s;]+|,(?=\s)/).filter((one) => one && one !== ",")) {
    const { value, fault, about } = readNumber(field, text.replace(/,$/, ""), decimal);
    if (fault) return { fault, about };
    values.push(value);
  }
  return { value: values };
}

// "ash 60, birch 40" in per cent is {ash: 0.6, birch: 0.4}; together they make the whole.
function readShares(field, decimal) {
  const shares = [];
  for (const part of field.value.split(/[;\n]|,(?!\d)/).map((one) => one.trim()).filter(Boolean)) {
    const [, name, typed] = /^(.*?)[\s:=]+([\d.,]+)\s*%?$/.exec(part) ?? [];
    if (!name) return { fault: "not_a_share", about: { value: part } };
    const { value } = parseNumber(typed, decimal);
    if (value === undefined || value < 0 || value > 100) return { fault: "not_a_share", about: { value: part } };
    if (shares.some(([known]) => known === name)) return { fault: "named_twice", about: { value: name } };
    shares.push([name, value]);
  }
  const together = shares.reduce((sum, [, value]) => sum + value, 0);
  if (Math.abs(together - 100) > 2) return { fault: "not_whole_mix", about: { value: Number(together.toPrecision(6)) } };
  return { value: Object.fromEntries(shares.map(([name, value]) => [name, value / 100])) };
}

// Returns {value}, {fault, about}, or {} where the field says nothing.
export function readField(field, decimal, fromLocalField) {
  const { type, dataset } = field;
  if (type === "checkbox" && "list" in dataset) return { value: field.checked ? [field.value] : [] };
  if (type === "checkbox") return field.checked ? { value: true } : "false" in dataset ? { value: false } : {};
  if (type === "radio" && (!field.checked || field.value === "")) return {};
  if (type === "radio" && !("number" in dataset)) return { value: field.value };
  if (type === "select-multiple") return { value: Array.from(field.selectedOptions, (option) => option.value) };
  if (field.value.trim() === "") return field.required ? { fault: "needed", about: {} } : {};
  if ("true" in dataset) return { value: true };
  if ("yesNo" in dataset) return { value: field.value === "yes" };
  if ("numbers" in dataset) return readNumbers(field, decimal);
  if ("shares" in dataset) return readShares(field, decimal);
  if ("texts" in dataset) return { value: field.value.split(",").map((one) => one.trim()).filter(Boolean) };
  if ("number" in dataset) return readNumber(field, field.value, decimal);
  if (type === "datetime-local") {
    const value = fromLocalField(field.value);
    return value === null ? { fault: "not_a_time", about: { value: field.value } } : { value };
  }
  return { value: type === "textarea" ? field.value.trimEnd() : field.value.trim() };
}

const plain = (number) => String(Number(number.toPrecision(12)));

// Puts a value of the payload back as it was typed.
export function writeField(field, value, toLocalField) {
  const { type, dataset } = field;
  if (type === "checkbox") field.checked = Array.isArray(value) ? value.includes(field.value) : value === true;
  else if (type === "radio") field.checked = field.value === String(value);
  else if (type === "select-multiple") for (const option of field.options) option.selected = value.includes(option.value);
  else if (type === "datetime-local") field.value = toLocalField(value);
  else if (type === "submit" || type === "file") return;
  else if ("yesNo" in dataset) field.value = value ? "yes" : "no";
  else if ("shares" in dataset) field.value = Object.entries(value).map(([name, share]) => `${name} ${plain(100 * share)}`).join(", ");
  else if ("texts" in dataset) field.value = value.join(", ");
  else if (dataset.divide) field.value = plain(value * Number(dataset.divide));
  else field.value = String(value);
}
