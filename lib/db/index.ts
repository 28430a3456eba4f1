/**
 * The database room: opening by URL (an SQLite file or PostgreSQL), migrations, transactions, notices,
 * backups. Nothing here knows what a contest is; that is lib/contest. The launcher and the tests import
 * backup.ts by itself, so that no page carries it.
 */
export { databaseUrl, dataFolder, describeUrl, type Engine, engineOfUrl, sqlitePath } from "./location";
export { DatabaseInUseError, lockDatabase } from "./lock";
export { MigrationError, migrate } from "./migrate";
export { type Flash, flash, listen, listenToFlashes, type Notice, notify } from "./notice";
export {
  closeDatabase,
  type Database,
  type DatabaseTransaction,
  engineOf,
  getDatabase,
  openDatabase,
  settle,
} from "./open";
export { insertRow, rowsOf } from "./statements";
export { inTransaction } from "./transaction";
