/** The flights of the four-seater, two seasons of them. Home is Ternholm. All invented. */
import type { DemoStory } from './demo-flights.ts';

/** An IGC recorder that writes heights above the ellipsoid and has a pressure sensor. */
const ELLIPSOID_IGC: DemoStory['receiver'] = {
  heights: 'ellipsoid',
  filter: 'tracking',
  pressure: { qnhHpa: 1013, staticError: 0.05, lagS: 0.5, whiteM: 0.3 },
};
/** A tablet: heights above sea level, speed and course in the extensions. */
const TABLET: DemoStory['receiver'] = { filter: 'tracking', speedWhiteMps: 0.15 };

export const MARRAM_STORIES: readonly DemoStory[] = [
  {
    file: '2024-04-20-first-circuits-ternholm.gpx',
    clock: '09:40:00',
    about: 'First flight of the season: two touch-and-goes and a full stop, dry grass.',
    massKg: 930,
    takeOffMassKg: 945,
    wind: [260, 8, null],
    tempC: 11,
    qnhHpa: 1019,
    wet: false,
    effort: 'normal',
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.circuit();
      pilot.touchAndGo();
      pilot.circuit();
      pilot.touchAndGo();
      pilot.circuit();
      pilot.land();
    },
  },
  {
    file: '2024-05-12-first-visit-sedge.gpx',
    clock: '13:05:00',
    about:
      'First visit to Sedgeholt: overhead join, a low pass to look at the grass, then a landing.',
    massKg: 940,
    takeOffMassKg: 960,
    wind: [200, 7, null],
    tempC: 16,
    qnhHpa: 1021,
    wet: false,
    effort: 'full',
    receiver: TABLET,
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.goTo('sedge', '20', 'overhead');
      pilot.lowPass(12);
      pilot.circuit();
      pilot.land();
    },
  },
  {
    file: '2024-05-12-home-from-sedge.igc',
    clock: '15:20:00',
    about: 'Out of Sedgeholt and home, crosswind join. Heights above the ellipsoid.',
    massKg: 925,
    takeOffMassKg: 935,
    wind: [210, 9, null],
    tempC: 17,
    qnhHpa: 1020,
    wet: false,
    effort: 'normal',
    receiver: ELLIPSOID_IGC,
    fly: (pilot) => {
      pilot.lineUp('sedge', '20', 5);
      pilot.takeOff();
      pilot.goTo('ternholm', '25', 'crosswind');
      pilot.land({ end: 'vacated' });
    },
  },
  {
    file: '2024-06-02-wet-grass-ternholm.igc',
    clock: '08:15:00',
    about: 'After a night of rain: landing, backtrack, take-off and a second landing on wet grass.',
    massKg: 950,
    takeOffMassKg: 965,
    wind: [230, 6, null],
    tempC: 12,
    qnhHpa: 1008,
    wet: true,
    effort: 'normal',
    receiver: ELLIPSOID_IGC,
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.circuit();
      pilot.land();
      pilot.backtrack(-35);
      pilot.takeOff();
      pilot.circuit();
      pilot.land({ alongM: 45 });
    },
  },
  {
    file: '2024-06-23-uphill-at-hollowmere.gpx',
    clock: '10:30:00',
    about: 'One-way strip: landing uphill on 33, turning round, taking off downhill on 15.',
    massKg: 930,
    takeOffMassKg: 950,
    wind: [300, 5, null],
    tempC: 19,
    qnhHpa: 1024,
    wet: false,
    effort: 'normal',
    receiver: TABLET,
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.goTo('hollowmere', '33', 'downwind');
      pilot.land({ alongM: 40 });
      pilot.turnRound('hollowmere', '15', 24);
      pilot.takeOff();
      pilot.goTo('ternholm', '25', 'downwind');
      pilot.land();
    },
  },
  {
    file: '2024-07-14-gusty-go-around-sedge.gpx',
    clock: '12:50:00',
    about: 'Gusts at Sedgeholt: a go-around out of the round-out, then a landing.',
    massKg: 945,
    takeOffMassKg: 965,
    wind: [220, 13, 21],
    tempC: 18,
    qnhHpa: 1009,
    wet: false,
    effort: 'full',
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.goTo('sedge', '20', 'downwind');
      pilot.goAround(6);
      pilot.circuit();
      pilot.land();
    },
  },
  {
    file: '2024-07-14-gusty-home-straight-in.igc',
    clock: '15:05:00',
    about: 'Home from Sedgeholt by a straight-in approach to 25.',
    massKg: 930,
    takeOffMassKg: 940,
    wind: [230, 12, 19],
    tempC: 19,
    qnhHpa: 1009,
    wet: false,
    effort: 'normal',
    receiver: ELLIPSOID_IGC,
    fly: (pilot) => {
      pilot.lineUp('sedge', '20', 5);
      pilot.takeOff();
      pilot.goTo('ternholm', '25', 'straight-in');
      pilot.land();
    },
  },
  {
    file: '2024-08-04-three-strips.igc',
    clock: '09:00:00',
    about: 'Ternholm, a touch-and-go at Mereling, a stop-and-go at Sedgeholt, and home.',
    massKg: 960,
    takeOffMassKg: 985,
    wind: [250, 6, null],
    tempC: 20,
    qnhHpa: 1017,
    wet: false,
    effort: 'normal',
    receiver: ELLIPSOID_IGC,
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.goTo('mereling', '29', 'downwind');
      pilot.touchAndGo({ alongM: 25 });
      pilot.goTo('sedge', '20', 'downwind');
      pilot.land({ alongM: 25, ratio: 1 });
      pilot.backtrack(20);
      pilot.takeOff();
      pilot.goTo('ternholm', '25', 'downwind');
      pilot.stopAndGo({ alongM: 30, ratio: 0.9 });
      pilot.circuit();
      pilot.land({ end: 'taxi' });
    },
  },
  {
    file: '2024-08-25-bounce-at-mereling.gpx',
    clock: '14:10:00',
    about: 'A bounce at Mereling, uphill into a light wind.',
    massKg: 940,
    takeOffMassKg: 955,
    wind: [100, 6, null],
    tempC: 21,
    qnhHpa: 1015,
    wet: false,
    effort: 'normal',
    fly: (pilot) => {
      pilot.lineUp('ternholm', '07');
      pilot.takeOff();
      pilot.goTo('mereling', '11', 'base');
      pilot.land({ approach: { bouncesMps: [1.3, 0.7], contactSinkMps: 1.3, touchdownMps: 29 } });
    },
  },
  {
    file: '2024-09-15-tail-wind-landing-sedge.gpx',
    clock: '10:45:00',
    about: 'The wind turned on the way: a landing at Sedgeholt with the wind behind.',
    massKg: 925,
    takeOffMassKg: 940,
    wind: [10, 4, null],
    tempC: 14,
    qnhHpa: 1022,
    wet: false,
    effort: 'full',
    fly: (pilot) => {
      pilot.lineUp('ternholm', '07');
      pilot.takeOff();
      pilot.goTo('sedge', '20', 'base');
      pilot.land({ alongM: 15, ratio: 0.85 });
    },
  },
];
