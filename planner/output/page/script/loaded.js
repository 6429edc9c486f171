// A part under its load: the share of the low strength on pieces of its faces, its weakest places, and how it bends.

// viridis (Smith & van der Walt 2015) at seven even steps, dark for little; the words in the legend say the same.
const SHARES = ["#440154", "#443983", "#31688e", "#21918c", "#35b779", "#90d743", "#fde725"];
const CUT_CODE = 253;
const WEAK_HUE = 0xff5a1f;
const edgesOf = () => byId("share-legend").dataset.edges.split(" ").map(Number);

/** Unfold the stream of a part once: corners of all pieces, and the level of each (0 where nothing is told). */
function unfoldedFaces(body) {
  if (body.pieces || !body.loaded?.stream || !body.mesh) return body.pieces ?? null;
  const stream = bytes(body.loaded.stream, Uint8Array);
  const corners = [];
  const levels = [];
  let at = 0;
  const piece = (ends) => {
    const code = stream[at++];
    if (code < CUT_CODE) {
      for (const end of ends) corners.push(...end);
      levels.push(code);
      return;
    }
    const side = code - CUT_CODE;
    const after = (side + 1) % 3;
    const middle = ends[side].map((x, k) => (x + ends[after][k]) / 2);
    piece(ends.with(after, middle));
    piece(ends.with(side, middle));
  };
  const corner = (k) => [...body.points.subarray(3 * body.faces[k], 3 * body.faces[k] + 3)];
  for (let f = 0; f < body.faces.length; f += 3) piece([corner(f), corner(f + 1), corner(f + 2)]);
  body.pieces = { corners: new Float32Array(corners), levels };
  return body.pieces;
}

/** Return how many times the share at the planned size counts at the size tried: as its finding says. */
function shareTimes(body, percent) {
  const { feature, percent: plannedShare } = body.loaded;
  const mine = (f) => f.rule === "strength.beam" && f.part === body.name && f.feature === feature;
  body.rule ??= live.rules.find((rule) => mine(answer(rule, planned / 100)));
  return body.rule && plannedShare ? answer(body.rule, percent / 100).measured / plannedShare : 1;
}

/** Return a piece's share in percent, or null where it is not told. */
const shareOf = (body, piece, times) => (body.pieces.levels[piece] ? (body.pieces.levels[piece] - 1) * body.loaded.step_percent * times : null);

/** Return the colour of a share. */
function shareHue(share) {
  if (share === null) return NONE;
  const band = edgesOf().findIndex((edge) => share <= edge);
  return SHARES[band < 0 ? SHARES.length - 1 : band];
}

/** Return what is to be said of a piece. */
function shareSaid(body, piece, times) {
  const share = shareOf(body, piece, times);
  return share === null ? "no figure here" : `here: ${fixed(share, 0)} % of the low strength`;
}

/** Return what is to be said of the whole part. */
function shareSaidOfAll(body, times) {
  const { loaded } = body;
  if (!loaded) return `${body.name} carries no load by its duty, so it was not screened.`;
  if (loaded.percent === null) return `Not known: ${loaded.unknown}.`;
  return `weakest: ${fixed(loaded.percent * times, 0)} % of the low strength, under ${loaded.said}. ${loaded.colours_said}`;
}

/** Return the list of weakest places and of the weakest section. */
function weakRows(body, times) {
  const { places = [], section = null } = body.loaded ?? {};
  const rows = places.map((one, k) => `<li><b>${k + 1}</b> ${fixed(one.percent * times, 0)} %</li>`);
  if (section) rows.push(`<li><b>S</b> weakest section by beam formulas, outlined: ${fixed(section.percent * times, 0)} %</li>`);
  return rows.join("");
}

/** Return the shift in mm at size of a place under the load. */
function bentBy(bend, x, y, z) {
  const own = [x, y, z].map((v, k) => (v - bend.middle[k]) / bend.half);
  const shift = [0, 0, 0];
  for (let t = 0; 3 * t < bend.powers.length; t++) {
    let term = 1;
    for (let k = 0; k < 3; k++) term *= own[k] ** bend.powers[3 * t + k];
    for (let k = 0; k < 3; k++) shift[k] += term * bend.amounts[3 * t + k];
  }
  return shift;
}

/** Move the corners of all pieces as the load bends the part, so many times too large. */
function bent(body, position, times) {
  const { corners } = body.pieces;
  for (let k = 0; k < corners.length; k += 3) {
    const shift = times ? bentBy(body.loaded.bend, corners[k], corners[k + 1], corners[k + 2]) : [0, 0, 0];
    position.setXYZ(k / 3, corners[k] + times * shift[0], corners[k + 1] + times * shift[1], corners[k + 2] + times * shift[2]);
  }
  position.needsUpdate = true;
}

/** Say how large the bend is drawn. */
function bendSaid(bend, times, grown) {
  const truly = `${general(bend.most_mm / grown, 2)} mm`;
  if (!times) return `without load; true bend ${truly}`;
  if (times <= 1) return times === 1 ? `true to size: ${truly}` : `drawn at ${general(100 * times, 3)} % of the true ${truly}`;
  return `drawn ${general(times, 3)} times too large; true ${truly}`;
}
