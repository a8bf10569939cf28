// Package casefile reads a case file, YAML with a unit on every quantity, into a [choice.Case]. It is the only package that knows
// YAML.
//
// A case file is written by an engineer and is read the way it looks. YAML changes meaning silently, so everything with two
// readings is refused with a message of its own: commas in numbers, leading zeros, underscores, text blocks, tabs, a second
// document, anchors, aliases, merges and tags, a key given twice. A byte order mark, CRLF line ends, U+2212 for minus and no-break
// spaces are accepted, for word processors put them in.
//
// Reading goes one way:
//
//	bytes -> source   encoding, characters, size
//	      -> tokens   the traps of YAML
//	      -> node     a tree of mappings, lists and texts that know their line and column
//	      -> sections one reader per section of the file; a key that no reader asks for is unknown
//	      -> Case     checked by network.Validate, whose paths lead back to lines and columns
//
// A fault of syntax ends the reading at once; all other faults are gathered and reported together, as [Errors], in the order of the
// file.
//
// # Paths
//
// A value is named by the keys that lead to it, joined by points, with the number of a row in brackets, from 1:
// "pipes.rising-main.profile[2][1]" is the chainage in the second row of the profile. [Document.With] and `set:` of a scenario take
// such paths.
//
// A fault in a value set from outside has no line: it is shown below "path=value".
//
// # Sections
//
// Every quantity has its unit; "name" and "node" are the user's.
//
//	format, title, note
//	fluid              liquid: water with temperature; or a liquid with density, bulk modulus, viscosity, vapour pressure
//	atmosphere         absolute pressure
//	reservoirs         name: level, a value or a table of time and level
//	demands            node: flow
//	dead ends          list of nodes
//	stations           name: from, to, units, running, elevation, slope, check valve, pump, branch
//	                   pump: rated (flow, head, speed, efficiency), curve, inertia, specific speed, water length, ratchet (yes or no)
//	                   branch: length and what a pipe has but profile
//	pipes              name: from, to, bore with wall or size (DN450 STD, NPS 18 STD, 18 in STD), material, modulus, restraint, creep, gas content or
//	                   wave speed, roughness or friction factor, minor loss, bends (list of chainages), profile or length with elevation
//	check valves       name: from, to, elevation, slope, valve (candidate, or a name from valves); those that stand alone: in the line, or in the
//	                   bypass of a station, from the node it takes from to the node it delivers to
//	throttling valves  name: from, to, bore, elevation, opening (a value or a table of time and opening); one of loss, kv (m3/h of cold water at
//	                   1 bar, IEC 60534-1), kv table and loss table (over the opening); with loss or kv an inherent characteristic (linear,
//	                   quadratic or equal percentage)
//	(devices)          name: see below
//	candidates, valves name: type, size (DN250, NPS 10 or a length), and any datum of the type; a candidate may name one of the valves instead,
//	                   valve, with the data in which it differs. The section valves may stand in a file of its own, which the case names:
//	                   format, title, note, valves. Files that are named in it lie beside it, all of them below the folder of the case
//	events             list of {trip: station, units, at}, {start: station, units, at, over}, {stroke: throttling valve, to, over, at},
//	                   {fail: station or check valve, units, opening, at}, in any order
//	scenarios          name: events, set
//	run                until, friction (quasi-steady, weighted or accelerated), cavities (gas or vapour)
//	limits             design pressure, surge allowance or rule (a name, or name, allowance, status), minimum pressure, reverse velocity, pump reverse speed, reverse volume, head loss, anchor force
//	service            dirty, piggable, pulsation (each yes or no), reverse rotation (allowed or not allowed), backflow (harmful or harmless)
//	report             project, document, revision, date, prepared, checked
//
// The water length of a pump is the length of a column with the bore of the branch, which stands for the inertia rho L/A of the water in
// pump and suction. A suction of another bore counts with its length times the ratio of areas, branch over suction.
//
// # Devices
//
// Each kind of device has a section, name: keys. Behind a key stand its dimension or form and, in parentheses, what holds when the file
// leaves it out; a key without such a value must be given, but for tables.
//
//	air vessels: a closed vessel with a cushion of gas
//	  at                     node that it is connected to
//	  level                  length; elevation of the liquid surface in steady flow
//	  volume                 volume; whole volume of the vessel
//	  gas volume             volume; volume of the gas in steady flow
//	  least liquid           volume (0 m3); volume of liquid that is to stay in the vessel; a run that goes below it says so
//	  plan area              area (0 m2); horizontal area of the vessel; 0: the level is taken as constant
//	  polytropic exponent    number (1.2); 1 isothermal to 1.4 adiabatic; 1.2 is common practice
//	  connection bore        length; bore on whose velocity head the losses are
//	  inflow loss            number (1); loss coefficient of flow into the vessel
//	  outflow loss           number (0.5); loss coefficient of flow out of the vessel
//
//	surge tanks: a tank or standpipe open to the atmosphere
//	  at                     node that it is connected to
//	  plan area              area (0 m2); horizontal area, the same at every level; 0: by the area table
//	  area table             table of level, area; horizontal area against level, in place of plan area: linear between rows, constant outside, a step where two rows have the same level
//	  overflow level         length; elevation of the crest over which it spills, or of its rim
//	  bottom level           length; elevation of the floor, below which it is empty
//	  connection bore        length; bore on whose velocity head the losses are
//	  inflow loss            number (1); loss coefficient of flow into the tank, throttle included
//	  outflow loss           number (0.5); loss coefficient of flow out of the tank, throttle included
//
//	one-way tanks: an open tank that feeds the line through its own check valve
//	  at                     node that it feeds
//	  level                  length; elevation of the liquid surface at the start, below the head of the node in steady flow
//	  bottom level           length; elevation of the floor, below which it is empty
//	  plan area              area; horizontal area, the same at every level
//	  connection bore        length; bore on whose velocity head the loss is
//	  outflow loss           number (2.5); loss coefficient of entrance, connection and open check valve together; 2.5 is common practice
//
//	relief valves: opens at a set pressure and discharges to the surroundings
//	  at                     node that it protects
//	  elevation              length; elevation of the valve, where its set pressure counts
//	  set pressure           pressure; gauge pressure above which it opens
//	  blow-down              fraction (0 %); it closes below the set pressure less this fraction of it
//	  opening time           time (0 s); time from shut to full lift; 0: as fast as the pressure asks
//	  closing time           time (0 s); time from full lift to shut; 0: as fast as the pressure asks
//	  area                   area (0 m2); flow area at full lift; 0: the capacity is given by kv
//	  discharge coefficient  number (0.62); on the area; 0.62, a sharp-edged orifice, is common practice
//	  kv                     number (0); flow of cold water, m3/h, at full lift and 1 bar (IEC 60534-1), in place of area
//	  discharge height       length (0 m); height of the mouth of the discharge pipe above the valve
//
//	rupture discs: bursts once at a pressure and stays open
//	  at                     node that it protects
//	  elevation              length; elevation of the disc, where its burst pressure counts
//	  burst pressure         pressure; gauge pressure at which it bursts
//	  area                   area; flow area once burst
//	  discharge coefficient  number (0.62); 0.62 for the disc alone, a nozzle before and a free mouth behind it (API 520-1, from memory)
//	  discharge height       length (0 m); height of the mouth of the discharge pipe above the disc
//
//	air valves: lets air in below atmospheric pressure and out above it
//	  at                     node that it stands on
//	  elevation              length; elevation of the valve
//	  inflow area            area; area through which air enters
//	  outflow area           area; area through which air leaves; 0: it stays in the line
//	  inflow coefficient     number (0.6); discharge coefficient on the inflow area; 0.6 is common practice
//	  outflow coefficient    number (0.6); discharge coefficient on the outflow areas; 0.6 is common practice
//	  second stage volume    volume (0 m3); volume of air left at which the second stage begins; 0: there is none
//	  second stage area      area (0 m2); area through which air leaves in the second stage
//	  polytropic exponent    number (1); of the air in the line: 1 isothermal to 1.4 adiabatic; 1 is common practice for small pockets
//	  air temperature        temperature (15 °C); of the air outside and in the line
//
//	orifices: a fixed loss between two nodes
//	  from                   node on one side
//	  to                     node on the other side
//	  pipe bore              length; bore of the pipe, on whose velocity head the loss is
//	  bore                   length (0 m); bore of a sharp-edged plate, from which its loss follows; 0: the loss is given
//	  loss                   number (0); loss coefficient, in place of the bore of the plate
//
//	outlets: a demand that depends on the pressure, or holds it
//	  at                     node that it takes from
//	  elevation              length; elevation of its mouth
//	  flow                   flow; flow at the pressure given, fully open
//	  pressure               pressure; gauge pressure at which that flow leaves
//	  sustained pressure     pressure (0 bar); gauge pressure that it throttles itself to keep up; 0: always fully open
//
// # Defaults
//
// Whatever the file leaves out and the calculation needs is listed in words in Case.Assumptions, with how far it can be trusted;
// [Document.Origins] says of every value whether it was given, is a default, comes from a catalogue or is an estimate.
//
// # Pressures
//
// Pressures are gauge unless marked absolute ("bar abs", "psia"); an absolute one becomes gauge by taking the atmosphere off:
//
//	p = p_abs - p_atm
//
// Atmosphere and vapour pressure are always absolute.
package casefile
