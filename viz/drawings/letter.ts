/** Mean width of a letter of a label, px: whether it finds room is reckoned before it is drawn. */
export const LETTER = 7.6;
