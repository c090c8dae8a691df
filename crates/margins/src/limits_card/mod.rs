//! The limits card: how much pressure a shut-in well may show, what governs and until when, how much of a kick it takes, how
//! to fill it and how fast pipe may move. With what it rests on, and how old that is.

mod bounds;
mod passing;

#[cfg(test)]
mod tests;

pub use crate::control::tolerance::WHOLE_ANNULUS;
pub use bounds::Bound;
pub use passing::{Passage, Passing};

use crate::circulating::pumps::pump_output;
use crate::circulating::safe_speed::{MovedAt, moved_at};
use crate::control::{self, tolerance};
use crate::kill_sheet::Constants;
use crate::kill_sheet::slow_rate::{self, Wanted};
use crate::trip_sheet::{Fill, kinds};
use crate::{Answer, Basis, Remark, Scene, sweep};
use jiff::civil::Date;
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::{Fit, Operation};

/// What a limits card is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Order {
    /// Index of the section.
    pub section: usize,
    /// Measured depth of the hole. [m]
    pub hole_depth: f64,
    /// Day of the card, by which readings are old.
    pub as_of: Option<Date>,
}

/// How much of a kick the well takes at one depth of hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Tolerance {
    /// Measured depth of the hole. [m]
    pub hole_depth: f64,
    /// With the design intensity: the volume is the capacity of the answer's limit.
    pub drilled: Answer,
    /// Without intensity.
    pub swabbed: Answer,
}

/// Fastest mean speeds that keep the margins, with the bit or the shoe at one depth;
/// [`FASTEST`](crate::trip_sheet::FASTEST) where no speed is too fast. [m/s]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Speeds {
    /// Measured depth of the bit or of the shoe. [m]
    pub bit_depth: f64,
    /// Pulling out.
    pub pulling: Option<f64>,
    /// Running in.
    pub running: Option<f64>,
    /// Running casing; `None` as well below where it goes.
    pub casing: Option<f64>,
}

/// Something read or tested that the card rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Rest {
    /// What it is.
    pub what: &'static str,
    /// Day of it; `None` for a plan or an undated reading.
    pub date: Option<Date>,
    /// Days since, where both days are known.
    pub age: Option<i32>,
    /// What is to be said of it.
    pub note: &'static str,
}

/// A limits card of one section.
#[derive(Clone, Debug)]
pub struct LimitsCard {
    /// What it was asked for.
    pub order: Order,
    /// Constants of the shoe's and the open hole's bounds and of the filling; all else is exact.
    pub constants: Constants,
    /// Vertical depth of the hole. [m]
    pub vertical_depth: f64,
    /// Measured depth of the shoe above the open hole; `None` before the first casing. [m]
    pub shoe: Option<f64>,
    /// Mud weight. [kg/m³]
    pub mud_weight: f64,
    /// Output of one stroke of one pump. [m³]
    pub pump_output: Option<f64>,
    /// Pump speed at which friction is told. [1/s]
    pub pump_speed: Option<f64>,
    /// What bounds the casing pressure, with mud all the way. Empty before the first casing.
    pub bounds: Vec<Bound>,
    /// The design kick on its way out.
    pub passing: Option<Passing>,
    /// How much of a kick the well takes, by depth of hole.
    pub tolerance: Vec<Tolerance>,
    /// Filling by kind of pipe.
    pub fills: Vec<Fill>,
    /// Trip speeds by depth.
    pub speeds: Vec<Speeds>,
    /// What it rests on.
    pub rests: Vec<Rest>,
    /// Why it is stale; empty when it is not.
    pub stale: Vec<Remark>,
    /// What to beware of.
    pub cautions: Vec<Remark>,
}

impl LimitsCard {
    /// The bound that allows least with the well still; `None` where any of them is unknown.
    pub fn governing(&self) -> Option<&Bound> {
        let known = self.bounds.iter().all(|bound| bound.still.is_some());
        self.least().filter(|_| known)
    }

