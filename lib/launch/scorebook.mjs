/** `npm run scorebook:verify`, on plain Node; it may run beside the program. */
import { command } from "./command.mjs";

await command(async (load, args) => {
  const { verify } = await load("verify");
  return verify(args, console.log);
});
