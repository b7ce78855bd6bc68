import assert from "node:assert/strict";
import { test } from "node:test";
import { entryFrom, newId } from "../js/queue/entry.js";
import { fromLocalField, toLocalField, withOffset } from "../js/queue/moments.js";

process.env.TZ = "Europe/London";

const field = (name, value, extra = {}) => ({ name, value, type: "text", dataset: {}, required: false, disabled: false, ...extra });
const form = (elements, dataset = {}) => ({ elements, dataset: { kind: "lit", ...dataset } });
const NOW = new Date("2027-07-01T17:00:00Z");
const read = (elements, dataset, options = {}) => entryFrom(form(elements, dataset), { now: NOW, id: "a".repeat(32), ...options });

test("an id is 128 random bits in hex", () => {
  assert.match(newId(), /^[0-9a-f]{32}$/);
  assert.notEqual(newId(), newId());
});

test("an entry carries kind, form, both moments with the local offset, and by whom", () => {
  const { entry, faults } = read([field("wood_kg", "41,5", { dataset: { number: "" } })], { form: "2" }, { by: "Gwen" });
  assert.deepEqual(faults, []);
  assert.deepEqual(entry, {
    id: "a".repeat(32),
    kind: "lit",
    form: 2,
    happened: "2027-07-01T18:00:00+01:00",
    entered: "2027-07-01T18:00:00+01:00",
    by: "Gwen",
    payload: { wood_kg: 41.5 },
  });
});

test("a given time is read with the offset of that day, not of today", () => {
  const { entry } = read([field("happened", "2027-01-14T18:30", { type: "datetime-local" })]);
  assert.equal(entry.happened, "2027-01-14T18:30:00+00:00");
  assert.equal(entry.entered, "2027-07-01T18:00:00+01:00");
  assert.deepEqual(entry.payload, {});
});

test("the demonstration's own clock stands for now", () => {
  const { entry } = read([], { now: "2027-01-14T17:00:00+00:00" });
  assert.equal(entry.happened, "2027-01-14T17:00:00+00:00");
  assert.equal(entry.entered, "2027-01-14T17:00:00+00:00");
});

test("percent is divided into a fraction without stray digits", () => {
  const { entry } = read([field("moisture", "35", { dataset: { number: "", divide: "100" } })]);
  assert.equal(entry.payload.moisture, 0.35);
});

test("empty fields are left out, a needed one is a fault", () => {
  const needed = field("wood_kg", " ", { required: true, dataset: { number: "" } });
  const { entry, faults } = read([field("remark", ""), needed]);
  assert.deepEqual(entry.payload, {});
  assert.deepEqual(faults, [{ field: needed, fault: "needed", about: {} }]);
});

test("bounds and whole numbers are told with value, limit and unit", () => {
  const data = { number: "", min: "1", max: "120", unit: "kg" };
  assert.deepEqual(read([field("w", "0", { dataset: data })]).faults[0].about, { value: "0", limit: "1 kg" });
  assert.equal(read([field("w", "121", { dataset: data })]).faults[0].fault, "too_large");
  assert.equal(read([field("n", "1.5", { dataset: { number: "", whole: "" } })]).faults[0].fault, "not_whole");
});

test("dotted names nest, lists gather, a box not ticked says nothing, the pressed button counts", () => {
  const box = (name, value, checked, dataset = {}) => field(name, value, { type: "checkbox", checked, dataset });
  const { entry } = read(
    [
      field("stack.label", "Lean-to"),
      field("stack.bay", "2", { dataset: { number: "" } }),
      box("tar", "on", false),
      box("seen", "smoke", true, { list: "" }),
      box("seen", "ash", false, { list: "" }),
      field("went", "well", { type: "radio", checked: true }),
      field("went", "slow", { type: "radio", checked: false }),
      field("note_only", "x", { dataset: { skip: "" } }),
    ],
    {},
    { submitter: { name: "then", value: "more" } },
  );
  assert.deepEqual(entry.payload, { stack: { label: "Lean-to", bay: 2 }, seen: ["smoke"], went: "well", then: "more" });
});

test("a name such as __proto__ stays data", () => {
  read([field("__proto__.polluted", "yes")]);
  assert.equal({}.polluted, undefined);
});

test("local fields and moments turn into each other", () => {
  assert.equal(fromLocalField("2027-01-14T18:30"), "2027-01-14T18:30:00+00:00");
  assert.equal(toLocalField("2027-01-14T18:30:00+00:00"), "2027-01-14T18:30");
  assert.equal(fromLocalField("yesterday"), null);
  assert.equal(withOffset(new Date("2027-07-01T00:00:00Z")), "2027-07-01T01:00:00+01:00");
});
