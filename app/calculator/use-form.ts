"use client";
/** The form with its memory: a shared link first, else what this browser kept; a reload loses nothing. */
import { useEffect, useReducer, useState } from "react";
import { keep, kept } from "@/app/_ui/browser-memory";
import { useUnits } from "@/app/_ui/units";
import { readAddress } from "../_ui/machine-form/form/link";
import { formFromText, formToText } from "../_ui/machine-form/form/memory";
import { changeForm, type FormAction, type FormState, startingForm } from "../_ui/machine-form/form/state";
import { forgetLink, type LinkTold, stopTold, toldOf } from "../_ui/machine-form/link-notice";

const FORM_KEY = "fairthrow-calculator";

interface LinkSaid {
  told: LinkTold | null;
  onClose: () => void;
}

/** The form, what changes it, whether what was kept has been read, and what there is to say of a link. */
export function useForm(): [FormState, (action: FormAction) => void, boolean, LinkSaid] {
  const system = useUnits();
  const [form, change] = useReducer(changeForm, system, startingForm);
  const [loaded, setLoaded] = useState(false);
  const [told, setTold] = useState<LinkTold | null>(null);

  useEffect(() => {
    const open = () => {
      const link = readAddress(location, system);
      const linked = link.state === "open" ? link.form : null;
      const found = linked ?? (loaded ? null : formFromText(kept(FORM_KEY)));
      if (found) {
        change({ type: "replace", state: found });
        change({ type: "units", system });
      }
      if (link.state !== "none") setTold(stopTold(link) ?? toldOf(link));
      if (linked) forgetLink();
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

  const onClose = () => {
    setTold(null);
    forgetLink();
  };
  return [form, change, loaded, { told, onClose }];
}
