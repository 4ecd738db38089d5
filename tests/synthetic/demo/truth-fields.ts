/** What each field of the demo's truth file means; written into the file itself. */
export const FIELDS_OF_TRUTH = {
  what: 'What truly happened in the simulated flights of Doggerland. All invented.',
  units:
    'timeS: UTC seconds since 1970; M: metres; Mps: metres a second. alongM counts from the landing threshold of the direction, negative before it; crossM is positive right of the centreline; aboveM is the height of the main wheels over the surface of the strip.',
  position:
    'The receiver antenna sits straight above the main wheels; alongM of antenna and wheels are the same.',
  takeOffs: {
    kind: 'take-off or rejected',
    brakeRelease: 'the aeroplane starts to move; null out of a touch-and-go',
    power: 'throttle opened in a touch-and-go',
    liftOff: 'main wheels leave the surface',
    groundRollM: 'brake release (or power) to lift-off',
    screen: 'first climb through 50 ft (15.24 m); distanceM from brake release or power',
    rejected: 'speed at which it was given up; where and when it stopped',
  },
  approaches: {
    outcome: 'full-stop, touch-and-go, stop-and-go, go-around or low-pass',
    threshold: 'passing alongM = 0; on the ground (aboveM 0) where touchdown was short of it',
    fiftyFeet: 'last descent through 50 ft (15.24 m) over the surface',
    roundOut: 'the round-out begins',
    touchdown: 'first main-wheel contact; sinkMps against the surface',
    bounces: 'each hop after first contact: off and on again, greatest height of the wheels',
    brakesOn: 'brakes applied; null where never',
    tenKnots: 'first below 10 kt over the ground',
    fiveKnots: 'first below 5 kt over the ground',
    rollEnd:
      'stopped: below 0.5 m/s; taxi: braking ends and a steady taxi follows; vacated: turns off the axis; power: throttle opened',
    groundRollM: 'touchdown to stopped; null where the roll ended otherwise',
    goAround:
      'initiation: throttle opened and descent being broken; lowest: the least height of the wheels. Null where there was none',
    lowestPassM: 'least height of the wheels in a low pass',
  },
  circuits:
    'legs from the moment the turn on to each begins; climb-out from lift-off, go-around or the end of a low pass; final ends at the threshold, at touchdown or at a go-around',
  joins: 'how a circuit was joined; timeS: the turn on to the joined leg begins',
};
