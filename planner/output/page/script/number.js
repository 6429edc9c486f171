// Numbers printed as Python prints them, so that the page and the command line read the same.

/** Return |x| with d decimals; a tie goes to the even digit, as Python's format does. */
function fixed(x, d) {
  const size = Math.abs(x);
  const exact = size.toFixed(d + 60);
  let text = size.toFixed(d);
  if (/^50*$/.test(exact.slice(-60))) {
    const whole = exact.slice(0, -60).replace(/\.$/, "");
    if (Number(whole[whole.length - 1]) % 2 === 0) text = whole;
  }
  return (x < 0 || Object.is(x, -0) ? "-" : "") + text;
}

/** Return x with p significant digits and no idle zeros, as Python's "g" does. */
function general(x, p) {
  if (x === 0) return Object.is(x, -0) ? "-0" : "0";
  const [digits, power] = x.toExponential(p - 1).split("e");
  const e = Number(power);
  const bare = (text) => (text.includes(".") ? text.replace(/\.?0+$/, "") : text);
  if (e < -4 || e >= p) return `${bare(digits)}e${e < 0 ? "-" : "+"}${String(Math.abs(e)).padStart(2, "0")}`;
  return bare(fixed(x, p - 1 - e));
}

/** Return x printed by one of the formats .2f, .4g, g, or r (as a plain number). */
function printed(x, spec) {
  if (spec.endsWith("f")) return fixed(x, Number(spec.slice(1, -1)));
  if (spec.endsWith("g")) return general(x, spec.length > 1 ? Math.max(1, Number(spec.slice(1, -1))) : 6);
  return Number.isInteger(x) ? `${x}.0` : String(x);
}

/** Return what a sum in postfix comes to at a scale. */
function summed(code, s) {
  const stack = [];
  for (const step of code) {
    if (typeof step === "number") stack.push(step);
    else if (step === "s") stack.push(s);
    else {
      const right = stack.pop();
      const left = stack.pop();
      if (step === "+") stack.push(left + right);
      else if (step === "-") stack.push(left - right);
      else if (step === "*") stack.push(left * right);
      else if (step === "/") stack.push(left / right);
      else if (step === "^") stack.push(right === 2 ? left * left : left ** right);
    }
  }
  return stack[0];
}

/** Return one field of an answer as it reads at a scale. */
function field(given, s) {
  if (Array.isArray(given)) {
    return given.map((piece) => (typeof piece === "string" ? piece : printed(summed(piece[0], s), piece[1]))).join("");
  }
  return given !== null && typeof given === "object" ? summed(given.v, s) : given;
}

/** Return answers with every piece whole: what a piece leaves out is as in the piece before, {t: n} is said[n]. */
function unfolded(answers, said) {
  const read = (fields) =>
    Object.fromEntries(Object.entries(fields).map(([key, value]) => [key, value !== null && typeof value === "object" && "t" in value ? said[value.t] : value]));
  return answers.map(({ same, pieces }) => {
    let now = read(same);
    return pieces.map(([to, changed]) => [to, (now = { ...now, ...read(changed) })]);
  });
}

/** Return an answer at a scale, from the piece that holds there. */
function answer(pieces, s) {
  let low = 0;
  let high = pieces.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (s <= pieces[middle][0]) high = middle;
    else low = middle + 1;
  }
  return Object.fromEntries(Object.entries(pieces[low][1]).map(([key, value]) => [key, field(value, s)]));
}
