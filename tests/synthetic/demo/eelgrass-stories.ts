/** The flights of the microlight. Home is Mereling. All invented. */
import type { DemoStory } from './demo-flights.ts';

const SEA_LEVEL_IGC: DemoStory['receiver'] = {
  heights: 'geoid',
  pressure: { qnhHpa: 1013, staticError: 0.02, lagS: 0.6, whiteM: 0.4 },
};

export const EELGRASS_STORIES: readonly DemoStory[] = [
  {
    file: '2024-05-19-microlight-circuits-mereling.igc',
    clock: '08:30:00',
    about: 'Four circuits in the microlight, uphill on 11.',
    massKg: 390,
    takeOffMassKg: 395,
    wind: [120, 6, null],
    tempC: 13,
    qnhHpa: 1022,
    wet: false,
    effort: 'normal',
    receiver: SEA_LEVEL_IGC,
    fly: (pilot) => {
      pilot.lineUp('mereling', '11');
      pilot.takeOff();
      for (let k = 0; k < 3; k++) {
        pilot.circuit();
        pilot.touchAndGo();
      }
      pilot.circuit();
      pilot.land();
    },
  },
  {
    file: '2024-06-16-microlight-to-sedge.gpx',
    clock: '17:20:00',
    about: 'Mereling to Sedgeholt, downwind join.',
    massKg: 400,
    takeOffMassKg: 408,
    wind: [180, 7, null],
    tempC: 18,
    qnhHpa: 1018,
    wet: false,
    effort: 'normal',
    fly: (pilot) => {
      pilot.lineUp('mereling', '11');
      pilot.takeOff();
      pilot.goTo('sedge', '20', 'downwind');
      pilot.land({ end: 'taxi' });
    },
  },
  {
    file: '2024-07-28-microlight-wet-mereling.gpx',
    clock: '07:50:00',
    about: 'Dew-soaked grass: two full stops with a backtrack between.',
    massKg: 395,
    takeOffMassKg: 400,
    wind: [290, 4, null],
    tempC: 12,
    qnhHpa: 1019,
    wet: true,
    effort: 'normal',
    fly: (pilot) => {
      pilot.lineUp('mereling', '29');
      pilot.takeOff();
      pilot.circuit();
      pilot.land();
      pilot.backtrack(22);
      pilot.takeOff();
      pilot.circuit();
      pilot.land();
    },
  },
  {
    file: '2024-09-08-microlight-five-fixes-a-second.igc',
    clock: '16:15:00',
    about: 'Five fixes a second in an IGC file: a touch-and-go and a landing.',
    massKg: 385,
    takeOffMassKg: 390,
    wind: [100, 8, null],
    tempC: 17,
    qnhHpa: 1015,
    wet: false,
    effort: 'normal',
    receiver: { ...SEA_LEVEL_IGC, intervalS: 0.2, whiteS: 0.4 },
    fly: (pilot) => {
      pilot.lineUp('mereling', '11');
      pilot.takeOff();
      pilot.circuit();
      pilot.touchAndGo();
      pilot.circuit();
      pilot.land();
    },
  },
  {
    file: '2025-04-13-microlight-hollowmere.igc',
    clock: '10:50:00',
    about: 'The microlight uphill at Hollowmere Bank by a base join.',
    massKg: 400,
    takeOffMassKg: 410,
    wind: [330, 6, null],
    tempC: 11,
    qnhHpa: 1025,
    wet: false,
    effort: 'normal',
    receiver: SEA_LEVEL_IGC,
    fly: (pilot) => {
      pilot.lineUp('mereling', '29');
      pilot.takeOff();
      pilot.goTo('hollowmere', '33', 'base');
      pilot.land();
    },
  },
  {
    file: '2025-05-25-microlight-coasting-ternholm.gpx',
    clock: '12:00:00',
    about: 'Plenty of strip at Ternholm: two landings left to roll out without brakes.',
    massKg: 395,
    takeOffMassKg: 405,
    wind: [260, 7, null],
    tempC: 17,
    qnhHpa: 1016,
    wet: false,
    effort: 'coasted',
    fly: (pilot) => {
      pilot.lineUp('mereling', '29');
      pilot.takeOff();
      pilot.goTo('ternholm', '25', 'crosswind');
      pilot.touchAndGo();
      pilot.circuit();
      pilot.land({ alongM: 70, approach: { speedMps: 22.5 } });
    },
  },
  {
    file: '2025-06-29-microlight-across-the-wind.gpx',
    clock: '15:40:00',
    about: 'A wind across Ternholm, two landings with a backtrack.',
    massKg: 390,
    takeOffMassKg: 398,
    wind: [180, 9, null],
    tempC: 21,
    qnhHpa: 1013,
    wet: false,
    effort: 'normal',
    receiver: { speedWhiteMps: 0.15, filter: 'tracking' },
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25', 75);
      pilot.takeOff();
      pilot.circuit();
      pilot.land();
      pilot.backtrack(5);
      pilot.takeOff();
      pilot.circuit();
      pilot.land({ end: 'vacated' });
    },
  },
  {
    file: '2025-09-07-microlight-go-arounds-sedge.igc',
    clock: '11:10:00',
    about: 'Two go-arounds at Sedgeholt, one high and one from the hold-off, then a landing.',
    massKg: 400,
    takeOffMassKg: 410,
    wind: [20, 9, 15],
    tempC: 16,
    qnhHpa: 1011,
    wet: true,
    effort: 'full',
    receiver: SEA_LEVEL_IGC,
    fly: (pilot) => {
      pilot.lineUp('mereling', '11');
      pilot.takeOff();
      pilot.goTo('sedge', '02', 'overhead');
      pilot.goAround(25);
      pilot.circuit();
      pilot.goAround(1.2);
      pilot.circuit();
      pilot.land();
    },
  },
];
