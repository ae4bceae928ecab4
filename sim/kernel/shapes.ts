/** Relative distributions: a factor with mean 1. `cv` is the coefficient of variation of the factor. */
export type Shape =
  | { readonly kind: "fixed" }
  | { readonly kind: "exponential" }
  | { readonly kind: "lognormal" | "gamma" | "weibull" | "normal" | "uniform"; readonly cv: number }
  | { readonly kind: "erlang"; readonly stages: number }
  | { readonly kind: "triangular"; readonly low: number; readonly mode: number; readonly high: number };
