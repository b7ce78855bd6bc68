// Where a value stands in the payload: "stack.label" nests, and a step that is a number makes a list, as in "rows.0.length_m".

const isNumber = (step) => /^\d+$/.test(step);

export function place(payload, name, value) {
  const path = name.split(".");
  let here = payload;
  path.slice(0, -1).forEach((step, index) => {
    if (!Object.hasOwn(here, step)) here[step] = isNumber(path[index + 1]) ? [] : {};
    here = here[step];
  });
  here[path.at(-1)] = value;
}

export function valueAt(payload, name) {
  return name.split(".").reduce((here, step) => (here !== null && typeof here === "object" && Object.hasOwn(here, step) ? here[step] : undefined), payload);
}

// The row that a name such as "payload.rows.0.length_m" stands in: "payload.rows.0"; null outside rows.
export function inRow(name) {
  const steps = name.split(".");
  return steps.length > 1 && isNumber(steps.at(-2)) ? steps.slice(0, -1).join(".") : null;
}

// Fields of one name that add to one list: boxes to tick, and boxes for one number each.
export const listed = (field) => "list" in field.dataset || "numbers" in field.dataset || "texts" in field.dataset;

// Rows nobody filled leave holes: they are closed, and a list with nothing in it is left out like any empty field.
export function tidied(value) {
  if (Array.isArray(value)) return value.filter((one) => one !== undefined).map(tidied);
  if (value === null || typeof value !== "object") return value;
  const kept = Object.entries(value).map(([name, inner]) => [name, tidied(inner)]);
  return Object.fromEntries(kept.filter(([, inner]) => !(Array.isArray(inner) && inner.length === 0)));
}
