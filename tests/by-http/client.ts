/** Requests of one badge to the running program. */
import { randomUUID } from "node:crypto";

export class Client {
  private cookie = "";
  constructor(readonly api: string) {}

  /** The session's cookie, for a browser that goes on as the same device. */
  get session(): { name: string; value: string } {
    const [name = "", value = ""] = this.cookie.split("=");
    return { name, value };
  }

  async fetch(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<Response> {
    const response = await fetch(`${this.api}${path}`, {
      method,
      headers: {
        "Content-Type": "application/json",
        "Idempotency-Key": randomUUID(),
        cookie: this.cookie,
      },
      ...(body !== undefined && { body: JSON.stringify(body) }),
      ...(signal && { signal }),
    });
    if (!response.ok) throw new Error(`${method} ${path}: ${response.status} ${await response.text()}`);
    return response;
  }

  async ask<T>(method: string, path: string, body?: unknown): Promise<T> {
    return (await this.fetch(method, path, body)).json() as Promise<T>;
  }

  /** Answers the slug of the badge's contest. */
  async signIn(code: string): Promise<string> {
    const answer = await this.fetch("POST", "/sign-in", { code });
    this.cookie = (answer.headers.get("set-cookie") ?? "").split(";")[0] ?? "";
    return ((await answer.json()) as { badge: { contestSlug: string } }).badge.contestSlug;
  }
}
