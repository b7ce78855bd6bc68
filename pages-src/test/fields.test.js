import assert from "node:assert/strict";
import { test } from "node:test";
import { entryFrom } from "../js/queue/entry.js";
import { readField, writeField } from "../js/queue/fields.js";
import { tidied } from "../js/queue/paths.js";

const field = (name, value, extra = {}) => ({ name, value, type: "text", dataset: {}, required: false, disabled: false, ...extra });
const payload = (elements, options = {}) => entryFrom({ elements, dataset: { kind: "measured" } }, options);
const numbers = { numbers: "", min: "0", max: "250", unit: "%" };
const number = (name, value, more = {}) => field(name, value, { dataset: { number: "", ...more } });

test("several numbers in one field or in several boxes make one list, in their order", () => {
  assert.deepEqual(payload([field("shown_percent", "18 21,5  24", { dataset: numbers })]).entry.payload, { shown_percent: [18, 21.5, 24] });
  const boxes = ["18", "21.5", "", "24, 25"].map((value) => field("shown_percent", value, { dataset: numbers }));
  assert.deepEqual(payload(boxes).entry.payload, { shown_percent: [18, 21.5, 24, 25] });
});

test("each of several numbers is checked by itself, and the fault names it", () => {
  const bad = field("shown_percent", "18 300", { dataset: numbers });
  assert.deepEqual(payload([bad]).faults, [{ field: bad, fault: "too_large", about: { value: "300", limit: "250 %" } }]);
  assert.deepEqual(payload([field("shown_percent", "18 wet", { dataset: numbers })]).faults[0].about, { value: "wet" });
});

test("a bound that is not itself allowed is told apart", () => {
  assert.equal(payload([number("kg", "0", { above: "0" })]).faults[0].fault, "not_above");
  assert.equal(payload([number("kg", "0.1", { above: "0" })]).entry.payload.kg, 0.1);
});

test("shares are typed in per cent, with comma or point, and make the whole", () => {
  const mix = (text) => readField(field("mix", text, { dataset: { shares: "" } }), ".");
  assert.deepEqual(mix("ash 60, birch 40"), { value: { ash: 0.6, birch: 0.4 } });
  assert.deepEqual(mix("silver birch: 62.5 %; ash 37,5"), { value: { "silver birch": 0.625, ash: 0.375 } });
  assert.deepEqual(mix("ash 60, birch"), { fault: "not_a_share", about: { value: "birch" } });
  assert.deepEqual(mix("ash 60, birch 30"), { fault: "not_whole_mix", about: { value: 90 } });
  assert.deepEqual(mix("ash 50, ash 50"), { fault: "named_twice", about: { value: "ash" } });
  assert.deepEqual(mix("ash 160"), { fault: "not_a_share", about: { value: "ash 160" } });
});

test("a hidden true is true, a choice of yes and no is told only when chosen, texts are parted by commas", () => {
  const { entry } = payload([
    field("void", "true", { type: "hidden", dataset: { true: "" } }),
    field("paid", "no", { type: "select-one", dataset: { yesNo: "" } }),
    field("corrected", "", { type: "select-one", dataset: { yesNo: "" } }),
    field("skipped", "flue, ", { dataset: { texts: "" } }),
    field("nothing_left", "on", { type: "checkbox", checked: false }),
  ]);
  assert.deepEqual(entry.payload, { void: true, paid: false, skipped: ["flue"] });
});

test("a box that must be told even when it is not ticked says so", () => {
  assert.deepEqual(readField(field("x", "on", { type: "checkbox", checked: false, dataset: { false: "" } }), "."), { value: false });
});

test("rows make a list of rows; those nobody filled are dropped, and a list with none is left out", () => {
  const row = (n, length, height) => [number(`rows.${n}.length_m`, length), number(`rows.${n}.height_m`, height, { neededInRow: "" })];
  assert.deepEqual(payload([...row(0, "", ""), ...row(1, "2.5", "1,2"), ...row(2, "", "")]).entry.payload, { rows: [{ length_m: 2.5, height_m: 1.2 }] });
  assert.deepEqual(payload([...row(0, "", ""), ...row(1, "", "")]).entry.payload, {});
});

test("a row that was begun must be filled", () => {
  const height = number("rows.0.height_m", "", { neededInRow: "" });
  const { faults } = payload([number("rows.0.length_m", "3"), height, number("rows.1.height_m", "", { neededInRow: "" })]);
  assert.deepEqual(faults, [{ field: height, fault: "needed", about: {} }]);
});

test("rows nest under a correction's payload, whose own date is no moment of the entry", () => {
  const { entry } = entryFrom(
    {
      elements: [
        field("target", "abc", { type: "hidden" }),
        number("payload.rows.0.length_m", "3"),
        field("happened", "2027-01-14T18:30", { type: "datetime-local", dataset: { payload: "" } }),
      ],
      dataset: { kind: "correction", now: "2027-02-01T10:00:00+00:00" },
    },
  );
  assert.equal(entry.happened, "2027-02-01T10:00:00+00:00");
  assert.equal(entry.payload.happened.slice(0, 16), "2027-01-14T18:30");
  assert.deepEqual(entry.payload.payload, { rows: [{ length_m: 3 }] });
});

test("a choice of names needs one, chosen or typed beside it", () => {
  const radio = (value, checked) => field("place", value, { type: "radio", checked, required: true });
  const other = (value) => field("place", value);
  assert.equal(payload([radio("gable", true), radio("stream", false), other("")]).entry.payload.place, "gable");
  assert.equal(payload([radio("gable", false), radio("stream", false), other("new one")]).entry.payload.place, "new one");
  const first = radio("gable", false);
  assert.deepEqual(payload([first, radio("stream", false), other("")]).faults, [{ field: first, fault: "needed", about: {} }]);
});

test("what was read is written back as it was typed", () => {
  const back = (dataset, value, extra = {}) => {
    const one = field("x", "", { dataset, ...extra });
    writeField(one, value, (iso) => iso.slice(0, 16));
    return one;
  };
  assert.equal(back({ shares: "" }, { ash: 0.6, birch: 0.4 }).value, "ash 60, birch 40");
  assert.equal(back({ number: "", divide: "100" }, 0.35).value, "35");
  assert.equal(back({ yesNo: "" }, false).value, "no");
  assert.equal(back({ texts: "" }, ["a", "b"]).value, "a, b");
  assert.equal(back({}, true, { type: "checkbox" }).checked, true);
});

test("values are left alone where they stand inside lists of numbers", () => {
  assert.deepEqual(tidied({ a: [0, false, null], b: [], c: { d: [] } }), { a: [0, false, null], c: {} });
});

test("a tapped number is a number, an empty choice says nothing, and the pressed button may name the kind", () => {
  const tap = (value, checked) => field("count", value, { type: "radio", checked, dataset: { number: "" } });
  const none = field("from_place", "", { type: "radio", checked: true });
  const { entry } = payload([tap("0.5", false), tap("1.5", true), none], { submitter: { name: "", dataset: { kind: "refilled" } } });
  assert.deepEqual(entry.payload, { count: 1.5 });
  assert.equal(entry.kind, "refilled");
});
