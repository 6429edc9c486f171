// What the faces of the turning part show: how thick the wall is, or what holds them up while they are printed.

// viridis (Smith & van der Walt 2015) at six even steps, dark for thin; the words in the legend say the same.
const BANDS = [[2, "#440154"], [3, "#414487"], [4, "#2a788e"], [6, "#22a884"], [10, "#7ad151"], [Infinity, "#fde725"]];
const NONE = "#b9b9b4";
const PLAIN = "#c9d2d4";
// Okabe & Ito (2008), by the numbers of the layers' face kinds: free, partly on support, on support, a bridge.
const HELD = [[PLAIN, "needs no support here"], ["#E69F00", "lies partly on support here"], ["#D55E00", "lies on support here"], ["#0072B2", "bridges a gap here"]];

/** Return the wall in mm of a face of a part that has grown, or null. */
const wallOf = (body, face, grown) => (body.walls[face] ? body.walls[face] * body.mesh.wall_step_mm * grown : null);

/** Return the colour of a face for what is to be shown: "walls", "support" or "plain". */
function hueOf(body, face, shown, grown) {
  if (shown === "support") return HELD[body.held[face]][0];
  if (shown !== "walls") return PLAIN;
  const wall = wallOf(body, face, grown);
  return wall === null ? NONE : BANDS.find(([lines]) => wall < lines * body.line_mm)[1];
}

const inLines = (body, wall) => `${fixed(wall, 2)} mm, ${fixed(wall / body.line_mm, 1)} lines of ${general(body.line_mm, 3)} mm`;

/** Return what is to be said of a face. */
function saidOf(body, face, shown, grown) {
  if (shown === "support") return HELD[body.held[face]][1];
  const wall = wallOf(body, face, grown);
  return wall === null ? "no opposite face here" : `wall here: ${inLines(body, wall)}`;
}

/** Return what is to be said of the whole part. */
function saidOfAll(body, shown, grown) {
  if (shown === "support") return body.support;
  if (!body.thinnest) return "no wall was measured";
  const asked = body.wall_limit_mm === null ? "" : `; ${general(body.wall_limit_mm, 3)} mm are needed`;
  return `thinnest wall: ${inLines(body, body.thinnest.mm * grown)}${asked}`;
}
