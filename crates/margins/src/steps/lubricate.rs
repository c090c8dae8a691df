//! Lubricate and bleed: gas at surface is taken out of the well by putting mud in its place, step by step.

use super::gas::{Bears, Column};
use super::{Cell, Input, Maker, Method, NOT_A_SET_POINT, PEOPLE, Refused, STANDARD_INVALID};
use crate::fields::influx::with_kick;
use rigwright_physics::control::non_circulating::{
    LubricateBleedByPressure, LubricateBleedTarget, LubricatedGain, LubricatedPressure,
};
use rigwright_physics::{Kind, Off, Range, Recorder, STANDARD_ATMOSPHERE};

/// No table is longer: a step is then far too small.
const MOST: u32 = 200;
/// Parts of the cap in which it is filled when no step is typed.
const PARTS: f64 = 10.0;

pub(super) static METHOD: Method = Method {
    slug: "lubricate",
    title: "lubricate and bleed",
    asks: "gas at surface under a closed well: mud is pumped in, falls through the gas, and gas alone is let out until the bottom has what it had before",
    inputs: &[
        Input {
            key: "pressure",
            kind: Kind::Pressure,
            meaning: "casing pressure with gas at surface",
            otherwise: None,
            must: Range::between(1e4, 2e8),
        },
        Input {
            key: "gas",
            kind: Kind::Volume,
            meaning: "volume of the gas at surface",
            otherwise: None,
            must: Range::between(0.001, 2_000.0),
        },
        Input {
            key: "weight",
            kind: Kind::Density,
            meaning: "weight of the mud pumped in",
            otherwise: Some("mud in the hole"),
            must: Range::between(700.0, 2_800.0),
        },
        Input {
            key: "volume",
            kind: Kind::Volume,
            meaning: "mud pumped in for one step",
            otherwise: Some("a tenth of the gas"),
            must: Range::between(0.001, 500.0),
        },
    ],
    cautions: &[
        "pump slowly, then wait until the mud has fallen through the gas; let out gas alone, and stop when mud comes",
        "Boyle's law at one temperature for the rise while pumping; the pressure to let out to does not rest on it",
        "the pressure form p1²/p2 is shown as a cross-check only: where it lies under the figure by volume it lets out too much and invites a second influx, and is refused",
        NOT_A_SET_POINT,
        STANDARD_INVALID,
        PEOPLE,
    ],
    make,
};

const COLUMNS: &[(&str, Option<Kind>)] = &[
    ("step", Some(Kind::Count)),
    ("casing pressure", Some(Kind::Pressure)),
    ("pump in", Some(Kind::Volume)),
    ("it rises to", Some(Kind::Pressure)),
    ("let gas out down to", Some(Kind::Pressure)),
    ("pumped in all", Some(Kind::Volume)),
    ("gas left", Some(Kind::Volume)),
    ("by the pressure form", Some(Kind::Pressure)),
    ("pressure form", None),
    ("left at the weakest rock", Some(Kind::Pressure)),
];

fn make(maker: &mut Maker) -> Result<(), Refused> {
    maker.working.heading("gas at surface");
    let pressure = maker.value("pressure", None)?;
    let gas = maker.value("gas", None)?;
    let weight = maker.value("weight", Some(maker.mud_weight()))?;
    let each = maker.value("volume", Some(gas / PARTS))?;
    let bears = Bears::new(maker);
    let gradient = maker.mud_gradient();
    let climbs =
        || Refused::new("the hole climbs towards its end: gas does not stand as one bubble", "follow the manual's own way");
    let filled = with_kick(maker.scene, pressure, |well| {
        fill(maker, Column { path: well.path, gradient }, &bears, Order { pressure, gas, weight, each })
    });
    let filled = filled.ok_or_else(climbs)??;
    maker.heading("the steps");
    maker.say("Pump in the volume of the row. Wait until it has fallen through the gas: casing pressure settles. Let out gas alone until casing pressure reads the figure of the row. Then the next row.");
    maker.table("lubricate and bleed", COLUMNS, filled.cells);
    bears.say(maker);
    if let Some((name, short)) = filled.passed {
        maker.pass(format!("While pumping in the {name} is asked for more than it bears: pump in less at a time."));
        maker.figure("short by", short, Kind::Pressure);
    }
    maker.heading("at the end");
    maker.say(filled.end);
    maker.figure("casing pressure then", filled.last, Kind::Pressure);
    if let Some(heavier) = filled.heavier {
        maker.figure("weight that would have filled the cap to nought", heavier, Kind::Density);
    }
    Ok(())
}

