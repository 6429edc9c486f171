// A section through a part, as a drawing shows it: outline, hatching at 45 degrees, and its two overall sizes.

const HATCH_MM = 1.8;

/** Return where a plane z = h cuts the triangles, as pieces [x1, y1, x2, y2] in mm. */
function cutAt(body, h) {
  const { points, faces } = body;
  const found = [];
  for (let f = 0; f < faces.length; f += 3) {
    const ends = [];
    for (let k = 0; k < 3; k++) {
      const a = 3 * faces[f + k];
      const b = 3 * faces[f + ((k + 1) % 3)];
      const above = points[a + 2] > h;
      if (above === points[b + 2] > h) continue;
      const t = (h - points[a + 2]) / (points[b + 2] - points[a + 2]);
      ends.push(points[a] + t * (points[b] - points[a]), points[a + 1] + t * (points[b + 1] - points[a + 1]));
    }
    if (ends.length === 4) found.push(ends);
  }
  return found;
}

/** Return the hatching of a section: each line at 45 degrees is inside between its odd and even crossings. */
function hatched(pieces, step) {
  const turned = pieces.map(([x1, y1, x2, y2]) => [x1 + y1, y1 - x1, x2 + y2, y2 - x2]); // along, across, both times the root of 2
  const lines = new Map();
  for (const [u1, v1, u2, v2] of turned) {
    const first = Math.ceil(Math.min(v1, v2) / step);
    const last = Math.floor(Math.max(v1, v2) / step);
    for (let n = first; n <= last; n++) {
      const v = n * step + 1e-7;
      if (v1 > v === v2 > v) continue;
      if (!lines.has(n)) lines.set(n, []);
      lines.get(n).push(u1 + ((v - v1) / (v2 - v1)) * (u2 - u1));
    }
  }
  let path = "";
  for (const [n, crossings] of lines) {
    const v = n * step + 1e-7;
    crossings.sort((a, b) => a - b);
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const [a, b] = [crossings[k], crossings[k + 1]];
      path += `M${((a - v) / 2).toFixed(2)},${(-(a + v) / 2).toFixed(2)}L${((b - v) / 2).toFixed(2)},${(-(b + v) / 2).toFixed(2)}`;
    }
  }
  return path;
}

/** Return a section as SVG; sizes are printed times `grown`, the size tried over the size planned. */
function section(body, h, grown) {
  const pieces = cutAt(body, h);
  const [wide, deep] = body.size_mm;
  const pad = 0.16 * Math.max(wide, deep);
  const text = Math.max(wide, deep) / 22;
  const line = Math.max(wide, deep) / 400;
  const head = `<svg class="cut" viewBox="${-wide / 2 - pad} ${-deep / 2 - pad} ${wide + 2 * pad} ${deep + 2 * pad}" role="img" aria-label="`;
  if (!pieces.length) {
    return `${head}The part has nothing at this height"><text x="0" y="0" font-size="${text}">nothing at this height</text></svg>`;
  }
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  let outline = "";
  for (const [a, b, c, d] of pieces) {
    x0 = Math.min(x0, a, c);
    x1 = Math.max(x1, a, c);
    y0 = Math.min(y0, b, d);
    y1 = Math.max(y1, b, d);
    outline += `M${a.toFixed(2)},${(-b).toFixed(2)}L${c.toFixed(2)},${(-d).toFixed(2)}`;
  }
  const across = fixed((x1 - x0) * grown, 1);
  const along = fixed((y1 - y0) * grown, 1);
  const below = deep / 2 + pad * 0.42;
  const beside = wide / 2 + pad * 0.42;
  const tick = pad * 0.1;
  const step = Math.max(HATCH_MM, Math.max(wide, deep) / 60) * Math.SQRT2;
  return `${head}Section ${fixed(h * grown, 1)} mm above the bed, ${across} by ${along} mm">
<path class="hatch" stroke-width="${line * 0.8}" d="${hatched(pieces, step)}"/><path class="outline" stroke-width="${line * 2}" d="${outline}"/>
<path class="dim" stroke-width="${line}" d="M${x0},${below}H${x1}M${x0},${below - tick}v${2 * tick}M${x1},${below - tick}v${2 * tick}M${beside},${-y1}V${-y0}M${
  beside - tick},${-y1}h${2 * tick}M${beside - tick},${-y0}h${2 * tick}"/>
<text x="${(x0 + x1) / 2}" y="${below + text * 1.3}" font-size="${text}">${across} mm</text>
<text x="${beside + text * 0.5}" y="${-(y0 + y1) / 2}" font-size="${text}" transform="rotate(-90 ${beside + text * 0.9} ${-(y0 + y1) / 2})" dy="${text * 0.9}">${along} mm</text></svg>`;
}
