/** Next.js: its settings, and the headers that every answer carries. */
import { tileHost, tilesOf } from "./lib/launch/tiles.mjs";

const development = process.env.NODE_ENV === "development";

// Next starts its pages with inline scripts, and a nonce would make every page dynamic: so 'unsafe-inline'.
// What people type is never put into a page but as text. Nothing comes from, or goes to, another site, except map
// tiles from the one host that the program was told of. A film that somebody chooses on the device is a blob.
const tiles = tilesOf(process.env);
const contentSecurityPolicy = [
  "default-src 'self'",
  `script-src 'self' 'unsafe-inline'${development ? " 'unsafe-eval'" : ""}`,
  "style-src 'self' 'unsafe-inline'",
  `img-src 'self' data: blob:${tiles ? ` ${tileHost(tiles.url)}` : ""}`,
  "media-src 'self' blob:",
  "connect-src 'self'",
  "worker-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join("; ");

/** @type {import("next").NextConfig} */
export default {
  poweredByHeader: false,
  env: { FAIRTHROW_TILES: JSON.stringify(tiles) },
  agentRules: false, // next dev writes no notes of its own into the repository
  devIndicators: false,
  // Title and icon stand in the head of the first answer: streamed after the page, Chromium may ask for
  // /favicon.ico before it has seen the icon's link.
  htmlLimitedBots: /.*/,
  images: { unoptimized: true },
  experimental: { authInterrupts: true }, // forbidden() answers 403 with app/forbidden.tsx
  // Native code, WebAssembly found by path, or a pool that must exist once: loaded by Node, not bundled.
  serverExternalPackages: [
    "@libsql/client",
    "@prisma/adapter-libsql",
    "@prisma/adapter-pg",
    "@prisma/client",
    "libsql",
    "pg",
    "sharp",
  ],
  // `npm test` type-checks everything; the first start on a small machine need not do it again.
  typescript: { ignoreBuildErrors: true },
  headers: async () => [
    {
      source: "/:path*",
      headers: [
        { key: "Content-Security-Policy", value: contentSecurityPolicy },
        { key: "X-Content-Type-Options", value: "nosniff" },
        { key: "Referrer-Policy", value: "same-origin" },
        {
          key: "Permissions-Policy",
          value: "geolocation=(self), camera=(self), microphone=(), payment=(), usb=()",
        },
        { key: "Cross-Origin-Opener-Policy", value: "same-origin" },
      ],
    },
  ],
};
