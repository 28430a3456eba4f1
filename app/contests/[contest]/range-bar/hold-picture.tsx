/** The sign of a hold, which nothing else here looks like: a flat hand in an octagon, and no colour needed to tell it. */
export function HoldPicture({ size }: { size: number | string }) {
  return (
    <svg viewBox="0 0 100 100" width={size} height={size} aria-hidden="true" focusable="false">
      <path d="M30 2h40l28 28v40L70 98H30L2 70V30Z" fill="#9b2423" stroke="#fff" strokeWidth="4" />
      <path
        d="M36 58V32a4.5 4.5 0 0 1 9 0v14-22a4.5 4.5 0 0 1 9 0v22-18a4.5 4.5 0 0 1 9 0v19-11a4.5 4.5 0 0 1 9 0v26c0 13-8 22-20 22-9 0-14-4-18-12l-9-17a4.6 4.6 0 0 1 8-5Z"
        fill="#fff"
      />
    </svg>
  );
}
