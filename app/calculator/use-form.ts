"use client";
/** The form with its memory: a shared link first, else what this browser kept; a reload loses nothing. */
import { useEffect, useReducer, useState } from "react";
import { keep, kept } from "@/app/_ui/browser-memory";
import { useUnits } from "@/app/_ui/units";
import { formFromHash, formFromText, formToText } from "../_ui/machine-form/form/memory";
import { changeForm, type FormAction, type FormState, startingForm } from "../_ui/machine-form/form/state";

const FORM_KEY = "fairthrow-calculator";

export function useForm(): [FormState, (action: FormAction) => void, boolean] {
  const system = useUnits();
  const [form, change] = useReducer(changeForm, system, startingForm);
  const [loaded, setLoaded] = useState(false);

  useEffect(() => {
    const open = () => {
      const linked = formFromHash(location.hash, system);
      const found = linked ?? (loaded ? null : formFromText(kept(FORM_KEY)));
      if (found) {
        change({ type: "replace", state: found });
        change({ type: "units", system });
      }
      // The link has been read; from here on what is typed counts.
      if (linked) history.replaceState(null, "", location.pathname + location.search);
      setLoaded(true);
    };
    if (!loaded) open();
    addEventListener("hashchange", open);
    return () => removeEventListener("hashchange", open);
  }, [system, loaded]);

  useEffect(() => {
    if (form.system !== system) change({ type: "units", system });
  }, [form.system, system]);

  useEffect(() => {
    if (loaded) keep(FORM_KEY, formToText(form));
  }, [form, loaded]);

  return [form, change, loaded];
}
