/** Buttons and links that look like them; every one a gloved thumb wide. */
import Link from "next/link";
import type { ButtonHTMLAttributes, ReactNode } from "react";

type Look = "main" | "plain" | "quiet";

const classes = (look: Look, wide: boolean | undefined, extra = "") =>
  `button button-${look}${wide ? " button-wide" : ""} ${extra}`.trim();

export function Button({
  look = "plain",
  wide,
  className,
  type = "button",
  ...rest
}: ButtonHTMLAttributes<HTMLButtonElement> & { look?: Look; wide?: boolean }) {
  return <button {...rest} type={type} className={classes(look, wide, className)} />;
}

export function ButtonLink({
  href,
  look = "plain",
  wide,
  children,
}: {
  href: string;
  look?: Look;
  wide?: boolean;
  children: ReactNode;
}) {
  return (
    <Link href={href} prefetch={false} className={classes(look, wide)}>
      {children}
    </Link>
  );
}
