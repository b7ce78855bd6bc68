// Moments with the offset of the place they were written in.

const two = (n) => String(n).padStart(2, "0");

export function withOffset(date) {
  const ahead = -date.getTimezoneOffset();
  const size = Math.abs(ahead);
  return (
    `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}` +
    `T${two(date.getHours())}:${two(date.getMinutes())}:${two(date.getSeconds())}` +
    `${ahead < 0 ? "-" : "+"}${two(Math.trunc(size / 60))}:${two(size % 60)}`
  );
}

// The value of a datetime-local field, read as local time; null when it is not one.
export function fromLocalField(text) {
  if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?/.test(text)) return null;
  const date = new Date(text);
  return Number.isNaN(date.getTime()) ? null : withOffset(date);
}

export function toLocalField(iso) {
  return withOffset(new Date(iso)).slice(0, 16);
}
