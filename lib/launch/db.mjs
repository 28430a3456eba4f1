/** `npm run db:reset`, `db:backup` and `db:restore`, on plain Node, right after a clone. */
import { command } from "./command.mjs";

await command(async (load, [what, ...args]) => {
  const { isLocal } = await import("./address.mjs");
  const { maintain } = await load("maintain");
  await maintain(what, args, isLocal(), console.log);
});
