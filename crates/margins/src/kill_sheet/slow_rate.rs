//! The slow circulating rate that a sheet rests on, and whether it still holds.

use super::schedule::modelled;
use super::{Ground, Order, Remark};
use crate::Scene;
use crate::circulating::pumps::output_with;
use crate::control::subsea::reading_loss;
use jiff::civil::Date;
use rigwright_physics::circulating::bit::PressureAtFlow;
use rigwright_physics::control::kill::{FinalCirculatingPressure, InitialCirculatingPressure};
use rigwright_physics::control::subsea::{CasingPressureOnRate, FrictionWithWeight};
use rigwright_physics::{Formula, Kind, Off, Recorder};
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
    /// Loss in the choke line from the sea bed with that mud; `None` with preventers at surface, or where nobody knows. [Pa]
    pub choke_line_loss: Option<f64>,
    /// Why it no longer holds; empty when it does.
    pub stale: Vec<Remark>,
    /// What it leaves open.
    pub cautions: Vec<Remark>,
}

/// A pump speed with the pressures of a kill at it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rate {
    /// Pump speed. [1/s]
    pub pump_speed: f64,
    /// Whether it was read, or scaled by the pressure-loss model from the reading that the sheet rests on.
    pub read: bool,
    /// Number of the pump.
    pub pump: Option<u32>,
    /// Output of one of its strokes. [m³]
    pub pump_output: f64,
    /// Measured depth when it was read. [m]
    pub depth: f64,
    /// Slow rate pressure with the mud in the hole. [Pa]
    pub slow_pressure: f64,
    /// Initial circulating pressure. [Pa]
    pub initial_pressure: f64,
    /// Final circulating pressure. [Pa]
    pub final_pressure: f64,
    /// Its strokes to the bit. [-]
    pub to_bit: f64,
    /// Time of one circulation, pump to pump. [s]
    pub circulation: f64,
}

/// A step of bringing the pump to rate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StartStep {
    /// Pump speed. [1/s]
    pub pump_speed: f64,
    /// Pressure to hold at the choke. [Pa]
    pub choke: f64,
    /// What the drill pipe should show then. [Pa]
    pub drill_pipe: f64,
}

/// What a reading is looked up for.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wanted {
    /// Measured depth of the hole. [m]
    pub(crate) hole_depth: f64,
    /// Pump speed wanted. [1/s]
    pub(crate) pump_speed: Option<f64>,
    /// Number of the pump wanted.
    pub(crate) pump: Option<u32>,
    /// Day of the paper.
    pub(crate) as_of: Option<Date>,
}

impl From<&Order> for Wanted {
    fn from(order: &Order) -> Wanted {
        Wanted { hole_depth: order.hole_depth, pump_speed: order.pump_speed, pump: None, as_of: order.as_of }
    }
}

/// What a sheet without any reading says on its face.
pub(super) fn missing() -> Vec<Remark> {
    vec![Remark::new(
        "no slow rate was read in this section (`section[].slow_rate[]`): initial and final circulating pressure and the schedule are unknown. Bring the pump to rate with the casing pressure held, and read the drill pipe: what it shows is the initial circulating pressure",
    )]
}

