/** Sizes of units by definition (international yard and pound, 1959), for figures redone by hand. */
export const POUND_KG = 0.45359237;
export const METRE_OF_FOOT = 0.3048;
/** US short ton */
export const TON_KG = 2000 * POUND_KG;
export const SQUARE_METRE_OF_ACRE = 43_560 * METRE_OF_FOOT ** 2;
export const METRE_OF_MILE = 5280 * METRE_OF_FOOT;
export const KG_PER_M3_OF_LB_PER_FT3 = POUND_KG / METRE_OF_FOOT ** 3;
