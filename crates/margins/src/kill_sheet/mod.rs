//! The kill sheet: from shut-in readings to weights, pressures, strokes and what the well bears on the way.
//!
//! Preventers at surface or on the sea bed, bit on bottom, one bubble of gas. Readings that cannot be are refused with the reason; a slow
//! rate reading that is older than what it should describe makes the sheet [`stale`](KillSheet::stale). Pressures are
//! gauge, volumes go by measured depth and pressures by vertical depth.

mod choke_line;
mod constants;
mod course;
mod influx;
pub(crate) mod lengths;
mod limits;
mod readings;
pub(crate) mod schedule;
pub(crate) mod slow_rate;
mod stock;

#[cfg(test)]
mod tests;

pub use choke_line::{BothLines, ChokeLine};
pub use constants::Constants;
pub use course::{Course, Instants, Kinder, Peak, Row, WeakPoint};
pub use influx::{Influx, InfluxKind};
pub use lengths::{Length, Volumes};
pub use limits::{Held, Swap};
pub use readings::{Float, Readings};
pub use schedule::{Schedule, Shares, Step};
use slow_rate::Wanted;
pub use slow_rate::{Rate, Slow, StartStep};
pub use stock::Stock;

use crate::fields::influx::with_kick_under;
pub use crate::remark::Remark;
use crate::{Basis, Scene, sweep};
use jiff::civil::Date;
use rigwright_physics::control::kick::FormationPressure;
use rigwright_physics::control::kill::KillMudWeight;
use rigwright_physics::control::rounding::round_up;
use rigwright_physics::{Kind, Recorder};
use rigwright_well::{Fit, Operation};

/// What a kill sheet is asked for.
#[derive(Clone, Copy, Debug)]
pub struct Order {
    /// Index of the section.
    pub section: usize,
    /// Measured depth of the hole, with the bit on bottom. [m]
    pub hole_depth: f64,
    /// What the gauges and the pits read.
    pub readings: Readings,
    /// Exact constants, or those of the trade.
    pub constants: Constants,
    /// Step in which a kill mud weight can be mixed and read. [kg/m³]
    pub weight_step: f64,
    /// Pump speed wanted; the reading nearest to it is taken. [1/s]
    pub pump_speed: Option<f64>,
    /// Day of the sheet, by which readings are old.
    pub as_of: Option<Date>,
}

impl Order {
    /// An order without readings, for a sheet that a crew fills in at a drill: only its volumes and slow rates mean anything.
    pub fn without_readings(section: usize, hole_depth: f64) -> Order {
        let readings =
            Readings { drill_pipe_pressure: 0.0, casing_pressure: 0.0, gain: 0.0, gain_error: None, float: Float::None };
        let (constants, weight_step) = (Constants::EXACT, 1.0);
        Order { section, hole_depth, readings, constants, weight_step, pump_speed: None, as_of: None }
    }
}

/// A kill sheet.
#[derive(Clone, Debug)]
pub struct KillSheet {
    /// What it was asked for.
    pub order: Order,
    /// Vertical depth of the bit. [m]
    pub vertical_depth: f64,
    /// Measured depth of the shoe above the open hole. [m]
    pub shoe: f64,
    /// Mud weight in the hole. [kg/m³]
    pub mud_weight: f64,
    /// Formation pressure that the drill pipe pressure tells. [Pa]
    pub formation_pressure: f64,
    /// Kill mud weight before rounding. [kg/m³]
    pub exact_weight: f64,
    /// Kill mud weight, rounded up. [kg/m³]
    pub kill_weight: f64,
    /// What the rounding leaves as overbalance at the bottom. [Pa]
    pub rounding_overbalance: f64,
    /// Mud weight with the trip margin, for after the kill. [kg/m³]
    pub trip_weight: f64,
    /// Volumes and strokes by section.
    pub volumes: Volumes,
    /// The slow rate that the sheet rests on; `None` when none was read.
    pub slow: Option<Slow>,
    /// Every slow rate of the section with its pressures, and speeds around the chosen one: for a change of rate or pump in
    /// mid-kill.
    pub rates: Vec<Rate>,
    /// The choke line from preventers on the sea bed; `None` with preventers at surface.
    pub choke_line: Option<ChokeLine>,
    /// Bringing the pump to rate; empty without a slow rate.
    pub start_up: Vec<StartStep>,
    /// Drill pipe pressure against strokes; `None` without a slow rate.
    pub schedule: Option<Schedule>,
    /// What came in.
    pub influx: Influx,
    /// Driller's method, first circulation.
    pub driller: Option<Course>,
    /// Wait and weight.
    pub weighted: Option<Course>,
    /// The weakest depth of open hole along both, where the strength of any is known.
    pub weakest: Option<WeakPoint>,
    /// Which method is kinder to the shoe.
    pub kinder: Option<Kinder>,
    /// What the well and the rig bear, each by its name.
    pub limits: Vec<Held>,
    /// When the governing limit changes as the gas passes.
    pub swap: Option<Swap>,
    /// Barite, room and time.
    pub stock: Stock,
    /// Why the sheet is stale; empty when it is not.
    pub stale: Vec<Remark>,
    /// What to beware of.
    pub cautions: Vec<Remark>,
}

/// What every part of a sheet reads.
#[derive(Clone, Copy)]
struct Ground<'a, 'b> {
    scene: &'a Scene<'b>,
    order: &'a Order,
    volumes: &'a Volumes,
    /// Kill mud weight, rounded up. [kg/m³]
    kill_weight: f64,
}

