// Time series drawn from the very table that stands under the chart, so that picture and figures cannot differ.
import uPlot from "uplot";
import { language } from "./words.js";

const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
const DASHES = [[], [8, 4], [2, 3], [10, 3, 2, 3]];
const MAX_LINES = 4;

function read(table) {
  const heads = Array.from(table.tHead.rows[0].cells).slice(1);
  const rows = Array.from(table.tBodies[0].rows);
  const times = rows.map((row) => Date.parse(row.querySelector("time").dateTime) / 1000);
  const lines = heads.slice(0, MAX_LINES).map((head, index) => ({
    label: head.dataset.name ?? head.textContent.trim(),
    unit: head.dataset.unit ?? "",
    stepped: "stepped" in head.dataset,
    values: rows.map((row) => {
      const { value } = row.cells[index + 1].dataset;
      return value === undefined || value === "" ? null : Number(value);
    }),
  }));
  return { times, lines };
}

function clock(zone, speech) {
  const hour = new Intl.DateTimeFormat(speech, { timeZone: zone, hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
  const day = new Intl.DateTimeFormat(speech, { timeZone: zone, weekday: "short", day: "numeric", month: "short" });
  const month = new Intl.DateTimeFormat(speech, { timeZone: zone, day: "numeric", month: "short" });
  return (_plot, splits, _axis, _space, step) => {
    let last = "";
    return splits.map((second) => {
      const date = new Date(second * 1000);
      if (step >= 86_400 * 7) return month.format(date);
      const today = day.format(date);
      if (step >= 86_400) return today;
      const text = today === last ? hour.format(date) : `${hour.format(date)}\n${today}`;
      last = today;
      return text;
    });
  };
}

function options(figure, { lines }, width, height) {
  const zone = figure.dataset.zone || undefined;
  const units = [...new Set(lines.map((line) => line.unit))];
  const grid = { stroke: colour("--line"), width: 1 };
  const axis = { stroke: colour("--ink"), grid, ticks: { stroke: colour("--edge") }, font: "14px system-ui, sans-serif" };
  return {
    width,
    height,
    tzDate: (second) => (zone ? uPlot.tzDate(new Date(second * 1000), zone) : new Date(second * 1000)),
    legend: { show: false },
    cursor: { drag: { x: false, y: false } },
    scales: Object.fromEntries([["x", { time: true }], ...units.map((unit) => [unit, {}])]),
    axes: [
      { ...axis, values: clock(zone, language()), size: 56, space: 70 },
      ...units.map((unit, index) => ({
        ...axis,
        scale: unit,
        side: index === 0 ? 3 : 1,
        grid: index === 0 ? grid : { show: false },
        label: unit,
        labelFont: "14px system-ui, sans-serif",
        labelSize: 22,
        size: 52,
      })),
    ],
    series: [
      {},
      ...lines.map((line, index) => ({
        label: line.label,
        scale: line.unit,
        stroke: colour(`--line-${index + 1}`),
        width: 2,
        dash: DASHES[index],
        points: { show: false },
        paths: line.stepped ? uPlot.paths.stepped({ align: 1 }) : undefined,
      })),
    ],
  };
}

function legend(figure, lines) {
  const space = "http://www.w3.org/2000/svg";
  const list = document.createElement("ul");
  list.className = "chart-legend";
  lines.forEach((line, index) => {
    const item = document.createElement("li");
    const picture = document.createElementNS(space, "svg");
    picture.setAttribute("viewBox", "0 0 32 12");
    picture.setAttribute("aria-hidden", "true");
    const stroke = document.createElementNS(space, "line");
    const attributes = { x1: 0, x2: 32, y1: 6, y2: 6, "stroke-width": 3, stroke: colour(`--line-${index + 1}`), "stroke-dasharray": DASHES[index].join(" ") };
    for (const [name, value] of Object.entries(attributes)) stroke.setAttribute(name, value);
    picture.append(stroke);
    item.append(picture, line.unit ? `${line.label} (${line.unit})` : line.label);
    list.append(item);
  });
  figure.querySelector(".chart-legend")?.remove();
  figure.querySelector(".chart-plot").before(list);
}

function draw(figure) {
  const place = figure.querySelector(".chart-plot");
  const table = figure.querySelector("table");
  if (!place || !table?.tHead) return;
  const data = read(table);
  figure.dataset.drawn = "";
  place.setAttribute("aria-hidden", "true");
  place.replaceChildren();
  legend(figure, data.lines);
  const height = 288;
  const plot = new uPlot(options(figure, data, place.clientWidth, height), [data.times, ...data.lines.map((line) => line.values)], place);
  figure.sizing?.disconnect();
  figure.sizing = new ResizeObserver(() => {
    if (place.clientWidth && place.clientWidth !== plot.width) plot.setSize({ width: place.clientWidth, height });
  });
  figure.sizing.observe(place);
}

const drawAll = (within) => within.querySelectorAll("figure.chart[data-series]").forEach(draw);

drawAll(document);
document.addEventListener("woodreeve:theme", () => drawAll(document));
document.addEventListener("htmx:afterSettle", (event) => drawAll(event.target.parentElement ?? document));
