/** Changes with every change of a result, so that stored sheets can be recalled by it. */
export const CODE_VERSION = "throw-9";
/** Energy at impact above which people are held to be hurt, J: 11 ft·lbf, RCC 321 and 14 CFR 417 (from memory). */
export const INJURY_THRESHOLD = 15;