    /// The least of the bounds that are known.
    pub fn least(&self) -> Option<&Bound> {
        let known = self.bounds.iter().filter_map(|bound| Some((bound, bound.still?)));
        known.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(bound, _)| bound)
    }

    /// The least of the bounds that are known while pumping.
    pub fn least_pumping(&self) -> Option<&Bound> {
        let known = self.bounds.iter().filter_map(|bound| Some((bound, bound.pumping?)));
        known.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(bound, _)| bound)
    }
}

/// Parts of a section at whose ends tolerance is told.
const PARTS: u32 = 4;
/// Rows of the trip speeds.
const SPEED_ROWS: u32 = 10;

/// The limits card of a section.
pub fn limits_card<R: Recorder>(fit: &Fit, order: &Order, rec: &mut R) -> LimitsCard {
    limits_card_by(fit, order, Constants::EXACT, rec)
}

/// The same by exact constants, or by those of the trade.
pub fn limits_card_by<R: Recorder>(fit: &Fit, order: &Order, constants: Constants, rec: &mut R) -> LimitsCard {
    let basis = Basis::new(fit);
    let mut situation = sweep::situation(fit, order.section, Operation::ShutIn, order.hole_depth, order.hole_depth);
    // The gauges read whatever back pressure was held.
    situation.back_pressure = 0.0;
    let scene = Scene::new(&basis, situation);
    let shoe = fit.well.casing_above(order.section).map(|casing| casing.shoe).filter(|_| control::can_shut_in(&scene));
    let wanted = Wanted { hole_depth: order.hole_depth, pump_speed: None, pump: None, as_of: order.as_of };
    let slow = slow_rate::choose(&scene, wanted, &mut Off);
    let output = pump_output(&scene, rec);
    let pump_speed = slow.as_ref().map(|slow| slow.reading.pump_speed);
    let rate = pump_speed.zip(output).map(|(speed, output)| speed * output);
    let choke_line = slow.as_ref().and_then(|slow| slow.choke_line_loss);
    let subsea = fit.riser(order.section).is_some();
    // With preventers on the sea bed nothing is told while pumping unless the loss in the choke line is known.
    let pumped = rate
        .filter(|_| !subsea || choke_line.is_some())
        .map(|rate| bounds::Pumped { rate, choke_line_loss: choke_line.unwrap_or(0.0) });
    let bounds = shoe.map_or_else(Vec::new, |shoe| bounds::bounds(&scene, shoe, pumped, &constants, rec));
    let passing = shoe.and_then(|shoe| passing::passing(&scene, shoe, &bounds, rec));
    let mut cautions = cautions(&scene, shoe, &bounds, passing.as_ref());
    let (speeds, missing) = speeds(&scene);
    cautions.extend(
        missing.into_iter().map(|entry| Remark::new(format!("trip speeds are unknown, not without end: `{entry}` is not given"))),
    );
    LimitsCard {
        order: *order,
        constants,
        vertical_depth: scene.vertical_depth(order.hole_depth),
        shoe,
        mud_weight: scene.section().mud.weight,
        pump_output: output.map(|exact| exact * constants.output),
        pump_speed,
        bounds,
        passing,
        tolerance: if shoe.is_some() { tolerances(&basis, order) } else { Vec::new() },
        fills: kinds(&scene, &constants, rec),
        speeds,
        rests: rests(fit, order, slow.as_ref()),
        stale: slow.map_or_else(Vec::new, |slow| slow.stale),
        cautions,
    }
}

fn tolerances(basis: &Basis, order: &Order) -> Vec<Tolerance> {
    let top = basis.fit.well.sections[order.section].top;
    let at = |part: u32| {
        let hole_depth = top + (order.hole_depth - top) * f64::from(part) / f64::from(PARTS);
        let scene = Scene::new(basis, sweep::situation(basis.fit, order.section, Operation::ShutIn, hole_depth, hole_depth));
        let (drilled, swabbed) = (tolerance::drilled(&scene, &mut Off), tolerance::swabbed(&scene, &mut Off));
        Tolerance { hole_depth, drilled, swabbed }
    };
    (1..=PARTS).map(at).collect()
}

