/**
 * The prose of docs/job-file.md, by section of the job file; its keys and values come from the schema.
 *
 * `keys` are named by their path below the section; `*` stands for a name that the writer of the file chooses. They
 * are null where the keys are told in another section.
 * The examples of all sections, one below the other, are one job.
 */
export const sections = [
  {
    title: 'The shortest job',
    of: ['at', 'state', 'conditions', 'readings', 'lamp', 'codes'],
    says: `A vehicle's name and readings are a job:

\`\`\`text
vehicle: Shuttle 7
readings: {supply: 12.2, battery: 12.31, LF: 2.48, RF: 2.55, LR: 1.12, RR: 2.61}
\`\`\`

What it leaves out is assumed, and \`check\` says so in one line: the job is called as its file, its title is the complaint or the vehicle, it is open, it was opened at the first time in it, its zone is that of the shop or of the machine, its packs are those of the shop or all at hand, its layout is \`four-corner-air\`. Readings at the top of the file are one snapshot with the key on; \`at\`, \`state\`, \`conditions\`, \`lamp\` and \`codes\` beside them say more of it, as below [snapshots](#snapshots). \`at: 08:40\` is a time on the day opened, and a snapshot without \`at\` was taken when the job was opened. A file without any day in it goes by the time at which it was last saved.

What you type for \`add\` may stand in a file as well: \`LF:\` or \`FL:\` beside channels, \`height.LR: 412\`, \`0.9..2.6\`, \`2.48/2.50\`, \`12.3@meter\`, conditions, lamp and codes among the readings, \`codes: [C3A21:stored]\` or \`codes: none\`, and \`idle\`, \`ign-on\`, \`key-off\` for \`running\`, \`key-on\`, \`rest\`.`,
    keys: null,
  },
  {
    title: 'Head',
    of: ['worksheet', 'job', 'title', 'opened', 'zone', 'status', 'packs', 'complaint', 'distance'],
    says: 'What the visit is about. Times are local times of the zone; with an offset (`2026-03-02T08:15+00:00`) they mean the same everywhere.',
    keys: {
      worksheet: 'the version of this format; default: 1',
      job: "the job's own name or number; default: the name of the file",
      title: 'one line for lists; default: the complaint, or the vehicle',
      opened: 'when the job was opened; default: the first time in the file',
      zone: "the time zone of all times in the file; default: the shop file's, else the machine's",
      status: '`closed` jobs are left out of a sweep; default: `open`',
      packs:
        "the rule packs; default: the shop file's, else all at hand. `position-signals@2` is the newest version 2",
      complaint: 'what the driver says',
      'distance.in': 'distance when the vehicle came in, such as 148200 km',
      'distance.out': 'distance when it left',
    },
    example: `worksheet: 1
job: S07-0412
title: Left rear sits low after a night's standing
opened: 2026-03-02T08:15
zone: Europe/Dublin
status: open
packs: [position-signals@2, body-heights@1, supply-charging@2, air-supply@2, module-replacement@1, handover@2, corner-suspects@2]
complaint: Warning lamp on most mornings, and the display shows the left rear low.
distance: {in: 148200 km}
`,
  },
  {
    title: 'vehicle',
    of: ['vehicle'],
    says: "The vehicle, as far as checks need to know it; its name alone will do (`vehicle: Shuttle 7`). What is not stated is never guessed: a check that needs it says so. `service-data` replaces a pack's limit by the vehicle maker's own figure.",
    keys: {
      name: 'what the shop calls it',
      layout: 'what the suspension has; default: `four-corner-air`',
      fitted: 'the corners that have air or a sensor, where that differs from the layout',
      system: 'system voltage',
      battery: 'kind of battery, as its label says',
      charging: 'whether the alternator is held at a fixed voltage or managed by a computer',
      'sensor-signal': "what the height sensors' signal is",
      'sensor-sense.*': "whether this corner's signal rises or falls as the body rises",
      tank: '`not-fitted` where the air system has none',
      'air.rated-pressure': 'the highest pressure, as the plate says it, such as 16 bar',
      'air.tank-volume': 'what the tank holds, such as 5 l',
      'air.rated-current': "the compressor's current, as its plate says it, such as 25 A",
      'air.shared-with-brakes': 'whether the brakes use the same air',
      'sensor-gain': '`equal` where all sensors change by the same voltage for the same movement',
      'service-data.check': 'the check whose limit it replaces, `pack/check`',
      'service-data.of': 'the corner or channel, where not all of the check',
      'service-data.weight': "the weight of a finding; default: the pack's",
      'service-data.between': 'lowest and highest value allowed',
      'service-data.at-least': 'lowest value allowed',
      'service-data.at-most': 'highest value allowed',
      'service-data.source': 'where the figure stands',
      'heights.*.at': 'signals of this corner in volts, measured together with `mm`',
      'heights.*.mm': 'the heights that belong to them, in millimetres',
      'heights.*.from': 'what the heights were measured from',
      'wires.*.size': 'size of the wire that this channel measures the drop of',
      'wires.*.length': 'its length, there and back, such as 6.1 m',
      'wires.*.current': 'the current that flows when the drop is read, such as 4 A',
      'wires.*.temperature': 'its temperature; default: 20 °C',
    },
    example: `vehicle:
  name: Shuttle 7
  layout: four-corner-air
  system: 12 V
  battery: agm
  charging: fixed
  sensor-sense: {LF: rising, RF: falling, LR: rising, RR: falling}
  sensor-gain: equal
  air: {rated-pressure: 16 bar, tank-volume: 5 l, rated-current: 25 A, shared-with-brakes: no}
  service-data:
    - check: position-signals/ride-band
      of: position.LR
      between: [1.60 V, 3.10 V]
      source: workshop manual, suspension chapter
  heights:
    LR: {at: [1.20 V, 2.40 V], mm: [360, 420], from: wheel-centre}
  wires:
    feed-drop: {size: 16 AWG, length: 6.1 m, current: 4 A}
`,
  },
  {
    title: 'symptoms and recent-work',
    of: ['symptoms', 'recent-work'],
    says: 'What the driver says, in one map or a list of them, each part of which can be left out; and what anybody worked on before this visit: components (`sensor.RR`, `battery`), or areas: a corner, `front`, `rear`, `left`, `right`, `harness`. A component without its corner is meant at each.',
    keys: {
      'symptoms.where': 'where on the vehicle',
      'symptoms.sits': 'how the body stands',
      'symptoms.when': 'when it shows',
      'symptoms.moves': 'how the body follows a command',
      'symptoms.rides': 'how it rides',
      'symptoms.noise': 'what can be heard',
      'symptoms.checked': 'whether somebody of the shop has seen it, too',
      'recent-work': 'components and areas',
    },
    example: `symptoms: {where: LR, sits: low, when: after-standing, checked: no}
recent-work: [sensor.LR]
`,
  },
  {
    title: 'instruments',
    of: ['instruments'],
    says: 'How good the instruments are. The names `meter`, `module`, `gauge`, `tape` and `thermometer` are those that the packs use; others are your own. Without an entry a usual instrument is assumed: a meter of 0.5 % + 0.02 V, 2 % + 0.05 A and 1 % + 0.3 Ω, a module of 0.05 V, a gauge of 1 psi, a tape of 3 mm, a thermometer of 1 °C; a pack may know better for one of its channels (`accuracy`).',
    keys: {
      '*.accuracy': 'a share of the reading, a fixed part, or both',
      '*.shows': 'the smallest step that it shows',
      '*.offset':
        'whether its fixed error is one in all that it reads, or another in each channel; default: `independent` for `module` and `tape`',
    },
    example: `instruments:
  meter: {accuracy: 0.5 % + 0.02 V, shows: 0.01 V}
  second-meter: {accuracy: 0.8 % + 0.02 V, shows: 0.01 V}
  module: {accuracy: 0.05 V, shows: 0.01 V}
`,
  },
  {
    title: 'snapshots',
    of: ['snapshots'],
    says: `Readings taken together, in one state of the vehicle. A reading is a number with its unit; the digits that you type tell how fine it is. It can also be

- repeats: \`[2.48 V, 2.50 V]\`
- a signal that jumps: \`{low: 0.9 V, high: 2.6 V}\`
- read with another instrument: \`{value: 2.48 V, by: second-meter}\`
- read between two leads: \`{value: 0.12 V, at: {from: fuse 12, to: feed pin}}\`
- a resistance beyond the meter's range: \`open\` or \`OL\`
- not to be had, and why: \`{why: plug seized}\`

Channels of a corner nest: \`position: {LF: …, RF: …, LR: …, RR: …}\`. \`cornerwise packs show PACK\` lists the channels. A check that needs a condition which the snapshot does not state says so.`,
    keys: {
      id: 'a short name, unique in the file; default: the state, with a number',
      at: 'when the readings were taken; default: when the job was opened',
      state: 'state of the vehicle',
      'conditions.floor': 'what the vehicle stands on',
      'conditions.load': 'passengers and luggage',
      'conditions.levelling': 'whether the suspension is levelling',
      'conditions.maintainer': 'whether a battery maintainer is connected',
      'conditions.air-system': 'whether the air system is shut off from its compressor and consumers',
      'conditions.surface-charge':
        "whether a charged battery's surface charge was taken off, as with the headlamps",
      'conditions.doors': 'all doors and lids',
      'conditions.heavy-load': 'headlamps, blower and rear-window heater',
      'conditions.idle': 'engine speed while `running`',
      'conditions.compressor': 'whether it ran while the readings were taken',
      'conditions.mode': 'the mode that levelling is in',
      'conditions.on-stops': 'whether the body rests on its stops',
      'conditions.heights-from': 'what the tape measured heights from',
      'conditions.air': 'air temperature, such as 8 °C',
      'conditions.rested': 'how long the battery rested, such as 8 h',
      'conditions.asleep': 'how long every module has been asleep, with its unit',
      'conditions.barometer': 'air pressure, for leak-down',
      'conditions.altitude': 'height above sea level, where there is no barometer',
      'readings.*': 'a reading, or the readings of the corners',
      lamp: 'the warning lamp',
      'codes.code': 'the trouble code; an empty list says that codes were read and there were none',
      'codes.status': 'what the module says of the code',
      'codes.means': 'what the code means, in one of these words',
      'codes.at': 'the corner or circuit that its text names',
      'codes.in': 'which module stores it',
      'codes.set-by': '`test` where it came while a test had its circuit open',
      'codes.text': 'the text beside the code',
      note: 'a note to keep',
    },
    example: `snapshots:
  - id: as-found
    at: 2026-03-02T08:40
    state: key-on
    conditions: {floor: level, load: empty, air: 8 °C, levelling: disabled}
    readings:
      supply: 12.2 V
      battery: {value: 12.31 V, by: second-meter}
      reference: [5.01 V, 5.00 V]
      position: {LF: 2.48 V, RF: 2.55 V, LR: {low: 1.02 V, high: 1.12 V}, RR: 2.61 V}
      tank: {why: gauge missing}
    lamp: on
    codes:
      - {code: C3A23, status: stored, means: signal-range, at: LR}
`,
  },
  {
    title: 'log',
    of: ['log'],
    says: 'What was done, in any order; the times decide. The verbs `repaired`, `replaced`, `disconnected`, `programmed`, `configured`, `calibrated`, `adjusted`, `charged` and `inflated` are work: readings of what they touch become stale. A test that is done at a corner or on an axle names it (`arm-by-hand.LR`); without it the entry counts for no corner.',
    keys: {
      at: 'when',
      did: 'the verb',
      what: 'a component (`sensor.LR`), a step, a test, `codes`, `ride-height`, `road-test` or `vehicle`',
      found: 'the outcome of a test; for `inspected`, `fault-seen` or `nothing-seen`',
      result: '`failed` completes no step; the others say how a job was `closed`',
      for: 'what or whom a `waiting` job waits for',
      to: 'to whom the vehicle was `passed-on`',
      reason: 'why a test or step was `skipped`, or a job was `closed` without a repair',
      despite:
        'why something was `ordered`, `released` or `closed` although its hold point was not clear; with `by`',
      by: 'who',
      note: 'a note to keep',
    },
    example: `log:
  - {at: 2026-03-02T08:30, did: completed, what: verify-complaint, by: technician}
  - {at: 2026-03-02T09:20, did: tested, what: reference-at-plug.LR, found: in-range}
  - {at: 2026-03-02T10:30, did: repaired, what: linkage.LR, by: technician}
`,
  },
  {
    title: 'costs',
    of: ['costs'],
    says: 'What the repair costs and what the customer has authorised. The newest authorisation is the whole amount allowed, not one more on top.',
    keys: {
      currency: "default: the shop file's",
      'labour-rate': "default: the shop file's",
      'authorised.at': 'when',
      'authorised.amount': 'the whole amount allowed from then on',
      'authorised.by': 'who authorised it',
      'authorised.how': 'how: in writing, by telephone',
      'lines.kind': 'what the line is for',
      'lines.what': 'the component or the work',
      'lines.amount': 'what it costs; of labour, `minutes` can be given instead',
      'lines.minutes': 'how long it takes',
      'lines.from': 'from when paid access is open',
      'lines.lasts': 'for how long',
      'lines.note': 'a note to keep',
    },
    example: `costs:
  authorised: [{at: 2026-03-02T10:00, amount: 150, by: fleet desk, how: by telephone}]
  lines:
    - {kind: part, what: linkage.LR, amount: 25}
    - {kind: labour, what: linkage.LR, minutes: 45}
`,
  },
  {
    title: 'waivers',
    of: ['waivers'],
    says: 'Findings that somebody has accepted for a time. After `until` the finding counts again.',
    keys: {
      finding: '`pack/check`, or `pack/check:subject` for one corner or channel',
      reason: 'why it was accepted',
      by: 'who accepted it',
      until: 'the last day on which it holds',
      under: "the pack's version at that time: the waiver is void if the check has changed since",
    },
    example: `waivers:
  - finding: position-signals/rails:RR
    reason: new sensor on order, vehicle stays on the apron
    by: fleet desk
    until: 2026-03-09
`,
  },
];
