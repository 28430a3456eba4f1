/** Gravity at a site: normal gravity of the WGS 84 ellipsoid (NIMA TR8350.2, third edition). */

/** Standard gravity, m/s² (3rd CGPM, 1901): taken where the site is not known. */
export const STANDARD_GRAVITY = 9.80665;

/** NIMA TR8350.2, tables 3.1, 3.3 and 3.4. */
const SEMI_MAJOR_AXIS = 6_378_137; // a, m
const FLATTENING = 1 / 298.257223563; // f
const EQUATOR = 9.7803253359; // γe, m/s²
const SOMIGLIANA = 0.00193185265241; // k
const ECCENTRICITY_SQUARED = 6.69437999014e-3; // e²
const GRAVITY_RATIO = 0.00344978650684; // m = ω²a²b/GM

/**
 * Normal gravity in m/s² at a latitude (degrees) and a height above the ellipsoid (m): Somigliana's formula
 * (TR8350.2 equation 4-1) with the second-order free-air height term (equation 4-3). Throws RangeError on a
 * latitude beyond ±90° or a height beyond ±20 km, where the series is no longer good to a part in 10⁷.
 */
export function normalGravity(latitude: number, height = 0): number {
  if (!(Math.abs(latitude) <= 90)) throw new RangeError("The latitude must lie between −90 and 90 degrees.");
  if (!(Math.abs(height) <= 20_000))
    throw new RangeError("The height must lie within 20 km of the ellipsoid.");
  const sin2 = Math.sin((latitude * Math.PI) / 180) ** 2;
  const onEllipsoid = (EQUATOR * (1 + SOMIGLIANA * sin2)) / Math.sqrt(1 - ECCENTRICITY_SQUARED * sin2);
  const relative = height / SEMI_MAJOR_AXIS;
  return (
    onEllipsoid *
    (1 - 2 * (1 + FLATTENING + GRAVITY_RATIO - 2 * FLATTENING * sin2) * relative + 3 * relative * relative)
  );
}
