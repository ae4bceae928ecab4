/**
 * Exact sizes of US customary units in SI, for relations that were published in them.
 * Source: international yard and pound agreement of 1959, which defines the foot and the pound exactly.
 */

/** kg */
export const POUND = 0.45359237;
/** m */
export const INCH = 0.0254;
/** m */
export const FOOT = 0.3048;
/** kg, the short ton of 2,000 lb */
export const US_TON = 2000 * POUND;
/** kg/m3 */
export const LB_PER_FT3 = POUND / (FOOT * FOOT * FOOT);
