import assert from "node:assert/strict";
import { test } from "node:test";
import { decimalMark, parseNumber } from "../js/queue/numbers.js";

const CASES = [
  ["42", ".", 42],
  ["41.5", ".", 41.5],
  ["41,5", ".", 41.5],
  ["41,5", ",", 41.5],
  [" 1 500 ", ".", 1500],
  ["1\u202f500,25", ",", 1500.25],
  ["1,500.25", ".", 1500.25],
  ["1.500,25", ",", 1500.25],
  ["1.234.567", ",", 1234567],
  ["0,125", ".", 0.125],
  ["1.250", ".", 1.25],
  ["1,250", ",", 1.25],
  ["-3.5", ".", -3.5],
  ["\u22123,5", ".", -3.5],
  [".5", ".", 0.5],
  ["12.", ".", 12],
];

for (const [text, decimal, value] of CASES) {
  test(`"${text}" is ${value} where the decimal mark is "${decimal}"`, () => assert.deepEqual(parseNumber(text, decimal), { value }));
}

for (const [text, decimal] of [["1,500", "."], ["1.500", ","]]) {
  test(`"${text}" is asked about, not guessed, where the decimal mark is "${decimal}"`, () => assert.deepEqual(parseNumber(text, decimal), { fault: "which_number" }));
}

for (const text of ["", "abc", "4 kg", "1,2,3", "1.2.3", "1,23,456.7", "1.5,5.5", "--1", "1e3"]) {
  test(`"${text}" is not a number`, () => assert.deepEqual(parseNumber(text, "."), { fault: "not_a_number" }));
}

test("the decimal mark is the page language's own", () => {
  assert.equal(decimalMark("en-GB"), ".");
  assert.equal(decimalMark("de"), ",");
  assert.equal(decimalMark("not a language"), ".");
});
