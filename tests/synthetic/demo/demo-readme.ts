/** The page that goes with the demo files: what they are, how they were made, one line a flight. */
import type { DemoEntry } from './demo-files.ts';

/** The text of tracks-sample/README.md. */
export function demoReadme(entries: readonly DemoEntry[]): string {
  const lines = entries.map(({ story, aeroplane }) => {
    const name = aeroplane === 'marram-160' ? 'Marram 160' : 'Eelgrass 450';
    return `- \`${story.file}\` (${name}): ${story.about}`;
  });
  return `# The demo world: Doggerland

Everything here is invented: the country (drowned, placed in the open North Sea near 54.7 N 2.3 E), its
strips, its aeroplanes and every flight. Nothing is good for flying, and nobody flew it.

- \`strips.geojson\`: four strips. Ternholm (560 m, displaced threshold on 25, trees before it, a
  village to keep off), Sedgeholt (355 m, alders on short final to 20), Hollowmere Bank (410 m, one
  way: landing uphill on 33, take-off downhill on 15, a commit point, an approach path up the valley),
  Mereling (430 m, uneven, uphill on 11).
- \`aeroplanes/\`: a four-seater and a microlight with made-up handbook figures.
- \`conditions.json\`: wind, temperature, pressure, masses and grass of each flight, as a careful pilot
  would have noted them, and for the last three flights limits of the pilot's own for the final. The
  simulated air gusts about the noted wind.
- \`flights/\`: the logs, as recorders write them.
- \`truth.json\`: what truly happened in each flight: where and when the wheels touched, how long the
  rolls were, how low the go-arounds went. Its \`description\` explains every field.

## How they were made

A simulator of the project's own (\`tests/synthetic/\`) flies a point mass with lift, drag, thrust,
wheels and brakes through wind and gusts; a model of a receiver adds a wandering bias, noise, smoothing
and rounding. \`npm run demo\` writes the files again; the same seed gives the same bytes, and a test
holds the committed files to that. IGC files of the four-seater carry heights above the ellipsoid, some
40 m over sea level here.

## Flights

${lines.join('\n')}
`;
}
