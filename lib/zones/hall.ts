/** Who can stand where, one machine to a firing point: a matching, or machines that too few firing points are left for. */

/** Of each machine, the firing points (by index) where it can stand. */
export type Choices = readonly (readonly number[])[];

/** Sets of up to this many machines are all tried. */
const ALL_TRIED = 4;

/** Places as many machines as can be, in the given order: of each, its firing point, or -1. */
function matched(choices: Choices, order: readonly number[]): number[] {
  const holder = new Map<number, number>();
  const placed = new Array<number>(choices.length).fill(-1);
  const seat = (machine: number, tried: Set<number>): boolean =>
    (choices[machine] ?? []).some((point) => {
      if (tried.has(point)) return false;
      tried.add(point);
      const other = holder.get(point);
      if (other !== undefined && !seat(other, tried)) return false;
      holder.set(point, machine);
      placed[machine] = point;
      return true;
    });
  for (const machine of order) seat(machine, new Set());
  return placed;
}

/** All machines that compete, directly or through others, for the points that an unplaced one could have. */
function competing(choices: Choices, placed: readonly number[], unplaced: number): number[] {
  const holder = new Map(placed.map((point, machine) => [point, machine]));
  const found = [unplaced];
  for (const machine of found)
    for (const point of choices[machine] ?? []) {
      const other = holder.get(point);
      if (other !== undefined && !found.includes(other)) found.push(other);
    }
  return found.sort((a, b) => a - b);
}

const pointsOf = (choices: Choices, machines: readonly number[]) =>
  new Set(machines.flatMap((machine) => choices[machine] ?? []));

/** The first set of up to four machines with fewer points than machines between them, the smallest first. */
function smallShortage(choices: Choices): number[] | null {
  const search = (size: number, from: number, chosen: number[]): number[] | null => {
    if (chosen.length === size) return pointsOf(choices, chosen).size < size ? chosen : null;
    for (let next = from; next < choices.length; next++) {
      // With as many points as the whole set may not have, a machine is in no such set.
      if ((choices[next] ?? []).length >= size) continue;
      const found = search(size, next + 1, [...chosen, next]);
      if (found) return found;
    }
    return null;
  };
  for (let size = 1; size <= Math.min(ALL_TRIED, choices.length); size++) {
    const found = search(size, 0, []);
    if (found) return found;
  }
  return null;
}

/**
 * Null when every machine can have a firing point of its own; else a set of machines that cannot be placed together,
 * whatever the others do: between them they can stand at fewer points than they are (Hall's theorem). Leave any one of
 * them out and the rest can be placed. It is the smallest such set if that has up to four machines, or if a single
 * machine is left over; else the smallest that one machine after the other, placed last, brings to light.
 */
export function shortage(choices: Choices): number[] | null {
  const machines = [...choices.keys()];
  const placed = matched(choices, machines);
  if (!placed.includes(-1)) return null;
  const small = smallShortage(choices);
  if (small) return small;
  let best = machines;
  for (const last of machines) {
    const order = [...machines.filter((machine) => machine !== last), last];
    const seated = matched(choices, order);
    for (const [machine, point] of seated.entries()) {
      if (point !== -1) continue;
      const found = competing(choices, seated, machine);
      if (found.length < best.length) best = found;
    }
  }
  return best;
}

/**
 * The assignment of least total cost (Hungarian algorithm, shortest augmenting paths): `costs[machine][point]`, infinite
 * where it cannot stand. There must be one: `shortage` says null.
 */
export function cheapest(costs: readonly (readonly number[])[]): number[] {
  const rows = costs.length;
  const columns = costs[0]?.length ?? 0;
  const never = 1e12;
  const rowPrice = new Array<number>(rows + 1).fill(0);
  const columnPrice = new Array<number>(columns + 1).fill(0);
  const holder = new Array<number>(columns + 1).fill(0);
  for (let row = 1; row <= rows; row++) {
    const from = new Array<number>(columns + 1).fill(0);
    const least = new Array<number>(columns + 1).fill(Number.POSITIVE_INFINITY);
    const used = new Array<boolean>(columns + 1).fill(false);
    holder[0] = row;
    let column = 0;
    do {
      used[column] = true;
      const at = holder[column];
      let delta = Number.POSITIVE_INFINITY;
      let next = 0;
      for (let each = 1; each <= columns; each++) {
        if (used[each]) continue;
        const cost = Math.min(costs[at - 1][each - 1], never) - rowPrice[at] - columnPrice[each];
        if (cost < least[each]) {
          least[each] = cost;
          from[each] = column;
        }
        if (least[each] < delta) {
          delta = least[each];
          next = each;
        }
      }
      for (let each = 0; each <= columns; each++) {
        if (used[each]) {
          rowPrice[holder[each]] += delta;
          columnPrice[each] -= delta;
        } else least[each] -= delta;
      }
      column = next;
    } while (holder[column] !== 0);
    while (column !== 0) {
      const before = from[column];
      holder[column] = holder[before];
      column = before;
    }
  }
  const chosen = new Array<number>(rows).fill(-1);
  for (let column = 1; column <= columns; column++)
    if (holder[column] > 0) chosen[holder[column] - 1] = column - 1;
  return chosen;
}
