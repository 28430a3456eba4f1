export interface SignInCode {
  label: string;
  role: string;
  code: string;
}
export interface Program {
  url: string;
  port: number;
  /** Of the demo; none without it. */
  signIns: SignInCode[];
  setupCode: string | null;
  output: () => string;
  /** In order. */
  stop: () => Promise<void>;
  /** As a power cut would. */
  kill: () => Promise<void>;
  /** The data folder. */
  folder: string;
}
/** `folder` and `port` are those of a program that ran before; `env` is added to its settings. A new
 * folder is made `inside` another one, by default that of what is thrown away. */
export function startProgram(options?: {
  env?: Record<string, string>;
  folder?: string;
  port?: number;
  inside?: string;
}): Promise<Program>;
