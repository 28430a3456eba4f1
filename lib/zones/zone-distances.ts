/** How far a zone reaches from its firing point, as everybody who reads of it is told. */

export interface ZoneDistances {
  forward: number;
  backward: number;
  side: number;
}

/**
 * From the firing point, m: the hazard sheet's own distances, which are from the machine, and how far the machine may
 * stand from its firing point.
 */
export const zoneDistances = (
  { forward, backward, side }: Readonly<ZoneDistances>,
  accuracy: number,
): ZoneDistances => ({ forward: forward + accuracy, backward: backward + accuracy, side: side + accuracy });