struct Order {
    pressure: f64,
    gas: f64,
    weight: f64,
    each: f64,
}

struct Filled {
    cells: Vec<Vec<Cell>>,
    end: &'static str,
    last: f64,
    /// Mud weight whose column in place of the cap would just hold the pressure. [kg/m³]
    heavier: Option<f64>,
    passed: Option<(&'static str, f64)>,
}

fn fill(maker: &mut Maker, column: Column, bears: &Bears, order: Order) -> Result<Filled, Refused> {
    let Order { pressure, gas, weight, each } = order;
    let annulus = column.path.annulus;
    if gas >= annulus.volume() {
        return Err(Refused::new("the gas is more than the annulus holds", "check the volume and its unit"));
    }
    let gravity = maker.scene.gravity();
    let (mut now, mut left, mut pumped) = (pressure, gas, 0.0);
    let mut filled = Filled { cells: Vec::new(), end: MUD_RETURNS, last: pressure, heavier: None, passed: None };
    for number in 1..=MOST {
        let volume = each.min(left);
        // What is left to the gas must be more than nothing for it to be pressed.
        let gas_left = left - volume;
        if gas_left <= 1e-3 * gas {
            break;
        }
        // The mud gathers at the lower end of the gas.
        let floor = annulus.volume() - left;
        let rise = annulus.height(floor + volume) - annulus.height(floor);
        if rise <= 0.0 {
            return Err(Refused::new("the gas stands in a level part of the hole", "mud put in its place adds nothing there"));
        }
        let off = &mut Off;
        let first = number == 1;
        let pumped_to = LubricatedPressure { absolute_pressure: now + STANDARD_ATMOSPHERE, volume, gas_left };
        let gained = LubricatedGain { density: weight, volume, capacity: volume / rise, gravity };
        if first {
            maker.working.heading("the first step");
        }
        let after = if first { maker.working.take(pumped_to) } else { off.take(pumped_to) } - STANDARD_ATMOSPHERE;
        let gain = if first { maker.working.take(gained) } else { off.take(gained) };
        let bleed_to = LubricateBleedTarget { surface_pressure: now, gain };
        let target = if first { maker.working.take(bleed_to) } else { off.take(bleed_to) };
        let by_pressure = LubricateBleedByPressure { surface_pressure: now, pumped_pressure: after };
        let form = if first { maker.working.take(by_pressure) } else { off.take(by_pressure) };
        pumped += volume;
        // Highest when the mud is in and has fallen: it presses below the gas, and the gas above it.
        let there = column.under(annulus.volume() - gas_left, gas_left, after);
        let rock = there.and_then(|there| bears.left(|point| column.pressure(&there, point.vertical_depth)));
        let rock = rock.map(|(left, _)| left);
        for (name, left) in [("rock", rock), ("equipment", bears.least().map(|(_, rating)| rating - after))] {
            if let Some(left) = left.filter(|left| *left < 0.0)
                && filled.passed.is_none_or(|(_, passed)| -left > passed)
            {
                filled.passed = Some((name, -left));
            }
        }
        let dead = target <= 0.0;
        filled.cells.push(vec![
            Cell::Value(f64::from(number)),
            Cell::Value(now),
            Cell::Value(volume),
            Cell::Value(after),
            Cell::Value(target.max(0.0)),
            Cell::Value(pumped),
            Cell::Value(gas_left),
            Cell::Value(form),
            Cell::Words(if form < target { "refused: too low" } else { "agrees or above" }),
            rock.map_or(Cell::Blank, Cell::Value),
        ]);
        (now, left) = (target.max(0.0), gas_left);
        filled.last = now;
        if dead {
            filled.end = DEAD;
            return Ok(filled);
        }
    }
    if filled.cells.is_empty() {
        return Err(Refused::new("one step fills the whole of the gas", "pump in less at a time: type a smaller volume"));
    }
    let cap = annulus.height(annulus.volume()) - annulus.height(annulus.volume() - gas);
    filled.heavier = (cap > 0.0).then(|| pressure / (gravity * cap));
    Ok(filled)
}

const MUD_RETURNS: &str = "Mud is about to return: stop. What is left on the gauge is the underbalance of the mud that is in the well; heavier mud, bullheading or circulation takes it off.";
const DEAD: &str =
    "The gauge comes to nought: as far as this mud goes the well is dead. Check for flow before anything is opened.";
