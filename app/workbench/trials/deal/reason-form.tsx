"use client";
/** Why something is done to a throw: without a reason it is not done. */
import { useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";

/** A word is no reason. */
const SHORTEST = 8;
const LONGEST = 500;

export function ReasonForm({
  id,
  label,
  help,
  button,
  focused,
  onWrite,
  onCancel,
}: {
  id: string;
  label: string;
  help?: string;
  button: string;
  /** Whoever asked for it is led to it. */
  focused?: boolean;
  onWrite: (reason: string) => void;
  onCancel?: () => void;
}) {
  const [reason, setReason] = useState("");
  const [error, setError] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const field = () => form.current?.querySelector("input");
  useEffect(() => {
    if (focused) form.current?.querySelector("input")?.focus();
  }, [focused]);
  return (
    <form
      ref={form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        const told = reason.trim();
        if (told.length < SHORTEST) {
          setError(`${label}: say it in a few words, so that somebody else understands it.`);
          field()?.focus();
          return;
        }
        onWrite(told);
      }}
    >
      <TextField
        id={id}
        label={label}
        help={help}
        maxLength={LONGEST}
        value={reason}
        onChange={(event) => {
          setReason(event.target.value);
          setError(null);
        }}
        error={error}
      />
      <p className="button-row">
        <Button look="main" type="submit">
          {button}
        </Button>
        {onCancel ? <Button onClick={onCancel}>Leave it as it is</Button> : null}
      </p>
    </form>
  );
}
