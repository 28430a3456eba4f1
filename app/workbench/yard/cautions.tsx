/** What a yard lacks that a contest has, and what must be done before anything is raised. */
import { Caution } from "@/app/_ui/caution";

export function YardCautions({ decides }: { decides: string }) {
  return (
    <Caution kind="mandatory" title="before anything is raised">
      <p>
        {decides ? (
          <>
            Here decides: <strong>{decides}</strong>, who throws nothing and whose no counts at once.
          </>
        ) : (
          <>
            <strong>Nobody is named who decides.</strong> A practice yard has no safety officer of a contest:
            name somebody below who throws nothing and whose no counts at once.
          </>
        )}{" "}
        Local codes and licensed practice come before everything on this page.
      </p>
      <ul>
        <li>The landowner, and whoever farms or rents the ground, has consented in writing.</li>
        <li>Local rules are known: what may be thrown, noise, the sky above, the neighbours told.</li>
        <li>
          Nobody is downrange, nor behind the machine, from raising until it is made safe. A horn sounds
          before each throw, and a look-out sees the whole zone and can stop everything.
        </li>
        <li>Every overhead line is laid out on the map. A zone that reaches one is a conflict, always.</li>
      </ul>
    </Caution>
  );
}
