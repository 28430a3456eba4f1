/** On paper: where the safety officer writes what they decided. */
export function SignOff() {
  return (
    <section className="sheet-sign" aria-label="The safety officer's decision">
      {["Permitted, or refused, with which limits", "Safety officer, name", "Date and time", "Signature"].map(
        (line) => (
          <p key={line}>{line}</p>
        ),
      )}
    </section>
  );
}
