//! The slow circulating rate that a sheet rests on, and whether it still holds.

use super::{Ground, Order, Remark};
use crate::Scene;
use jiff::civil::Date;
use rigwright_physics::control::kill::{FinalCirculatingPressure, InitialCirculatingPressure};
use rigwright_physics::control::subsea::FrictionWithWeight;
use rigwright_physics::{Formula, Kind, Recorder};
use rigwright_well::SlowRate;

/// Mud weights closer than this are one: what a mud balance can read. [kg/m³]
const SAME_WEIGHT: f64 = 6.0;
/// A reading is renewed after this much new hole: 500 ft, common practice. [m]
const NEW_HOLE: f64 = 152.4;
/// A reading is renewed each tour: common practice. [d]
const OLD: i32 = 1;
/// Liners closer than this are one. [m]
const SAME_LINER: f64 = 1e-4;

/// A slow rate with what speaks against it.
#[derive(Clone, Debug)]
pub struct Slow {
    /// As it was read.
    pub reading: SlowRate,
    /// Its pressure with the mud that is in the hole. [Pa]
    pub pressure: f64,
    /// Why it no longer holds; empty when it does.
    pub stale: Vec<Remark>,
    /// What it leaves open.
    pub cautions: Vec<Remark>,
}

/// A slow rate with the pressures of a kill at it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rate {
    /// Pump speed. [1/s]
    pub pump_speed: f64,
    /// Measured depth when it was read. [m]
    pub depth: f64,
    /// Slow rate pressure with the mud in the hole. [Pa]
    pub slow_pressure: f64,
    /// Initial circulating pressure. [Pa]
    pub initial_pressure: f64,
    /// Final circulating pressure. [Pa]
    pub final_pressure: f64,
    /// Time of one circulation, pump to pump. [s]
    pub circulation: f64,
}

/// What a reading is looked up for.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wanted {
    /// Measured depth of the hole. [m]
    pub(crate) hole_depth: f64,
    /// Pump speed wanted. [1/s]
    pub(crate) pump_speed: Option<f64>,
    /// Day of the paper.
    pub(crate) as_of: Option<Date>,
}

impl From<&Order> for Wanted {
    fn from(order: &Order) -> Wanted {
        Wanted { hole_depth: order.hole_depth, pump_speed: order.pump_speed, as_of: order.as_of }
    }
}

/// What a sheet without any reading says on its face.
pub(super) fn missing() -> Vec<Remark> {
    vec![Remark::new(
        "no slow rate was read in this section (`section[].slow_rate[]`): initial and final circulating pressure and the schedule are unknown. Bring the pump to rate with the casing pressure held, and read the drill pipe: what it shows is the initial circulating pressure",
    )]
}

/// The reading nearest in depth; of several there, the one nearest to the speed wanted, or the slowest.
pub(crate) fn choose<R: Recorder>(scene: &Scene, wanted: Wanted, rec: &mut R) -> Option<Slow> {
    let readings = &scene.section().slow_rates;
    let off = |reading: &SlowRate| (reading.depth - wanted.hole_depth).abs();
    let speed = |reading: &SlowRate| wanted.pump_speed.map_or(reading.pump_speed, |speed| (reading.pump_speed - speed).abs());
    let better = |a: &&SlowRate, b: &&SlowRate| match wanted.pump_speed {
        Some(_) => speed(a).total_cmp(&speed(b)).then(off(a).total_cmp(&off(b))),
        None => off(a).total_cmp(&off(b)).then(speed(a).total_cmp(&speed(b))),
    };
    let reading = *readings.iter().min_by(better)?;
    rec.heading("slow rate pressure");
    rec.given("as read", reading.pressure, Kind::Pressure);
    rec.given("at a pump speed of", reading.pump_speed, Kind::StrokeRate);
    let pressure = rec.take(with_this_mud(scene, &reading));
    let (stale, cautions) = judge(scene, wanted, &reading);
    Some(Slow { reading, pressure, stale, cautions })
}