/// Heaviest mud that barite makes; beyond it the readings are wrong. [kg/m³]
const HEAVIEST_MUD: f64 = 2600.0;

/// The kill sheet of a section, or why there can be none.
pub fn kill_sheet<R: Recorder>(fit: &Fit, order: &Order, rec: &mut R) -> Result<KillSheet, Vec<Remark>> {
    kill_sheet_with_pump(fit, order, None, rec)
}

/// The same with one pump, by its number: only slow rates of it are taken.
pub fn kill_sheet_with_pump<R: Recorder>(
    fit: &Fit,
    order: &Order,
    pump: Option<u32>,
    rec: &mut R,
) -> Result<KillSheet, Vec<Remark>> {
    let basis = Basis::new(fit);
    let mut situation = sweep::situation(fit, order.section, Operation::ShutIn, order.hole_depth, order.hole_depth);
    // The gauges read whatever back pressure was held.
    situation.back_pressure = 0.0;
    let scene = Scene::new(&basis, situation);
    let Some(casing) = fit.well.casing_above(order.section) else {
        return Err(vec![Remark::new("no casing to shut the well in on: shallow flow is diverted, not killed")]);
    };
    if fit.open_to_sea(order.section).is_some() {
        return Err(vec![Remark::new("no riser and no preventers yet: shallow flow goes to the sea bed, nothing is shut in")]);
    }
    let shoe = casing.shoe;
    let vertical_depth = scene.vertical_depth(order.hole_depth);
    let (mud_weight, gravity) = (scene.section().mud.weight, order.constants.gravity);
    let volumes = lengths::volumes(&scene, &order.constants, rec)?;
    let mut cautions = readings::check(&scene, order, &volumes)?;

    rec.heading("formation pressure and kill mud weight");
    let drill_pipe_pressure = order.readings.drill_pipe_pressure;
    let formation_pressure = rec.take(FormationPressure { drill_pipe_pressure, mud_weight, vertical_depth, gravity });
    let exact_weight = rec.take(KillMudWeight { mud_weight, drill_pipe_pressure, vertical_depth, gravity });
    let kill_weight = round_up(exact_weight, order.weight_step);
    rec.given("kill mud weight, rounded up", kill_weight, Kind::Density);
    if kill_weight > HEAVIEST_MUD {
        let why = "the drill pipe pressure asks for a mud heavier than can be made: a reading, a unit or a depth is wrong";
        return Err(vec![Remark::new(why).with("kill mud weight", exact_weight, Kind::Density)]);
    }
    let ground = Ground { scene: &scene, order, volumes: &volumes, kill_weight };

    let slow = slow_rate::choose(&scene, Wanted { pump, ..order.into() }, rec);
    let rates = slow_rate::rates(ground, slow.as_ref());
    let start_up = slow.as_ref().map_or_else(Vec::new, |slow| slow_rate::start_up(ground, slow));
    let stale = slow.as_ref().map_or_else(slow_rate::missing, |slow| slow.stale.clone());
    cautions.extend(slow.iter().flat_map(|slow| slow.cautions.iter().cloned()));
    let choke_line = choke_line::choke_line(ground, slow.as_ref(), rec);
    cautions.extend(choke_line.iter().flat_map(ChokeLine::cautions));
    let schedule = slow.as_ref().map(|slow| schedule::schedule(ground, slow, rec));
    cautions.extend(schedule.iter().flat_map(Schedule::cautions));

    let influx = influx::influx(ground, rec);
    cautions.extend(influx.cautions(mud_weight));

    let paths = with_kick_under(&scene, gravity, formation_pressure, |well| course::courses(ground, well, exact_weight, rec));
    let (driller, weighted, weakest) = match paths {
        Some(Some(course::Courses { driller, weighted, weakest })) => (Some(driller), Some(weighted), weakest),
        Some(None) => {
            cautions.push(Remark::new("the gas leaves the range of its correlation: no course of the pressures is told"));
            (None, None, None)
        }
        None => {
            cautions.push(Remark::new("the hole climbs towards its end: no single bubble, no course of the pressures is told"));
            (None, None, None)
        }
    };
    let kinder = driller.as_ref().zip(weighted.as_ref()).map(|(driller, weighted)| Kinder::of(driller, weighted));
    let initial = schedule.as_ref().map(|schedule| schedule.initial_pressure);
    let (limits, swap) =
        limits::limits(ground, (slow.as_ref(), initial), [driller.as_ref(), weighted.as_ref()], weakest.as_ref(), rec);
    cautions.extend(limits::cautions(&limits, &scene));
    let stock = stock::stock(ground, slow.as_ref(), driller.as_ref(), rec);
    cautions.extend(stock.cautions());
    Ok(KillSheet {
        order: *order,
        vertical_depth,
        shoe,
        mud_weight,
        formation_pressure,
        exact_weight,
        kill_weight,
        rounding_overbalance: (kill_weight - exact_weight) * gravity * vertical_depth,
        trip_weight: kill_weight + fit.well.margins.trip,
        volumes,
        slow,
        rates,
        choke_line,
        start_up,
        schedule,
        influx,
        driller,
        weighted,
        weakest,
        kinder,
        limits,
        swap,
        stock,
        stale,
        cautions,
    })
}
