/**
 * The arrows between the rooms, as `npm test` holds them:
 * app -> contest -> (scoring, survey, zones, throw) -> (earth, units), with db, live and api beside contest, and exchange
 * between contest and zones, inspection between contest and throw.
 */
const PURE = "range|rehearsal|throw|zones|survey|scoring|exchange|inspection|firing-order|earth|units";
const MIDDLE = "throw|zones|survey|scoring";

/** Files of lib/contest that pages run by themselves. */
const IN_BROWSER = "entry-missing|errors|fitting|ground|guardian-consent|import-preview|site-request|touched";

/** A rule: what `from` must not import. */
const never = (name, comment, from, to) => ({ name, comment, severity: "error", from, to });

module.exports = {
  forbidden: [
    never("no-cycle", "Two files that need each other are one file, or three.", {}, { circular: true }),
    never(
      "pure-no-rooms-above",
      "The pure rooms can be read, tested and used alone.",
      { path: `^lib/(${PURE})/` },
      { path: `^(app|prisma|tests|public)/|^lib/(?!(${PURE})/)` },
    ),
    never(
      "pure-no-outside-world",
      "No files, network, clock of the machine, framework or database in a calculation.",
      { path: `^lib/(${PURE})/` },
      { dependencyTypes: ["core"] },
    ),
    never(
      "pure-no-framework",
      "No framework or database in a calculation.",
      { path: `^lib/(${PURE})/` },
      { path: "node_modules/(next|react|react-dom|leaflet|pg|libsql|tsx|esbuild|prisma|@prisma|@libsql)/" },
    ),
    never(
      "middle-apart",
      "Throws, zones, survey and scoring do not know each other; lib/contest brings them together.",
      { path: `^lib/(${MIDDLE})/` },
      { path: `^lib/(${MIDDLE})/`, pathNot: "^lib/$1/" },
    ),
    never(
      "range-alone",
      "What the range is hangs on what was said, in any order; the site comes to it as plain facts.",
      { path: "^lib/range/" },
      { path: "^lib/(?!range/)" },
    ),
    never(
      "rehearsal-alone",
      "What goes wrong in a played day is written before anything is played.",
      { path: "^lib/rehearsal/" },
      { path: "^lib/(?!rehearsal/)" },
    ),
    never(
      "exchange-below-contest",
      "Files hold a site: they know no throws, and what they hold knows no files.",
      { path: `^lib/(exchange|${MIDDLE}|earth|units)/` },
      { path: "^lib/(exchange|throw|survey|scoring)/", pathNot: "^lib/$1/" },
    ),
    never(
      "firing-order-alone",
      "Who throws when is told from times and geometry that are given as data.",
      { path: "^lib/firing-order/" },
      { path: "^lib/(?!firing-order/)" },
    ),
    never(
      "firing-order-under-contest",
      "No calculation of a throw, a zone or a mark hangs on when it is thrown.",
      { path: `^lib/(exchange|inspection|${MIDDLE}|earth|units)/` },
      { path: "^lib/firing-order/" },
    ),
    never(
      "inspection-on-throw",
      "What is looked at before a machine throws knows the throw, and what that stands on.",
      { path: "^lib/inspection/" },
      { path: "^lib/(?!(inspection|throw|earth|units)/)" },
    ),
    never(
      "inspection-above-throw",
      "No calculation of the throw, the site or the marks hangs on a checklist.",
      { path: `^lib/(exchange|${MIDDLE}|earth|units)/` },
      { path: "^lib/inspection/" },
    ),
    never(
      "bottom-apart",
      "earth and units stand on nothing.",
      { path: "^lib/(earth|units)/" },
      { path: "^lib/", pathNot: "^lib/$1/" },
    ),
    never(
      "db-knows-no-contest",
      "The database room opens, migrates and stores; what it stores is lib/contest's.",
      { path: "^lib/db/" },
      { path: "^(app|prisma)/|^lib/(?!db/)" },
    ),
    never(
      "live-on-db-alone",
      "The feed carries numbers.",
      { path: "^lib/live/" },
      { path: "^(app|prisma)/|^lib/(?!(live|db)/)" },
    ),
    never(
      "contracts-on-pure-rooms-alone",
      "The browser imports the contracts too.",
      { path: "^lib/api/contracts" },
      { path: `^(app|prisma)/|^lib/(?!(${PURE})/|api/contracts)`, dependencyTypesNot: ["type-only"] },
    ),
    never(
      "contest-below-app",
      "A command knows no page, no route and no launcher.",
      { path: "^lib/contest/" },
      { path: "^(app|prisma)/|^lib/launch/|node_modules/(next|react|react-dom)/" },
    ),
    never(
      "contest-in-the-browser",
      "A page without a server decides by these as the server does: no database behind them.",
      { path: `^lib/contest/(${IN_BROWSER})\\.ts$` },
      { path: `^lib/(db|live)/|^lib/contest/(?!(${IN_BROWSER})\\.ts$)`, dependencyTypesNot: ["type-only"] },
    ),
    never(
      "lib-below-app",
      "Pages use the rooms, never the other way.",
      { path: "^lib/" },
      { path: "^(app|tests)/" },
    ),
    never(
      "launch-on-top",
      "The launcher starts the program; nothing in the program knows it.",
      { path: "^(app|lib|prisma)/", pathNot: "^lib/launch/" },
      { path: "^lib/launch/" },
    ),
    never(
      "demo-apart",
      "Only a first start and the tests load the demo.",
      { path: "^(app|lib)/", pathNot: "^lib/launch/" },
      { path: "^prisma/" },
    ),
    never(
      "drivers-in-db-alone",
      "Which engine it is stays inside lib/db.",
      { path: "^(app|lib|prisma)/", pathNot: "^lib/db/" },
      { path: "^lib/db/generated/|node_modules/(pg|libsql|@libsql|@prisma)/" },
    ),
    never(
      "no-test-tools",
      "What only tests need is not installed in production.",
      { path: "^(app|lib|prisma)/" },
      { dependencyTypes: ["npm-dev"] },
    ),
    never("resolves", "Every import leads somewhere.", {}, { couldNotResolve: true }),
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: "^lib/db/generated/.*/(internal|models)/|^\\.next/" },
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: "specify",
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "node", "default", "types"],
    },
  },
};
