/** Whether a machine's firing permit stands, and every reason why not. */
import { Caution } from "@/app/_ui/caution";
import { LocalTime } from "@/app/_ui/local-time";
import { Notice } from "@/app/_ui/notice";
import type { PermitInfo } from "@/lib/api/contracts";
import { PERMIT_WORDS } from "./words";

export function Standing({ name, permit }: { name: string; permit: PermitInfo | null }) {
  if (permit?.state === "stands")
    return (
      <Notice title={`Firing permit ${permit.number} stands`} live>
        <p>
          For revision {permit.revision} at firing point {permit.firingPointNumber}, within its limits. It
          clears nobody to fire: the range must be hot for this machine.
        </p>
      </Notice>
    );
  return (
    <div role="status">
      <Caution kind="prohibition" title={`fire ${name}`}>
        {permit ? (
          <>
            <p>
              Firing permit {permit.number} <strong>{PERMIT_WORDS[permit.state]}</strong>
              {permit.state === "waits" ? ": it stands again by itself once this is over." : "."}
            </p>
            <Reasons permit={permit} />
          </>
        ) : (
          <p>No firing permit has been signed for it.</p>
        )}
      </Caution>
    </div>
  );
}

export function Reasons({ permit }: { permit: PermitInfo }) {
  return (
    <ul>
      {permit.falls.map(({ cause, text, at }) => (
        <li key={cause}>
          {text}
          {at && (
            <>
              {" "}
              (<LocalTime iso={at} day />)
            </>
          )}
        </li>
      ))}
    </ul>
  );
}
