/** The sign of Fairthrow: an arm over its frame and the path of what it threw. */
export function Mark({ size = 28 }: { size?: number }) {
  return (
    <svg width={size} height={size} viewBox="0 0 32 32" aria-hidden="true" focusable="false">
      <path d="M8 28 13 15l5 13" fill="none" stroke="currentColor" strokeWidth="2.5" strokeLinejoin="round" />
      <path d="M9 21 21 4" stroke="currentColor" strokeWidth="2.5" strokeLinecap="round" />
      <path d="M4 28h25" stroke="currentColor" strokeWidth="2.5" strokeLinecap="round" />
      <path
        d="M23 6c4 3 6 9 6 16"
        fill="none"
        stroke="var(--harvest)"
        strokeWidth="2"
        strokeDasharray="3 2.5"
      />
      <circle cx="8" cy="21" r="3.4" fill="var(--harvest)" />
    </svg>
  );
}