/// Trip speeds by depth, in whole stands, and the entries that are missing.
fn speeds(scene: &Scene) -> (Vec<Speeds>, Vec<&'static str>) {
    let section = scene.section();
    let (stand, end) = (scene.fit().rig.mast.stand, scene.situation.hole_depth);
    let step = (end / f64::from(SPEED_ROWS) / stand).ceil().max(1.0) * stand;
    let mut depths: Vec<f64> = (1..=SPEED_ROWS).map(|row| f64::from(row) * step).take_while(|depth| *depth < end).collect();
    depths.push(end);
    let mut missing: Vec<&'static str> = Vec::new();
    let mut ask = |operation: Operation, depths: &[f64]| match moved_at(scene, operation, depths, 0.0) {
        Ok(moved) => moved,
        Err(entry) => {
            if !missing.contains(&entry) {
                missing.push(entry);
            }
            Vec::new()
        }
    };
    let pulling = ask(Operation::PullingOut, &depths);
    let running = ask(Operation::RunningIn, &depths);
    let casing = section.casing.as_ref().map_or_else(Vec::new, |casing| {
        let into: Vec<f64> = depths.iter().copied().take_while(|depth| *depth <= casing.shoe).collect();
        ask(Operation::RunningCasing, &into)
    });
    let at = |moved: &[MovedAt], index: usize| moved.get(index).map(|moved| moved.fastest);
    let row = |(index, bit_depth): (usize, &f64)| Speeds {
        bit_depth: *bit_depth,
        pulling: at(&pulling, index),
        running: at(&running, index),
        casing: at(&casing, index),
    };
    let rows = depths.iter().enumerate().map(row).filter(|row| row.pulling.is_some() || row.running.is_some()).collect();
    (rows, missing)
}

fn rests(fit: &Fit, order: &Order, slow: Option<&crate::kill_sheet::Slow>) -> Vec<Rest> {
    let age = |date: Option<Date>| date.zip(order.as_of).map(|(date, today)| (today - date).get_days());
    let rest = |what, date: Option<Date>, note| Rest { what, date, age: age(date), note };
    let mut rests = Vec::new();
    let test = fit.well.casing_above(order.section).and_then(|casing| casing.leak_off);
    if let Some(test) = test {
        let note = match (test.measured, test.integrity_only) {
            (false, _) => "a plan: not tested",
            (true, true) => "an integrity test, no fracture pressure",
            (true, false) => "measured",
        };
        rests.push(rest("shoe test", test.date, note));
    }
    let mud = &fit.well.sections[order.section].mud;
    rests.push(rest("mud report", mud.rheogram.date, "weight and readings"));
    if let Some(slow) = slow {
        rests.push(rest("slow rate", slow.reading.date, "friction while pumping is told at its speed"));
    }
    rests
}

fn cautions(scene: &Scene, shoe: Option<f64>, bounds: &[Bound], passing: Option<&Passing>) -> Vec<Remark> {
    let mut cautions = Vec::new();
    let well = &scene.fit().well;
    if shoe.is_none() {
        cautions
            .push(Remark::new("no casing to shut the well in on: shallow flow is diverted, no limit of casing pressure is told"));
        return cautions;
    }
    for bound in bounds.iter().filter(|bound| bound.still.is_some_and(|still| still <= 0.0)) {
        let passed = Remark::new(format!("{}: mud alone is above what it bears", bound.name));
        cautions.push(passed.with("left", bound.still.unwrap_or_default(), Kind::Pressure));
    }
    if passing.is_none() {
        let why = match (well.kick.volume, well.kick.intensity) {
            (Some(_), Some(_)) => {
                "the design kick is no single bubble here, or a limit is unknown: when the governing one changes is not told"
            }
            _ => "no design kick is given (`kick.volume`, `kick.intensity`): when the governing limit changes is not told",
        };
        cautions.push(Remark::new(why));
    }
    if let Some(managed) = scene.section().managed_pressure {
        let held = Remark::new(
            "drilled with back pressure: the limits are for the preventers with conventional control; what is held already counts",
        );
        cautions.push(held.with("held with pumps off", managed.still, Kind::Pressure));
    }
    if well.sea_bed().is_some() {
        cautions.push(Remark::new("preventers on the sea bed: figures are those at the choke on the rig, with mud in the choke line; while pumping the loss in the choke line is taken off. Gas in the choke line takes its mud away: what may stand at the choke is then more, and comes fast"));
    }
    cautions
}
