// Draws the icon: the end of a split log, its growth rings, one drying crack and the bark. Run by `npm run icon`; PNGs by `npm run icon-png`.
import { writeFileSync } from "node:fs";

const PITH = { x: 108, y: 408 };
const REACH = 300;
const FROM = 0;
const TO = 96;
// Ring radii as shares of the reach: wide in the young tree, closer as it was crowded, wide again after a thinning.
const RINGS = [0.13, 0.25, 0.36, 0.46, 0.55, 0.62, 0.68, 0.735, 0.81, 0.895];

const at = (radius, degrees) => {
  const wobble = 1 + 0.012 * Math.sin((degrees * Math.PI) / 24) + 0.008 * Math.sin((degrees * Math.PI) / 11);
  const angle = (degrees * Math.PI) / 180;
  return `${(PITH.x + radius * wobble * Math.cos(angle)).toFixed(1)} ${(PITH.y - radius * wobble * Math.sin(angle)).toFixed(1)}`;
};
const arc = (radius, from = FROM, to = TO) => {
  const points = [];
  for (let degrees = from; degrees <= to; degrees += 2) points.push(at(radius, degrees));
  return `M${points.join("L")}`;
};

function drawing(corner, scale) {
  const shift = (256 * (1 - scale)).toFixed(1);
  const rings = RINGS.map((share, index) => `<path d="${arc(REACH * share)}" stroke-width="${index % 3 === 2 ? 11 : 7}"/>`).join("\n    ");
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512">
  <rect width="512" height="512" rx="${corner}" fill="#33432d"/>
  <g transform="translate(${shift} ${shift}) scale(${scale})" stroke-linejoin="round" stroke-linecap="butt">
    <path d="M${PITH.x} ${PITH.y}L${arc(REACH).slice(1)}Z" fill="#e6c492" stroke="#e6c492" stroke-width="6"/>
    <g fill="none" stroke="#a8723c">
    ${rings}
    </g>
    <path d="M${at(REACH * 0.3, 52)}L${at(REACH * 0.96, 47)}L${at(REACH * 0.96, 50.5)}Z" fill="#4a2f1b"/>
    <path d="${arc(REACH * 1.03, -1, 97)}" fill="none" stroke="#7a5232" stroke-width="40"/>
  </g>
</svg>
`;
}

writeFileSync("assets/icon.svg", drawing(88, 1));
writeFileSync("assets/icon-maskable.svg", drawing(0, 0.8));
