"use client";
/** Takes something off the map, or brings it back; it stays in the record either way. */
import { WriteForm } from "@/app/_ui/write/write-form";

export function Retire({
  url,
  name,
  retired,
  meaning,
}: {
  url: string;
  name: string;
  retired: boolean;
  /** What being retired means here. */
  meaning: string;
}) {
  return (
    <WriteForm
      label={`${retired ? "Bring back" : "Retire"} ${name}`}
      method="PATCH"
      url={url}
      body={() => ({ retired: !retired })}
      submit={retired ? "Bring back" : "Retire"}
      look="plain"
    >
      {() => (retired ? <p>{meaning}</p> : null)}
    </WriteForm>
  );
}
