// Numbers as people type them: comma or point, thousands spaced or not, never guessed when two readings are possible.

const SPACES = /[\s\u00a0\u202f'’]/g;

// Returns {value} or {fault: "not_a_number" | "which_number"}. `decimal` is the page language's own decimal mark.
export function parseNumber(text, decimal = ".") {
  const tight = String(text).trim().replace(/\u2212/g, "-").replace(SPACES, "");
  if (!/^[+-]?[\d.,]*\d[\d.,]*$/.test(tight)) return { fault: "not_a_number" };
  const marks = tight.replace(/[^.,]/g, "");
  if (marks === "") return { value: Number(tight) };
  const last = marks.at(-1);
  const kinds = new Set(marks).size;
  if (marks.length > 1) {
    const grouping = kinds === 1 ? last : marks[0];
    const point = kinds === 2 ? last : null;
    const [whole, ...rest] = point === null ? [tight] : tight.split(point);
    const groups = whole.replace(/^[+-]/, "").split(grouping);
    const grouped = /^\d{1,3}$/.test(groups[0]) && groups.slice(1).every((part) => /^\d{3}$/.test(part));
    if (!grouped || rest.length > 1) return { fault: "not_a_number" };
    return { value: Number(whole.split(grouping).join("") + (point === null ? "" : `.${rest[0]}`)) };
  }
  const [before, after] = tight.replace(/^[+-]/, "").split(last);
  const looksGrouped = /^[1-9]\d{0,2}$/.test(before) && /^\d{3}$/.test(after);
  if (last !== decimal && looksGrouped) return { fault: "which_number" };
  return { value: Number(tight.replace(",", ".")) };
}

export function decimalMark(language) {
  try {
    return new Intl.NumberFormat(language || "en").formatToParts(1.5).find((part) => part.type === "decimal").value;
  } catch {
    return ".";
  }
}
