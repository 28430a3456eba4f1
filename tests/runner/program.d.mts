export interface SignInCode {
  label: string;
  role: string;
  code: string;
}
export interface Program {
  url: string;
  port: number;
  signIns: SignInCode[];
  output: () => string;
  /** In order. */
  stop: () => Promise<void>;
  /** As a power cut would. */
  kill: () => Promise<void>;
  /** The data folder. */
  folder: string;
}
/** `folder` and `port` are those of a program that ran before; `env` is added to its settings. */
export function startProgram(options?: {
  env?: Record<string, string>;
  folder?: string;
  port?: number;
}): Promise<Program>;