fn with_this_mud(scene: &Scene, reading: &SlowRate) -> FrictionWithWeight {
    FrictionWithWeight { loss: reading.pressure, mud_weight: reading.weight, other_weight: scene.section().mud.weight }
}

fn judge(scene: &Scene, wanted: Wanted, reading: &SlowRate) -> (Vec<Remark>, Vec<Remark>) {
    let section = scene.section();
    let (mut stale, mut cautions) = (Vec::new(), Vec::new());
    let weight = section.mud.weight;
    if (reading.weight - weight).abs() > SAME_WEIGHT {
        stale.push(
            Remark::new(
                "the slow rate was read with another mud; its pressure is scaled by the weight, its rheology is not known",
            )
            .with("read with", reading.weight, Kind::Density)
            .with("in the hole", weight, Kind::Density),
        );
    }
    if wanted.hole_depth - reading.depth > NEW_HOLE || reading.depth > wanted.hole_depth + NEW_HOLE {
        stale.push(Remark::new("the slow rate was read at another depth").with("read at", reading.depth, Kind::Depth).with(
            "hole at",
            wanted.hole_depth,
            Kind::Depth,
        ));
    }
    match reading.liner {
        Some(liner) if (liner - section.drilling.liner).abs() > SAME_LINER => stale.push(
            Remark::new("the slow rate was read with another liner: the same strokes are another flow")
                .with("read with", liner, Kind::Diameter)
                .with("fitted", section.drilling.liner, Kind::Diameter),
        ),
        Some(_) => {}
        None => cautions.push(Remark::new(
            "nobody wrote down the liner of the slow rate (`section[].slow_rate[].liner`): with another one fitted since, it is stale",
        )),
    }
    match (reading.date, section.mud.rheogram.date) {
        (Some(read), Some(mud)) if read < mud => {
            stale.push(Remark::new(format!("the slow rate of {read} is older than the mud of {mud}")));
        }
        (None, _) => cautions.push(Remark::new("the slow rate bears no date (`section[].slow_rate[].date`): it may be stale")),
        _ => {}
    }
    if let (Some(read), Some(today)) = (reading.date, wanted.as_of) {
        // A span between two days of the calendar always has a number of days.
        let days = (today - read).get_days();
        if days > OLD {
            stale.push(Remark::new(format!(
                "the slow rate of {read} is {days} days old on {today}; it is read each tour (common practice)"
            )));
        } else if days < 0 {
            cautions.push(Remark::new(format!(
                "the slow rate is dated {read}, after the day of this sheet, {today}: a plan, not a reading"
            )));
        }
    }
    cautions.push(Remark::new(
        "a change of bit, nozzles, motor or string since the slow rate was read makes it stale too; the files do not tell",
    ));
    (stale, cautions)
}

/// The pressures of a kill at every rate read in the section, slowest first.
pub(super) fn rates(ground: Ground) -> Vec<Rate> {
    let Ground { scene, order, volumes, kill_weight } = ground;
    let drill_pipe_pressure = order.readings.drill_pipe_pressure;
    let mud_weight = scene.section().mud.weight;
    let rate = |reading: &SlowRate| {
        let slow_pressure = with_this_mud(scene, reading).value();
        Rate {
            pump_speed: reading.pump_speed,
            depth: reading.depth,
            slow_pressure,
            initial_pressure: InitialCirculatingPressure { drill_pipe_pressure, slow_pressure }.value(),
            final_pressure: FinalCirculatingPressure { slow_pressure, kill_weight, mud_weight }.value(),
            circulation: volumes.strokes(volumes.circulation()) / reading.pump_speed,
        }
    };
    let mut rates: Vec<Rate> = scene.section().slow_rates.iter().map(rate).collect();
    rates.sort_by(|a, b| a.pump_speed.total_cmp(&b.pump_speed));
    rates
}
