/** The opening drawing: one throw as meant, the worst ahead, the worst behind, and who stands clear. */
export function HomeDrawing() {
  return (
    <svg
      className="home-drawing"
      viewBox="0 0 760 304"
      role="img"
      aria-label="A throwing machine from the side. A full line shows the throw as meant, a longer dashed one the worst throw ahead, a dotted one the worst throw backwards, over the people behind. Hatched ground is the keep-out zone."
    >
      <defs>
        <pattern
          id="home-hatch"
          width="10"
          height="10"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <rect width="10" height="10" fill="#fbe9e7" />
          <rect width="2.5" height="10" fill="#9b2423" />
        </pattern>
      </defs>
      <rect x="60" y="250" width="680" height="16" fill="url(#home-hatch)" stroke="#9b2423" strokeWidth="2" />
      <path d="M0 250H760" stroke="#1b1813" strokeWidth="2.5" />
      <g fill="none" stroke="#1b1813" strokeWidth="5" strokeLinejoin="round" strokeLinecap="round">
        <path d="M226 250 250 176l24 74" strokeWidth="4" />
        <path d="M262 204 236 96" strokeWidth="6" />
        <path d="M236 96 216 50" strokeWidth="2" />
        <path d="M262 204v20" strokeWidth="2.5" />
      </g>
      <rect x="249" y="222" width="26" height="24" fill="#cfc6b4" stroke="#1b1813" strokeWidth="2.5" />
      <g fill="none" strokeWidth="3">
        <path d="M216 50C330-10 500 60 600 250" stroke="#1b1813" />
        <path d="M216 50C360-40 620 20 716 250" stroke="#7a3a0f" strokeDasharray="11 6" />
        <path d="M216 50C170 20 100 90 84 250" stroke="#7a3a0f" strokeDasharray="2 6" strokeWidth="3.5" />
      </g>
      <circle cx="216" cy="50" r="8" fill="#7a3a0f" stroke="#1b1813" strokeWidth="2" />
      <text x="400" y="294" textAnchor="middle" fontSize="26" fontWeight="700" fill="#9b2423">
        keep out
      </text>
      <g fill="none" stroke="#1b1813" strokeWidth="2.5" strokeLinecap="round">
        <path d="M22 250v-18m0 0v-12m-7 6h14M38 250v-18m0 0v-12m-7 6h14" />
        <circle cx="22" cy="214" r="4.5" />
        <circle cx="38" cy="214" r="4.5" />
      </g>
    </svg>
  );
}
