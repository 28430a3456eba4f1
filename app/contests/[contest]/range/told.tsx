"use client";
/** Buttons that tell the range something, with what came of it. */
import type { ReactNode } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import type { Method } from "@/app/_ui/write/send";
import { useWrite } from "@/app/_ui/write/use-write";
import type { RangeBrief } from "@/lib/api/contracts";

export function useTell(slug: string, onDone: () => void) {
  const { write, sending, trouble, problem } = useWrite<RangeBrief>();
  const tell = async (method: Method, path: string, body: unknown = {}) => {
    const sent = await write(method, `/api/v1/contests/${slug}/range${path}`, body);
    onDone();
    return sent;
  };
  const because = (problem as { because?: string[] } | null)?.because ?? [];
  const said: ReactNode = trouble && (
    <Notice kind="problem">{because.length > 1 ? <List lines={because} /> : <p>{trouble}</p>}</Notice>
  );
  return { tell, sending, said };
}

const List = ({ lines }: { lines: readonly string[] }) => (
  <ul>
    {lines.map((line) => (
      <li key={line}>{line}</li>
    ))}
  </ul>
);

/** As large as a gloved thumb wants it. */
export function BigButton({
  children,
  look,
  onPress,
  busy,
}: {
  children: ReactNode;
  look?: "main" | "plain";
  onPress: () => void;
  busy?: boolean;
}) {
  return (
    <Button
      wide
      look={look ?? "plain"}
      className="button-big"
      aria-disabled={busy || undefined}
      onClick={() => !busy && onPress()}
    >
      {children}
    </Button>
  );
}
