"use client";
/** The machine as it stands on the team's workbench, by the link that the workbench makes, with the STOP of its throws. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { readAddress } from "@/app/_ui/machine-form/form/link";
import type { FormState } from "@/app/_ui/machine-form/form/state";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { carriedOutOfLink } from "@/app/workbench/alarm/carried";
import { carriedText } from "@/app/workbench/alarm/words";
import { LONGEST_NOTE } from "@/lib/api/contracts";
import { noteWithStop } from "@/lib/inspection";

export function FromWorkbench({
  system,
  onTaken,
}: {
  system: UnitSystem;
  onTaken: (form: FormState, note: string) => void;
}) {
  const [address, setAddress] = useState("");
  const [wrong, setWrong] = useState<string | null>(null);
  const [taken, setTaken] = useState(false);
  const take = () => {
    const read = machineBehind(address.trim(), system);
    setTaken(typeof read === "object");
    setWrong(typeof read === "object" ? null : read);
    if (typeof read !== "object") return;
    onTaken(read.form, read.note);
    setAddress("");
  };
  return (
    <details>
      <summary>It is on the workbench already</summary>
      <TextField
        id="entry-workbench-link"
        label="Its link"
        help="On the workbench, page Share: copy the link, and paste it here. Its numbers take the place of those below."
        inputMode="url"
        value={address}
        onChange={(event) => setAddress(event.target.value)}
        error={wrong}
      />
      <Button onClick={take}>Take its numbers</Button>
      <p role="status">{taken && "Its numbers stand below: look through them once more."}</p>
    </details>
  );
}

/** What a link holds, or why it is not taken, in a sentence. */
function machineBehind(address: string, system: UnitSystem): { form: FormState; note: string } | string {
  if (!URL.canParse(address)) return "This is no link: copy all of it on the workbench’s page Share.";
  const link = readAddress(new URL(address), system);
  if (link.state === "none") return "This link holds no machine: copy the one on the workbench’s page Share.";
  if (link.state === "refused") return `The link was not taken. ${link.why}`;
  const stops = (link.stops ?? []).map((each) => carriedText(carriedOutOfLink(each), "metric"));
  return { form: link.form, note: noteWithStop(stops, "From the workbench", LONGEST_NOTE) };
}
