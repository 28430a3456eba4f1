/** What can happen to a range. `at`: the server's time, ms, when it is told. */
import type { MachineState, Times } from "./state";

export type RangeEvent = { at: number } & (
  | { do: "hold"; id: string; pressedAt: number; by: string | null; why: string }
  /** `holds`: those that whoever lifts has seen. */
  | { do: "lift"; holds: readonly string[] }
  /** `turn`: the one that the phone showed. */
  | { do: "clear"; post: string; turn: number; phone: string; left: boolean }
  | { do: "not-clear"; post: string; by: string }
  | { do: "tick"; machineId: string; version: string; key: string; done: boolean; turn: number }
  /** `already`: they are out there whatever the range is. */
  | { do: "tag-out"; tag: string; already: boolean }
  | { do: "tag-in"; tag: string }
  /** `step`: the one that the chief's phone showed. */
  | { do: "machine"; machineId: string; to: MachineState; step: number }
  | { do: "approach"; machineId: string; tag: string; step: number }
  | { do: "hot"; id: string; machineId: string; turn: number }
  | { do: "cold"; hot: string }
  | { do: "beat-hot"; hot: string }
  | { do: "beat-post"; post: string; phone: string }
  | { do: "times"; times: Times }
  /** Nothing but time. */
  | { do: "look" }
);
