//! Rows of pressure control: back pressure in a section, and what holds it on the rig.

use crate::entry::{Entry, quantity, table};
use crate::knobs::{FLOWING_BACK_PRESSURE, STILL_BACK_PRESSURE};
use rigwright_physics::Range;
use rigwright_units::Kind::{Depth, FlowRate, Pressure, Time, Volume};

/// A limit of nothing would be no limit.
const RATING: Range = Range::between(1e5, 350e6);
const INFLUX: Range = Range::between(0.001, 200.0);

pub(super) const SECTION: &[Entry] = &[
    table("section[].managed_pressure", "back pressure, where the section is drilled with managed pressure").optional(),
    quantity("section[].managed_pressure.flowing", Pressure, "100 psi", "back pressure while pumping")
        .knob(&FLOWING_BACK_PRESSURE),
    quantity("section[].managed_pressure.still", Pressure, "350 psi", "back pressure with pumps off").knob(&STILL_BACK_PRESSURE),
    quantity(
        "section[].managed_pressure.anchor",
        Depth,
        "9000 ft",
        "measured depth whose pressure is held through a connection; without it the bottom of the hole",
    )
    .optional(),
    quantity("section[].managed_pressure.pressure_limit", Pressure, "700 psi", "highest back pressure that the plan allows")
        .must(RATING)
        .unknown(),
    quantity(
        "section[].managed_pressure.influx_operating",
        Volume,
        "1 bbl",
        "influx up to which drilling goes on while back pressure is put up",
    )
    .must(INFLUX)
    .unknown(),
    quantity(
        "section[].managed_pressure.influx_planned",
        Volume,
        "3 bbl",
        "influx up to which it is circulated out through the managed choke; above, the preventers close",
    )
    .must(INFLUX)
    .unknown(),
    quantity(
        "section[].managed_pressure.leak_rate",
        FlowRate,
        "300 gpm",
        "flow that gets out of the annulus when the seal or the choke fails",
    )
    .unknown(),
    quantity("section[].managed_pressure.run_down", Time, "15 s", "time in which the pumps run down when power is lost")
        .must(Range::between(0.1, 3_600.0))
        .unknown(),
    quantity(
        "section[].managed_pressure.response_time",
        Time,
        "90 s",
        "time in which the crew has a preventer closed; the time to imbalance is then judged by it",
    )
    .must(Range::between(1.0, 7_200.0))
    .optional(),
];

pub(super) const RIG: &[Entry] = &[
    table("rig.rotating_seal", "rotating seal on top of the stack").optional(),
    quantity("rig.rotating_seal.turning", Pressure, "1000 psi", "pressure that it bears while the string turns")
        .must(RATING)
        .unknown(),
    quantity("rig.rotating_seal.still", Pressure, "2000 psi", "pressure that it bears with the string still")
        .must(RATING)
        .unknown(),
    table("rig.managed_choke", "choke that holds back pressure while drilling").optional(),
    quantity("rig.managed_choke.rating", Pressure, "5000 psi", "working pressure").must(RATING).unknown(),
];
