// Rows and boxes that grow: as soon as something stands in the last one, an empty one follows.

const FIELDS = "input, select";
const inputs = (part) => (part.matches(FIELDS) ? [part] : Array.from(part.querySelectorAll(FIELDS)));

function emptied(last) {
  const next = last.cloneNode(true);
  const step = (name) => name.replace(/\.(\d+)\./, (_whole, number) => `.${Number(number) + 1}.`);
  for (const field of inputs(next)) {
    field.name = step(field.name);
    if (field.type !== "hidden") field.value = "";
    field.removeAttribute("aria-invalid");
    field.removeAttribute("required");
  }
  for (const named of [next, ...next.querySelectorAll("*")]) {
    if (named.id) named.id = `${named.id}-n`;
    if (named.htmlFor) named.htmlFor = `${named.htmlFor}-n`;
    if (named.dataset.errorFor) {
      named.dataset.errorFor = step(named.dataset.errorFor);
      named.textContent = "";
    }
  }
  const boxes = inputs(next);
  if (boxes.length === 1) boxes[0].setAttribute("aria-label", (boxes[0].getAttribute("aria-label") ?? "").replace(/\d+$/, (number) => Number(number) + 1));
  return next;
}

export function grow(list) {
  const last = list.lastElementChild;
  if (!last || list.childElementCount >= 40) return null;
  const next = emptied(last);
  list.append(next);
  return next;
}

export function startGrowing() {
  document.addEventListener("input", ({ target }) => {
    const list = target.closest?.("[data-grows]");
    if (list && list.lastElementChild.contains(target) && target.value.trim()) grow(list);
  });
  // Enter goes on to the next box, as the key of a phone's number pad does; in an empty box it sends the form.
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !event.target.matches?.("[data-grows] input[data-numbers]") || !event.target.value.trim()) return;
    const boxes = inputs(event.target.closest("[data-grows]"));
    const next = boxes[boxes.indexOf(event.target) + 1];
    if (!next) return;
    event.preventDefault();
    next.focus();
  });
  // A cleared form goes back to the boxes it began with.
  document.addEventListener("reset", ({ target }) => {
    for (const list of target.querySelectorAll("[data-grows]")) {
      while (list.childElementCount > Number(list.dataset.grows)) list.lastElementChild.remove();
    }
  });
}
