/** How near to a pole a site may lie. Apart, for contracts that need no more of the zones. */

/** Beyond this latitude straight lines in longitude and latitude bend too much to draw a zone with, degrees. */
export const LARGEST_LATITUDE = 85;
/** Places of a site keep below it, so that what is computed around them does too. */
export const SITE_LATITUDE = 84.9;
export const SITE_LATITUDE_WORDS = `Zones and maps are drawn between −${SITE_LATITUDE} and ${SITE_LATITUDE} degrees of latitude: give a latitude between them.`;