/// The reading of the pump wanted that is nearest in depth; of several there, the one nearest to the speed wanted, or the slowest.
pub(crate) fn choose<R: Recorder>(scene: &Scene, wanted: Wanted, rec: &mut R) -> Option<Slow> {
    let readings = &scene.section().slow_rates;
    let off = |reading: &SlowRate| (reading.depth - wanted.hole_depth).abs();
    let speed = |reading: &SlowRate| wanted.pump_speed.map_or(reading.pump_speed, |speed| (reading.pump_speed - speed).abs());
    let better = |a: &&SlowRate, b: &&SlowRate| match wanted.pump_speed {
        Some(_) => speed(a).total_cmp(&speed(b)).then(off(a).total_cmp(&off(b))),
        None => off(a).total_cmp(&off(b)).then(speed(a).total_cmp(&speed(b))),
    };
    let of_pump = |reading: &&SlowRate| wanted.pump.is_none() || reading.pump == wanted.pump;
    let reading = *readings.iter().filter(of_pump).min_by(better)?;
    rec.heading("slow rate pressure");
    rec.given("as read", reading.pressure, Kind::Pressure);
    rec.given("at a pump speed of", reading.pump_speed, Kind::StrokeRate);
    let pressure = rec.take(with_this_mud(scene, &reading));
    let choke_line_loss = reading_loss(scene, &reading, scene.section().mud.weight, rec);
    let (stale, cautions) = judge(scene, wanted, &reading);
    Some(Slow { reading, pressure, choke_line_loss, stale, cautions })
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

/// The pressures of a kill at every rate read in the section, and at a third more and less than the chosen one, slowest first.
pub(super) fn rates(ground: Ground, chosen: Option<&Slow>) -> Vec<Rate> {
    let Ground { scene, order, volumes, kill_weight } = ground;
    let drill_pipe_pressure = order.readings.drill_pipe_pressure;
    let mud_weight = scene.section().mud.weight;
    let rate = |reading: &SlowRate, pump_speed: f64, slow_pressure: f64, read: bool| {
        let liner = reading.liner.unwrap_or(scene.section().drilling.liner);
        let pump_output = output_with(scene, liner, &mut Off).map_or(volumes.pump_output, |exact| exact * order.constants.output);
        Rate {
            pump_speed,
            read,
            pump: reading.pump,
            pump_output,
            depth: reading.depth,
            slow_pressure,
            initial_pressure: InitialCirculatingPressure { drill_pipe_pressure, slow_pressure }.value(),
            final_pressure: FinalCirculatingPressure { slow_pressure, kill_weight, mud_weight }.value(),
            to_bit: volumes.to_bit() / pump_output,
            circulation: volumes.circulation() / pump_output / pump_speed,
        }
    };
    let readings = scene.section().slow_rates.iter();
    let mut rates: Vec<Rate> =
        readings.map(|reading| rate(reading, reading.pump_speed, with_this_mud(scene, reading).value(), true)).collect();
    if let Some(slow) = chosen {
        let reading = &slow.reading;
        let scaled = OTHER_RATES.iter().filter_map(|share| {
            let speed = share * reading.pump_speed;
            Some(rate(reading, speed, slow.pressure * model_share(ground, reading, *share)?, false))
        });
        rates.extend(scaled);
    }
    rates.sort_by(|a, b| a.pump_speed.total_cmp(&b.pump_speed));
    rates
}

/// Other speeds for which pressures are told, as shares of the chosen one.
const OTHER_RATES: [f64; 2] = [2.0 / 3.0, 4.0 / 3.0];

/// Pressure at a share of a reading's speed over that at the speed itself, by the model.
fn model_share(ground: Ground, reading: &SlowRate, share: f64) -> Option<f64> {
    let flow = reading.pump_speed * ground.volumes.pump_output;
    let (other, at_reading) = (modelled(ground.scene, share * flow)?, modelled(ground.scene, flow)?);
    (at_reading > 0.0).then(|| other / at_reading)
}

/// Exponent of the flow rate in the loss of a choke line (Lapeyrouse, ch. 4, from memory).
const CHOKE_LINE: f64 = 1.86;
/// Steps in which the pump is brought to rate.
const START_STEPS: u32 = 4;

/// Bringing the pump to rate: the casing pressure is held at what it read shut in, from the sea bed less the loss in the choke
/// line, so that the kill line stays still; the drill pipe rises to the initial circulating pressure. Where the model cannot tell, friction goes by the square of the speed, common practice.
pub(super) fn start_up(ground: Ground, slow: &Slow) -> Vec<StartStep> {
    let readings = &ground.order.readings;
    let step = |step: u32| {
        let share = f64::from(step) / f64::from(START_STEPS);
        let friction = if step == 0 {
            0.0
        } else {
            let square = PressureAtFlow { pressure: slow.pressure, flow_ratio: share, flow_exponent: 2.0 };
            model_share(ground, &slow.reading, share).map_or_else(|| square.value(), |model| slow.pressure * model)
        };
        let choke_line_friction = match slow.choke_line_loss {
            Some(pressure) if step > 0 => PressureAtFlow { pressure, flow_ratio: share, flow_exponent: CHOKE_LINE }.value(),
            _ => 0.0,
        };
        let casing_pressure = readings.casing_pressure;
        StartStep {
            pump_speed: share * slow.reading.pump_speed,
            choke: CasingPressureOnRate { casing_pressure, choke_line_friction }.value(),
            // What the choke cannot give back comes on top of everything.
            drill_pipe: readings.drill_pipe_pressure + friction + (choke_line_friction - casing_pressure).max(0.0),
        }
    };
    (0..=START_STEPS).map(step).collect()
}
