/**
 * What people do with a contest: commands and queries on the database, each checking who may. Pages and route
 * handlers call nothing below this room. Queries throw a `Refusal` (404, 403, …), which carries the problem to show.
 */
import type {
  BadgeInfo,
  ContestOverview,
  ContestSummary,
  JudgeView,
  MachinePage,
  Role,
  Scorebook,
  SheetAnswer,
  ShotHistory,
  ShotInfo,
  Standings,
  Verification,
  Zones,
} from "../api/contracts";
import type { Database } from "../db";

/** Who asks: a badge that is signed in. `null` is anyone else. */
export interface Actor {
  badgeId: string;
  role: Role;
  label: string;
  contestId: string;
  contestSlug: string;
  entrantId: string | null;
}
export type Asker = Actor | null;

// Signatures of the queries that pages read; implementations follow.
export interface Queries {
  listContests(db: Database): Promise<ContestSummary[]>;
  contestOverview(db: Database, slug: string): Promise<ContestOverview>;
  /** Waits up to `wait` ms (default 4000) for missing sheets; those not there by then come as "computing". */
  contestZones(db: Database, slug: string, options?: { wait?: number }): Promise<Zones>;
  /** Of one round, the newest if left out. Open to all: marks are public. */
  roundShots(
    db: Database,
    slug: string,
    round?: number,
  ): Promise<{ round: number | null; shots: ShotInfo[] }>;
  /** Judges, organisers and safety officers. */
  judgeView(db: Database, actor: Asker, slug: string, round?: number): Promise<JudgeView>;
  shotHistory(db: Database, slug: string, shotId: string): Promise<ShotHistory>;
  contestStandings(db: Database, slug: string): Promise<Standings>;
  scorebookPage(db: Database, slug: string, page?: { before?: number; limit?: number }): Promise<Scorebook>;
  verifyScorebook(db: Database, slug: string): Promise<Verification>;
  /** Officials, and the team whose machine it is. */
  machinePage(db: Database, actor: Asker, slug: string, machineId: string): Promise<MachinePage>;
  machineSheet(db: Database, actor: Asker, slug: string, machineId: string): Promise<SheetAnswer>;
  /** Organisers. */
  listBadges(db: Database, actor: Asker, slug: string): Promise<BadgeInfo[]>;
}
