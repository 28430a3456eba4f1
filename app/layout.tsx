import type { Metadata, Viewport } from "next";
import type { ReactNode } from "react";
import "./globals.css";
import "./_ui/ui.css";

export const metadata: Metadata = {
  title: { default: "Fairthrow", template: "%s · Fairthrow" },
  description:
    "How far a home-built throwing machine could throw on its worst day, who must stand clear, and who won.",
  manifest: "/manifest.webmanifest",
  icons: { icon: "/icon.svg", apple: "/apple-touch-icon.png" },
  appleWebApp: { title: "Fairthrow" },
};

export const viewport: Viewport = { themeColor: "#fdfbf5", width: "device-width", initialScale: 1 };

/** Only the document; each section puts its pages in a Shell (app/_ui/shell.tsx) with its own ways on. */
export default function RootLayout({ children }: { children: ReactNode }) {
  return (
    <html lang="en">
      <body>{children}</body>
    </html>
  );
}
