"use client";
/**
 * A form that writes through /api/v1. It keeps what was typed until the server has said yes, puts each complaint
 * at its field, moves to the first of them, and says aloud what was done.
 */
import { useRouter } from "next/navigation";
import { type ReactNode, useEffect, useRef, useState } from "react";
import { Button } from "../button";
import { Notice } from "../notice";
import type { Method } from "./send";
import { useWrite } from "./use-write";
import styles from "./write-form.module.css";

export interface WriteFormProps<T> {
  /** Names the form for those who hear it. */
  label: string;
  method?: Method;
  url: string;
  /** What is sent, made when the button is pressed; a string is a reason not to send yet. */
  body: (form: FormData) => unknown;
  submit: string;
  /** Words for what was done. */
  done?: (answer: T) => ReactNode;
  /** After the server's yes: empty the fields, go elsewhere. */
  onDone?: (answer: T) => void;
  /** Whether the page's own data are fetched anew after a yes. */
  refresh?: boolean;
  look?: "main" | "plain";
  /** Where the browser keeps a try without an answer through a reload. */
  keptAs?: string;
  /** Paths of the body that a field of this form shows; complaints about others stand on top. */
  fields?: readonly string[];
  children: (errorFor: (field: string) => string | null) => ReactNode;
}

export function WriteForm<T>({
  label,
  method = "POST",
  url,
  body,
  submit,
  done,
  onDone,
  refresh = true,
  look = "main",
  keptAs,
  fields = [],
  children,
}: WriteFormProps<T>) {
  const { write, sending, trouble, problem, errorFor } = useWrite<T>(keptAs);
  const [said, setSaid] = useState<ReactNode>(null);
  const [notYet, setNotYet] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const router = useRouter();

  useEffect(() => {
    if (!problem) return;
    form.current?.querySelector<HTMLElement>("[aria-invalid='true']")?.focus();
  }, [problem]);

  const elsewhere = (problem?.errors ?? []).filter(({ field }) => !fields.includes(field));
  return (
    <form
      ref={form}
      aria-label={label}
      // Should it be sent before the page is ready, nothing typed may end up in an address.
      method="post"
      noValidate
      onSubmit={async (event) => {
        event.preventDefault();
        setSaid(null);
        setNotYet(null);
        const content = body(new FormData(event.currentTarget));
        if (typeof content === "string") {
          setNotYet(content);
          return;
        }
        const sent = await write(method, url, content);
        if (!sent.ok) return;
        if (done) setSaid(done(sent.data));
        form.current?.reset();
        onDone?.(sent.data);
        if (refresh) router.refresh();
      }}
    >
      {(trouble || notYet) && (
        <Notice kind="problem">
          <p>{notYet ?? trouble}</p>
          {!notYet && elsewhere.length > 0 && (
            <ul>
              {elsewhere.map(({ field, message }) => (
                <li key={field + message}>{message}</li>
              ))}
            </ul>
          )}
          {problem?.code === "sign-in" && (
            <p>
              <a href="/sign-in" target="_blank" rel="noreferrer">
                Sign in in a new tab
              </a>
              , then come back and send again.
            </p>
          )}
        </Notice>
      )}
      {children(errorFor)}
      <Button type="submit" look={look} aria-disabled={sending || undefined}>
        {sending ? "Sending…" : submit}
      </Button>
      <div aria-live="polite" className={styles.said}>
        {said && <Notice kind="done">{said}</Notice>}
      </div>
    </form>
  );
}
