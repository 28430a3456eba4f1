"use client";
/**
 * Which field the keypad types into. It stays until another field takes it: were it to go when the focus leaves, what
 * is below would move away from under the thumb.
 */
import { createContext, useContext } from "react";

export interface KeysShown {
  field: string | null;
  show: (field: string) => void;
}
export const KeysContext = createContext<KeysShown>({ field: null, show: () => {} });
export const useKeysShown = () => useContext(KeysContext);
