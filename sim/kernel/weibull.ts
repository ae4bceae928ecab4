/**
 * Logarithm of the gamma function for x > 0, about 14 digits: Stirling's series (Abramowitz & Stegun 1964, 6.1.41), with
 * ln G(x) = ln G(x + n) - ln(x (x + 1) ... (x + n - 1)) used to reach arguments where seven terms are enough.
 */
export function logGamma(x: number): number {
  let product = 1;
  while (x < 12) {
    product *= x;
    x += 1;
  }
  const s = 1 / x ** 2;
  const series = (1 / 12 - s * (1 / 360 - s * (1 / 1260 - s * (1 / 1680 - s * (1 / 1188 - s * (691 / 360360 - s / 156)))))) / x;
  return (x - 0.5) * Math.log(x) - x + 0.5 * Math.log(2 * Math.PI) + series - Math.log(product);
}

/** ln(1 + cv^2) of a Weibull distribution with this shape: ln(G(1 + 2/k) / G(1 + 1/k)^2). */
function logMoments(shape: number): number {
  return logGamma(1 + 2 / shape) - 2 * logGamma(1 + 1 / shape);
}

/** The Weibull shape parameter with this coefficient of variation, by bisection of its logarithm: cv falls as the shape rises. */
export function weibullShape(cv: number): number {
  const wanted = Math.log1p(cv ** 2);
  let low = Math.log(0.05);
  let high = Math.log(2 / Math.min(cv, 1));
  for (let i = 0; i < 100; i += 1) {
    const middle = (low + high) / 2;
    if (logMoments(Math.exp(middle)) > wanted) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

/** The scale that makes the mean 1. */
export function weibullScale(shape: number): number {
  return Math.exp(-logGamma(1 + 1 / shape));
}
