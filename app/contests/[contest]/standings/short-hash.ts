/** Characters of a head’s hash: as many as `npm run scorebook:verify` asks for at least. */
export const SHORT_HASH = 16;
