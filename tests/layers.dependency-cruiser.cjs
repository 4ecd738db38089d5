/**
 * Which import may point where? Read by dependency-cruiser, run by layers.test.ts.
 *
 * A floor may import from itself and from the floors below it, never from above. `apart` floors
 * hold rooms that do not know each other.
 */

const FLOORS = [
  { rooms: ['result\\.ts', 'units', 'numeric', 'geo', 'atmosphere', 'xml'], apart: false },
  { rooms: ['track', 'strips', 'weather'], apart: true },
  { rooms: ['events', 'performance'], apart: true },
  { rooms: ['calibration'], apart: false },
  { rooms: ['debrief'], apart: false },
  { rooms: ['report', 'logbook'], apart: false },
  { rooms: ['app', 'cli'], apart: true },
];

/** @param {readonly string[]} rooms */
const inside = (rooms) => `^src/(${rooms.join('|')})(/|$)`;

const everyRoom = FLOORS.flatMap((floor) => floor.rooms);
const belowTheTop = FLOORS.slice(0, -1).flatMap((floor) => floor.rooms);

/** @type {import('dependency-cruiser').IForbiddenRuleType[]} */
const forbidden = [
  ...FLOORS.slice(0, -1).map((floor, index) => ({
    name: `floor-${index}-imports-down`,
    severity: /** @type {const} */ ('error'),
    from: { path: inside(floor.rooms) },
    to: { path: inside(FLOORS.slice(index + 1).flatMap((above) => above.rooms)) },
  })),
  ...FLOORS.flatMap((floor) =>
    floor.apart
      ? floor.rooms.map((room) => ({
          name: `${room}-stands-apart`,
          severity: /** @type {const} */ ('error'),
          from: { path: inside([room]) },
          to: { path: inside(floor.rooms.filter((other) => other !== room)) },
        }))
      : [],
  ),
  {
    name: 'no-cycle',
    severity: 'error',
    from: { path: '^src/' },
    to: { circular: true },
  },
  {
    name: 'pure-below-the-top',
    severity: 'error',
    from: { path: inside(belowTheTop) },
    to: { dependencyTypes: ['core'] },
  },
  {
    // Types alone leave no trace in what runs.
    name: 'only-what-users-install',
    severity: 'error',
    from: { path: inside(everyRoom) },
    to: {
      dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown'],
      dependencyTypesNot: ['type-only'],
    },
  },
  {
    name: 'nothing-missing',
    severity: 'error',
    from: { path: '^src/' },
    to: { couldNotResolve: true },
  },
  {
    name: 'only-known-rooms',
    severity: 'error',
    from: { path: '^src/' },
    to: { path: '^src/', pathNot: inside(everyRoom) },
  },
  {
    // The launchers build with the same tools as the tests do.
    name: 'nothing-outside-src',
    severity: 'error',
    from: { path: '^src/', pathNot: '^src/cli/(launch|start)\\.mjs$' },
    to: { path: '^(tests|docs|tracks-sample|dist)/' },
  },
];

module.exports = {
  forbidden,
  options: {
    doNotFollow: { path: ['node_modules', '^tests/'] },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'types'] },
  },
};
